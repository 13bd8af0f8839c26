//! How uncertainty goes through a formula, and what is said where there is nothing to go through it.

use super::builder::Fact;
use super::typed::{Erased, InputSpec, InputValue, Unavailable};
use super::value::{Bound, Missing, Num, Roots};
use std::collections::BTreeSet;

/// First order, by central differences of ± one standard uncertainty (JCGM 100:2008, 5.1.3, note 2); shares of a root
/// common to several inputs add with their sign, which is their correlation (5.2.2).
pub(super) fn propagate(
    formula: &Erased,
    value: f64,
    inputs: &mut [InputValue],
    numbers: &[Option<&Num>],
    wants: &[InputSpec],
) -> Roots {
    let mut roots = Roots::default();
    for (n, number) in numbers.iter().enumerate() {
        let Some(number) = number else { continue };
        let u = number.uncertainty();
        let mut slope = 0.0;
        if u > 0.0 && !wants.get(n).is_some_and(|wanted| wanted.shape) {
            let mut moved = |by: f64| {
                if let Some(input) = inputs.get_mut(n) {
                    input.si = number.value + by;
                }
                formula(inputs).ok().filter(|v| v.is_finite())
            };
            slope = match (moved(u), moved(-u)) {
                (Some(up), Some(down)) => (up - down) / (2.0 * u),
                (Some(up), None) => (up - value) / u,
                (None, Some(down)) => (value - down) / u,
                (None, None) => 0.0,
            };
            if let Some(input) = inputs.get_mut(n) {
                input.si = number.value;
            }
        }
        roots.add(&number.roots, slope);
    }
    roots
}

/// Whether a value is only a bound: where it is at an end of what its formula can say, and where it is made of a bound. By
/// which way it goes with that one, in steps of a millionth.
///
/// # Errors
/// Where bounds pull both ways, which leaves nothing.
pub(super) fn bounded(
    formula: &Erased,
    ends: Option<[f64; 2]>,
    value: f64,
    inputs: &mut [InputValue],
    numbers: &[Option<&Num>],
) -> Result<Option<Bound>, Unavailable> {
    let mut found = match ends {
        Some([_, high]) if value >= high => Some(Bound::OrMore),
        Some([low, _]) if value <= low => Some(Bound::OrLess),
        _ => None,
    };
    for (n, number) in numbers.iter().enumerate() {
        let Some((number, bound)) = number.and_then(|number| Some((number, number.bound?))) else { continue };
        let step = 1e-6 * number.value.abs().max(1e-6);
        let mut moved = |by: f64| {
            if let Some(input) = inputs.get_mut(n) {
                input.si = number.value + by;
            }
            formula(inputs).ok()
        };
        let rise = moved(step).zip(moved(-step)).map_or(0.0, |(up, down)| up - down);
        if let Some(input) = inputs.get_mut(n) {
            input.si = number.value;
        }
        let here = match rise {
            r if r > 0.0 => bound,
            r if r < 0.0 => bound.turned(),
            _ => continue,
        };
        if found.is_some_and(|found| found != here) {
            return Err(Unavailable::Outside("it is made of bounds that pull both ways"));
        }
        found = Some(here);
    }
    Ok(found)
}

/// What a formula's refusal tells the reader.
pub(super) fn refusal(fact: &Fact, why: Unavailable) -> Missing {
    match why {
        Unavailable::Field(path) => Missing::Field(path.to_owned()),
        Unavailable::Outside(what) => Missing::Outside(format!("{}: {what}", fact.info.id)),
    }
}

/// Of several ways that all lack something, those that lack least: a hole in a set that was begun before a field that
/// nobody has touched. Ties are all named.
pub(super) fn nearest(lacks: Vec<BTreeSet<Missing>>) -> BTreeSet<Missing> {
    let cost = |lack: &BTreeSet<Missing>| -> usize {
        lack.iter()
            .map(|m| match m {
                Missing::NotRead(_) => 2,
                Missing::Field(_) => 3,
                Missing::Outside(_) => 100,
            })
            .sum()
    };
    let least = lacks.iter().map(cost).min().unwrap_or(0);
    lacks.into_iter().filter(|l| cost(l) == least).flatten().collect()
}
