//! What moves what: behind stale readings and behind what a remedy disturbs. The entries of the fields say it.

use thou_facts::Catalogue;
use thou_fields::{Field, Moved};
use thou_sheet::Sheet;

/// What a piece of work does to a reading, if it makes it untrue. `part` tells which part was changed.
#[must_use]
pub fn moved(sheet: &Sheet, reading: &str, did: &str, part: Option<&str>) -> Option<Moved> {
    sheet.reading_field(reading)?.moved_by.iter().find(|m| m.is(did, part)).copied()
}

/// What setting a fact to size disturbs, in words with the amount: `{by}` is the change, `{pi-by}` pi times it.
#[must_use]
pub fn knock_on(fact: &str) -> Option<&'static str> {
    field(fact)?.disturbs
}

/// Whether setting this fact to size takes metal off, so that it cannot be undone.
#[must_use]
pub fn cuts_metal(fact: &str) -> bool {
    field(fact).is_some_and(|f| f.cuts_metal)
}

fn field(fact: &str) -> Option<&'static Field> {
    thou_fields::field(Catalogue::standard().info(fact)?.path?)
}
