//! Entries by their ids, or by as much of one as a thumb has typed.

use thou_book::Refusal;
use thou_life::entry::Entry;

/// The entry of an engine that counts and has this id, or the only one whose id begins so; none where there is none.
pub(super) fn by_id<'a>(all: &'a [(Entry, bool)], id: &str) -> Result<Option<&'a Entry>, String> {
    let counting = || all.iter().filter(|(_, counts)| *counts).map(|(entry, _)| entry);
    if let Some(exact) = counting().find(|e| e.id == id) {
        return Ok(Some(exact));
    }
    // a phone writes the first letter large
    let begins = |e: &&Entry| e.id.get(..id.len()).is_some_and(|start| start.eq_ignore_ascii_case(id));
    let found: Vec<&Entry> = counting().filter(begins).collect();
    match found.as_slice() {
        [one] => Ok(Some(one)),
        [] if all.iter().any(|(e, counts)| !counts && e.id == id) => {
            Err(Refusal::UndoneBefore { id: id.to_owned() }.to_string())
        }
        [] => Ok(None),
        several => {
            let ids: Vec<&str> = several.iter().map(|e| e.id.as_str()).collect();
            Err(format!("\"{id}\" is the beginning of {}: write more of it", ids.join(", ")))
        }
    }
}
