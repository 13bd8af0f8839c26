//! Every public function of the crate, called with the numbers that its docs allow and with any that are finite.
//!
//! Within its range each gives a number; with anything finite none panics, and one without an end would leave this test
//! without one. What a function does outside of its range its docs say: a refusal, or no number.
#![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic, unreachable_pub)]

mod draw;
mod films;
mod gases;
mod measures;
mod parts;
mod shapes;

use draw::{Draw, Walk};
use std::collections::BTreeSet;
use std::path::Path;

fn walks() -> impl Iterator<Item = &'static Walk> {
    [shapes::WALKS, parts::WALKS, gases::WALKS, films::WALKS, measures::WALKS].into_iter().flatten()
}

/// Whole cycles and orbits.
const LONG: [&str; 12] = [
    "main_bearing::Mains::loads",
    "cycle::Setup::with_mass",
    "cycle::Setup::at_brake",
    "cycle::Setup::at_brake_near",
    "cycle::Near::of",
    "knock::EndGas::follow",
    "orbit::orbit",
    "orbit::follow",
    "orbit::Loads::of",
    "orbit::Loads::later",
    "orbit::Loads::peak",
    "weibull::Lives::life_limits",
];

fn calls(name: &str) -> u32 {
    if LONG.contains(&name) || name.starts_with("trace::Cycle") { 60 } else { 3_000 }
}

#[test]
fn inside_its_range_every_function_has_a_number() {
    let mut wrong = Vec::new();
    for (name, walk) in walks() {
        let mut draw = Draw { rng: fastrand::Rng::with_seed(20_261_126), wild: false };
        for call in 0..calls(name) {
            let told = walk(&mut draw);
            if told.refused.is_some() || !told.numbers.iter().all(|n| n.is_finite()) {
                wrong.push(format!("{name}, call {call}: {:?} {:.200?}", told.refused, told.numbers));
                break;
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn with_any_finite_number_each_ends_without_a_panic() {
    for (name, walk) in walks() {
        let mut draw = Draw { rng: fastrand::Rng::with_seed(7), wild: true };
        for call in 0..2 * calls(name) {
            let seed = draw.rng.get_seed();
            let ended = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| walk(&mut draw)));
            assert!(ended.is_ok(), "{name}, call {call}, seed {seed}: it panicked");
        }
    }
}

/// The public functions of a file, as `file::Type::name` or `file::name`.
fn public(stem: &str, source: &str, into: &mut BTreeSet<String>) {
    let mut of = String::new();
    for line in source.lines() {
        if line.starts_with("#[cfg(test)]") {
            break;
        }
        if line == "}" {
            of.clear();
        } else if let Some(rest) = line.strip_prefix("impl") {
            let rest = rest.rsplit_once(" for ").map_or(rest, |(_, after)| after);
            let rest =
                if rest.starts_with('<') { rest.split_once("> ").map_or(rest, |(_, after)| after) } else { rest };
            of = rest.trim().chars().take_while(|c| c.is_alphanumeric()).collect();
        }
        let line = line.trim_start();
        let Some(name) = line.strip_prefix("pub fn ").or_else(|| line.strip_prefix("pub const fn ")) else { continue };
        let name: String = name.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
        into.insert(if of.is_empty() { format!("{stem}::{name}") } else { format!("{stem}::{of}::{name}") });
    }
}

fn sources(folder: &Path, into: &mut BTreeSet<String>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let stem = path.file_stem().unwrap().to_str().unwrap().to_owned();
        if path.is_dir() {
            sources(&path, into);
        } else if !stem.ends_with("tests") {
            public(&stem, &std::fs::read_to_string(&path).unwrap(), into);
        }
    }
}

#[test]
fn no_public_function_is_left_out() {
    let mut all = BTreeSet::new();
    sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut all);
    let walked: BTreeSet<String> = walks().map(|(name, _)| (*name).to_owned()).collect();
    let left: Vec<_> = all.difference(&walked).collect();
    assert!(left.is_empty(), "call these in tests/any_input: {left:#?}");
    let gone: Vec<_> = walked.difference(&all).collect();
    assert!(gone.is_empty(), "tests/any_input calls what is no public function: {gone:#?}");
    assert!(all.len() > 250, "{}", all.len());
}
