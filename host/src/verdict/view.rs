//! Short ways to ask the facts.

use crate::facts::{Cell, FactInfo, Missing, Num, Root, SheetFacts};
use crate::sheet::Sheet;

/// What judging and reporting ask of the facts.
pub(crate) trait View {
    /// What the catalogue says of a fact.
    fn info(&self, id: &str) -> Option<&FactInfo>;
    /// Every place of a fact; nothing for a name that is not in the catalogue.
    fn cells(&self, id: &str) -> &[Cell];
    /// What a value hangs on.
    fn roots(&self, num: &Num) -> impl Iterator<Item = &Root>;
    /// Where the sheet holds a fact, as a JSON pointer.
    fn where_stated(&self, id: &str) -> Option<String>;
}

impl View for SheetFacts<'_> {
    fn info(&self, id: &str) -> Option<&FactInfo> {
        self.catalogue().info(id)
    }
    fn cells(&self, id: &str) -> &[Cell] {
        self.get(id).unwrap_or_default()
    }
    fn roots(&self, num: &Num) -> impl Iterator<Item = &Root> {
        num.roots.keys().map(|id| self.root(id))
    }
    fn where_stated(&self, id: &str) -> Option<String> {
        let path = self.info(id)?.path?;
        Some(format!("/{}", path.replace('.', "/")))
    }
}

/// Whether the value was read as such, and not made from other readings.
pub(crate) fn is_direct(facts: &SheetFacts<'_>, info: &FactInfo, num: &Num) -> bool {
    let key = info.path.and_then(|p| p.strip_prefix("readings."));
    key.is_some() && facts.roots(num).any(|r| r.reading.as_deref() == key)
}

/// Whether everything that was read for a value was read twice.
pub(crate) fn read_twice(sheet: &Sheet, facts: &SheetFacts<'_>, num: &Num) -> bool {
    let keys = || facts.roots(num).filter_map(|r| r.reading.as_deref());
    keys().next().is_some()
        && keys().all(|key| sheet.readings.get(key).and_then(|sets| sets.last()).is_some_and(|s| s.twice))
}

/// What would bring a value, as a hand would look for it in the sheet.
pub(crate) fn wanted(missing: &Missing) -> String {
    match missing {
        Missing::Field(path) => path.clone(),
        Missing::Outside(words) => words.clone(),
        Missing::NotRead(pointer) => match pointer.trim_start_matches('/').split_once("/at/") {
            Some((set, place)) => format!("{} at {}", set.replace('/', "."), place.split('/').next().unwrap_or(place)),
            None => pointer.trim_start_matches('/').replace('/', "."),
        },
    }
}
