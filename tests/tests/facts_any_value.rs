//! The catalogue over sheets whose readings and statements are anything finite: nothing, next to nothing, huge, negative.
//!
//! What a fact has is a finite number with a finite uncertainty, and what it has not says why; no formula panics.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use fastrand::Rng;
use thou::facts::{Catalogue, Missing, SheetFacts, ValueKind};
use thou_tests::{samples, sheet_of};

/// A slip of the pen, or a figure that no engine has.
fn odd(rng: &mut Rng, was: Option<f64>) -> f64 {
    const ODD: [f64; 12] = [0.0, -0.0, 5e-324, -1e-300, 1e-300, 1e-12, -1e-3, 1.0, -1e6, 1e12, 1e300, -1e300];
    const SLIPS: [f64; 8] = [-1.0, 1e-6, 1e-3, 0.1, 0.5, 2.0, 10.0, 1e6];
    match was {
        Some(value) if rng.bool() => value * SLIPS[rng.usize(..SLIPS.len())],
        _ => ODD[rng.usize(..ODD.len())],
    }
}

/// Every cell of every fact, with a word for what is wrong with it.
fn wrong(facts: &SheetFacts<'_>, changed: &[(&str, usize, f64)]) -> Vec<String> {
    let mut found = Vec::new();
    for info in facts.catalogue().all() {
        for (place, cell) in facts.get(info.id).unwrap().iter().enumerate() {
            match cell {
                // what was put there is finite by itself, and keeps what uncertainty it had
                Ok(_) if changed.iter().any(|c| c.0 == info.id && c.1 == place) => {}
                Ok(number) if !number.value.is_finite() => found.push(format!("{} is {}", info.id, number.value)),
                Ok(number) if !number.uncertainty().is_finite() => {
                    found.push(format!("{} is {} ± {}", info.id, number.value, number.uncertainty()));
                }
                Err(lack) if lack.iter().any(|l| matches!(l, Missing::Outside(why) if why.trim().is_empty())) => {
                    found.push(format!("{} does not say why it is not there", info.id));
                }
                _ => {}
            }
        }
    }
    found
}

#[test]
fn no_fact_is_without_a_number_that_says_it_has_one() {
    let mut rng = Rng::with_seed(1_126);
    let mut there = 0_usize;
    for name in ["sample-builds", "sample-builds/planted"].iter().flat_map(|f| samples(f)) {
        let sheet = sheet_of(&name);
        let plain = SheetFacts::new(Catalogue::standard(), &sheet);
        assert_eq!(wrong(&plain, &[]), Vec::<String>::new(), "{name}, as it is");
        let inputs: Vec<_> =
            plain.catalogue().all().filter(|f| f.path.is_some() && matches!(f.value, ValueKind::Quantity(_))).collect();
        for round in 0..60 {
            let changes: Vec<(&str, usize, f64)> = (0..rng.usize(1..10))
                .map(|_| {
                    let info = inputs[rng.usize(..inputs.len())];
                    let cells = plain.get(info.id).unwrap();
                    let place = rng.usize(..cells.len().max(1));
                    let was = cells.get(place).and_then(|c| c.as_ref().ok()).map(|n| n.value);
                    (info.id, place, odd(&mut rng, was))
                })
                .collect();
            let moved = plain.fork(&changes);
            let found = wrong(&moved, &changes);
            assert!(found.is_empty(), "{name}, round {round}, with {changes:?}: {found:#?}");
            there += moved.catalogue().all().filter(|f| moved.get(f.id).unwrap().iter().any(Result::is_ok)).count();
        }
    }
    assert!(there > 100_000, "most facts are there whatever is written: {there}");
}
