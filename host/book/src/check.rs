//! Holding a book against itself.

use crate::error::BookError;
use crate::{Book, derive};
use rusqlite::Connection;

/// What follows from the entries, a row a line.
const DERIVED: &[(&str, &str)] = &[
    ("meters", "SELECT engine || ' ' || meter, json_array(total, zero, read_at, freshened) FROM meter ORDER BY 1"),
    ("events", "SELECT engine || ' ' || year || ' ' || name, '' FROM event ORDER BY 1"),
    ("what was undone", "SELECT engine || ' ' || seq, '' FROM undone ORDER BY engine, seq"),
    (
        "stretches of parts",
        "SELECT engine || ' ' || serial || ' ' || fitted, json_array(fitted_by, removed_by, part, place, removed,
            at_fitted, at_removed, brought, made, failed, disposition, because) FROM stretch ORDER BY fitted_by",
    ),
    ("tightenings", "SELECT engine || ' ' || serial || ' ' || day, seq FROM tightened ORDER BY seq"),
    ("services done last", "SELECT engine || ' ' || service, json_array(seq, day, at) FROM done ORDER BY 1"),
    ("counts of entries", "SELECT name, entries FROM engine ORDER BY 1"),
];

impl Book {
    /// Holds the book against itself: the file's pages, what points where, and what follows from the entries against
    /// the same made anew in a copy. Writes nothing to the book. Each line names one thing that is wrong.
    ///
    /// # Errors
    /// What the disk says where the book cannot be read at all.
    pub fn check(&self) -> Result<Vec<String>, BookError> {
        let mut wrong = Vec::new();
        let mut copy = Connection::open_in_memory().map_err(|error| self.fault(&error))?;
        {
            let work = rusqlite::backup::Backup::new(&self.db, &mut copy).map_err(|error| self.fault(&error))?;
            work.run_to_completion(10_000, std::time::Duration::ZERO, None).map_err(|error| self.fault(&error))?;
        }
        let mut read = || -> rusqlite::Result<()> {
            let mut statement = copy.prepare("PRAGMA integrity_check(100)")?;
            let lines: Vec<String> = statement.query_map([], |row| row.get(0))?.collect::<rusqlite::Result<_>>()?;
            wrong.extend(lines.into_iter().filter(|line| line != "ok").map(|line| format!("the file: {line}")));
            let mut statement = copy.prepare("PRAGMA foreign_key_check")?;
            let lines = statement.query_map([], |row| {
                Ok(format!(
                    "{} row {:?} points at nothing in {}",
                    row.get::<_, String>(0)?,
                    row.get::<_, Option<i64>>(1)?,
                    row.get::<_, String>(2)?
                ))
            })?;
            for line in lines {
                wrong.push(line?);
            }
            let before = derived(&copy)?;
            let mut statement = copy.prepare("SELECT name FROM engine ORDER BY name")?;
            let names: Vec<String> = statement.query_map([], |row| row.get(0))?.collect::<rusqlite::Result<_>>()?;
            for name in names {
                derive::recompute(&copy, &name)?;
            }
            let after = derived(&copy)?;
            for ((what, before), (_, after)) in before.iter().zip(&after) {
                wrong.extend(
                    before
                        .iter()
                        .filter(|row| !after.contains(row))
                        .map(|(key, row)| format!("{what}: {key} {row} does not follow from the entries")),
                );
                wrong.extend(
                    after
                        .iter()
                        .filter(|row| !before.contains(row))
                        .map(|(key, row)| format!("{what}: {key} {row} follows from the entries and is missing")),
                );
            }
            Ok(())
        };
        if let Err(error) = read() {
            wrong.push(format!("the file cannot be read to its end: {error}"));
        }
        Ok(wrong)
    }
}

type Rows = std::collections::BTreeSet<(String, String)>;

fn derived(db: &Connection) -> rusqlite::Result<Vec<(&'static str, Rows)>> {
    let mut out = Vec::new();
    for (what, sql) in DERIVED {
        let mut statement = db.prepare(sql)?;
        let text = |row: &rusqlite::Row<'_>, at| {
            Ok::<_, rusqlite::Error>(match row.get_ref(at)? {
                rusqlite::types::ValueRef::Integer(n) => n.to_string(),
                other => other.as_str()?.to_owned(),
            })
        };
        let rows = statement.query_map([], |row| Ok((text(row, 0)?, text(row, 1)?)))?;
        out.push((*what, rows.collect::<rusqlite::Result<Rows>>()?));
    }
    Ok(out)
}
