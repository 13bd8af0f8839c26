//! Readings that something was done to since.

use super::item::Stale;
use super::moves;
use super::view::is_direct;
use jiff::civil::Date;
use thou_facts::{FactInfo, Num, SheetFacts};
use thou_sheet::Sheet;
use thou_sheet::model::Work;

/// The first piece of work, by its day, that a value's readings were taken before.
pub(super) fn stale(sheet: &Sheet, facts: &SheetFacts<'_>, info: &FactInfo, num: &Num) -> Option<Stale> {
    sheet.work.iter().find_map(|work| after(sheet, facts, info, num, work))
}

fn after(sheet: &Sheet, facts: &SheetFacts<'_>, info: &FactInfo, num: &Num, work: &Work) -> Option<Stale> {
    let (read, factor) = facts.roots(num).find_map(|root| {
        let read: Date = root.when.filter(|read| *read < work.when)?;
        let key = root.reading.as_deref()?;
        let place = place_of(&root.pointer);
        let moved = moves::moved(sheet, key, &work.did, work.part.as_deref())?;
        let here = work.at.is_empty() || place.is_none_or(|p| belongs(sheet, &work.at, p));
        here.then_some((read, moved.by))
    })?;
    let now_about = match (work.took, factor) {
        (Some(took), Some(factor)) if is_direct(facts, info, num) => Some(num.value + took * factor),
        _ => None,
    };
    Some(Stale { did: work.did.clone(), when: work.when, read, now_about })
}

/// `/readings/top-gap/0/at/6/2` is key `top-gap`, place `6`.
pub(super) fn reading_key(pointer: &str) -> Option<(&str, Option<&str>)> {
    let rest = pointer.strip_prefix("/readings/")?;
    Some((rest.split('/').next()?, place_of(pointer)))
}

fn place_of(pointer: &str) -> Option<&str> {
    pointer.split("/at/").nth(1).and_then(|p| p.split('/').next())
}

/// A place of the work, or of something at that place: valve `3E` belongs to cylinder `3`.
fn belongs(sheet: &Sheet, at: &[String], place: &str) -> bool {
    use thou_sheet::model::Axis;
    at.iter().any(|a| a == place)
        || sheet
            .places
            .labels(Axis::Valve)
            .iter()
            .position(|v| v == place)
            .and_then(|v| sheet.places.project(Axis::Cylinder, Axis::Valve, v))
            .and_then(|c| sheet.places.labels(Axis::Cylinder).get(c))
            .is_some_and(|c| at.contains(c))
}
