//! Entries that look like one that is there.

use thou_life::entry::{Entry, What};

/// An entry of the same event that says the same.
pub(super) fn same<'a>(entry: &Entry, there: &'a [Entry]) -> Option<&'a Entry> {
    there
        .iter()
        .find(|t| t.engine == entry.engine && t.day == entry.day && t.event == entry.event && t.what == entry.what)
}

/// The same pass once more: its elapsed time is the same to the last figure. Passes without one can be alike.
pub(super) fn twin<'a>(entry: &Entry, there: &'a [Entry]) -> Option<&'a Entry> {
    matches!(entry.what, What::Ran { elapsed: Some(_), .. }).then(|| same(entry, there)).flatten()
}
