//! All the windows on one fact: where they count, what they leave, and the size that the fact is set by.

use super::bench::Bench;
use std::cell::Cell;
use std::collections::BTreeMap;
use thou_sheet::model::Axis;
use thou_verdict::{Limits, Solved, Verdict, WindowItem, Worn, remedy};

/// All the windows on one fact.
pub(super) struct FactWindows<'a> {
    pub(super) fact: &'a str,
    pub(super) axis: Axis,
    pub(super) windows: Vec<&'a WindowItem>,
}

/// The windows of an operation by fact, wear limits of used parts in place of build limits where the part is used.
pub(super) fn sets<'a>(bench: &Bench<'_>, verdict: &'a Verdict, operation: &str) -> Vec<FactWindows<'a>> {
    let worn = Worn::of(&verdict.windows);
    // the first window on a fact says which page the fact is on
    let mut pages: BTreeMap<&str, &str> = BTreeMap::new();
    let (mut sets, mut at): (Vec<FactWindows<'a>>, BTreeMap<&str, usize>) = (Vec::new(), BTreeMap::new());
    for window in &verdict.windows {
        let page = *pages.entry(&window.fact).or_insert(&window.operation);
        if page != operation || !worn.counts(bench.sheet, bench.facts, window) {
            continue;
        }
        let index = *at.entry(&window.fact).or_insert_with(|| {
            let axis = bench.facts.info(&window.fact).map_or(Axis::One, |i| i.axis);
            sets.push(FactWindows { fact: &window.fact, axis, windows: Vec::new() });
            sets.len() - 1
        });
        if let Some(set) = sets.get_mut(index) {
            set.windows.push(window);
        }
    }
    sets
}

pub(super) fn judged_at(set: &FactWindows<'_>, place: usize) -> bool {
    set.windows.iter().any(|w| w.place.is_none_or(|p| p == place))
}

/// What all the windows leave at a place.
pub(super) fn room(set: &FactWindows<'_>, place: usize) -> Option<Limits> {
    let limits: Vec<Limits> =
        set.windows.iter().filter(|w| w.place.is_none_or(|p| p == place)).map(|w| w.limits).collect();
    remedy::intersect(&limits)
}

/// The size that this fact is set by, if it is machined to size.
pub(super) fn wish<'a>(set: &FactWindows<'a>) -> Option<&'a str> {
    set.windows
        .iter()
        .flat_map(|w| [&w.text.low, &w.text.high])
        .flatten()
        .find_map(|r| r.solve.as_ref())
        .filter(|s| s.fact != set.fact)
        .map(|s| s.fact.as_str())
}

/// The size to go to at every place, where the fixed parts give one.
pub(super) fn solved(bench: &Bench<'_>, set: &FactWindows<'_>) -> Vec<Solved> {
    let Some(change) = wish(set) else { return Vec::new() };
    let places = (0..bench.sheet.places.count(set.axis)).filter(|p| judged_at(set, *p));
    places.filter_map(|place| size_at(bench, set, change, place, room(set, place)?)).collect()
}

/// It does not hang on what is there now.
pub(super) fn size_at(
    bench: &Bench<'_>,
    set: &FactWindows<'_>,
    change: &str,
    place: usize,
    limits: Limits,
) -> Option<Solved> {
    let left = &Cell::new(remedy::WORKED_OUT);
    let wish = remedy::Wish { judged: set.fact, axis: set.axis, place, limits, change, may: "either", left };
    remedy::solve(bench.sheet, bench.facts, &wish)
}
