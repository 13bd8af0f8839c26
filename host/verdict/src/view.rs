//! Short ways to ask the facts.

use thou_facts::{FactInfo, Missing, Num, SheetFacts};
use thou_sheet::Sheet;

/// Whether the value was read as such, and not made from other readings.
pub fn is_direct(facts: &SheetFacts<'_>, info: &FactInfo, num: &Num) -> bool {
    let key = info.path.map(|p| p.strip_prefix("readings.").unwrap_or(p));
    key.is_some() && facts.roots(num).any(|r| r.reading.as_deref() == key)
}

/// Whether everything that was read for a value was read twice.
pub fn read_twice(sheet: &Sheet, facts: &SheetFacts<'_>, num: &Num) -> bool {
    let keys = || facts.roots(num).filter_map(|r| r.reading.as_deref());
    keys().next().is_some()
        && keys().all(|key| sheet.readings.get(key).and_then(|sets| sets.last()).is_some_and(|s| s.twice))
}

/// What would bring a value, as a hand would look for it in the sheet.
pub fn wanted(missing: &Missing) -> String {
    match missing {
        Missing::Field(path) => path.clone(),
        Missing::Outside(words) => words.clone(),
        Missing::NotRead(pointer) => match pointer.trim_start_matches('/').split_once("/at/") {
            Some((set, place)) => format!("{} at {}", set.replace('/', "."), place.split('/').next().unwrap_or(place)),
            None => pointer.trim_start_matches('/').replace('/', "."),
        },
    }
}
