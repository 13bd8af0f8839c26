//! A part is in one place at a time: what may be written about a number.

use crate::derive::parse;
use crate::error::Refusal;
use jiff::civil::Date;
use rusqlite::Connection;
use thou_life::entry::{Entry, What};

/// One entry about a part; the new one has no id yet.
struct PartEntry {
    id: Option<String>,
    entry: Entry,
}

/// Whether an entry about a part fits among those that are there.
pub(crate) fn check(db: &Connection, entry: &Entry) -> rusqlite::Result<Option<Refusal>> {
    let Some(serial) = entry.what.serial() else { return Ok(None) };
    let mut turns = turns(db, serial, None)?;
    if let What::Fitted { part, .. } = &entry.what {
        let known = turns.iter().find_map(|turn| match &turn.entry.what {
            What::Fitted { part: known, .. } if known != part => Some(known.clone()),
            _ => None,
        });
        if let Some(known) = known {
            return Ok(Some(Refusal::OtherPart { serial: serial.to_owned(), part: part.clone(), known }));
        }
    }
    let at = turns.partition_point(|turn| turn.entry.day <= entry.day);
    turns.insert(at, PartEntry { id: None, entry: entry.clone() });
    Ok(walk(&turns))
}

/// Whether an entry about a part may be taken away.
pub(crate) fn check_without(db: &Connection, seq: i64, entry: &Entry) -> rusqlite::Result<Option<Refusal>> {
    let Some(serial) = entry.what.serial() else { return Ok(None) };
    Ok(walk(&turns(db, serial, Some(seq))?))
}

fn turns(db: &Connection, serial: &str, without: Option<i64>) -> rusqlite::Result<Vec<PartEntry>> {
    let mut statement = db.prepare_cached(
        "SELECT id, json FROM entry WHERE serial = ? AND seq <> ?
            AND NOT EXISTS (SELECT 1 FROM undone WHERE undone.seq = entry.seq)
         ORDER BY day, seq",
    )?;
    let rows = statement.query_map(rusqlite::params![serial, without.unwrap_or(-1)], |row| {
        Ok(PartEntry { id: row.get(0)?, entry: parse(row, 1)? })
    })?;
    rows.collect()
}

/// Follows a part from engine to engine; the first step that cannot be.
fn walk(turns: &[PartEntry]) -> Option<Refusal> {
    let mut now: Option<(&str, Date)> = None;
    for PartEntry { id, entry } in turns {
        let serial = entry.what.serial().unwrap_or("").to_owned();
        let here = now.is_some_and(|(engine, _)| engine == entry.engine);
        let wrong = match (&entry.what, now) {
            (What::Fitted { .. }, Some((engine, since))) => {
                Some(Refusal::Fitted { serial: serial.clone(), engine: engine.to_owned(), since })
            }
            (What::Removed { .. } | What::Tightened { .. }, at) if !here => Some(Refusal::NotIn {
                serial: serial.clone(),
                engine: entry.engine.clone(),
                day: entry.day,
                hint: match at {
                    Some((engine, _)) => format!(": it is in {engine}"),
                    None => format!(": log first when it was fitted, `thou log add {} fitted ...`", entry.engine),
                },
            }),
            _ => None,
        };
        match (wrong, id) {
            (Some(wrong), None) => return Some(wrong),
            (Some(_), Some(later)) => return Some(Refusal::Later { serial, later: later.clone(), day: entry.day }),
            (None, _) => {}
        }
        match entry.what {
            What::Fitted { .. } => now = Some((&entry.engine, entry.day)),
            What::Removed { .. } => now = None,
            _ => {}
        }
    }
    None
}
