//! Saving what can be read of a damaged book.

use crate::error::BookError;
use crate::{Book, derive};
use rusqlite::{Connection, ErrorCode, OpenFlags, Row};
use std::path::Path;

/// What was saved of a damaged book.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Saved {
    /// Engines.
    pub engines: u32,
    /// Sheets.
    pub sheets: u32,
    /// Entries.
    pub entries: u32,
    /// Entries that were written once, by the numbers in their order, and could not be read.
    pub lost: u32,
}

/// A span of rows that cannot be read is halved until it is this small, and then left out.
const SMALLEST: i64 = 1;

impl Book {
    /// Copies what can be read of a book, damaged or not, into a new one, and makes anew what follows from the entries.
    /// The damaged file is only read.
    ///
    /// # Errors
    /// [`BookError::Exists`] where the new file is there already, or when not even the first page can be read.
    pub fn recover(from: &Path, to: &Path) -> Result<Saved, BookError> {
        let of = |error: rusqlite::Error| BookError::of(from, &error);
        if !from.exists() {
            return Err(BookError::Missing(from.to_owned()));
        }
        let old = Connection::open_with_flags(from, OpenFlags::SQLITE_OPEN_READ_ONLY).map_err(of)?;
        let rows = Rescue { old: &old };
        let entries = rows.table("entry", "seq, id, engine, day, what, serial, json", |row| {
            let entry = derive::parse(row, 6)?;
            let same = entry.id == row.get_ref(1)?.as_str()? && entry.engine == row.get_ref(2)?.as_str()?;
            if same { Ok((row.get::<_, i64>(0)?, entry)) } else { Err(rusqlite::Error::InvalidQuery) }
        });
        let entries = entries.map_err(of)?;
        let sheets = rows
            .table("sheet", "rowid, engine, revision, day, digest, text", |row| {
                let text: String = row.get(5)?;
                if crate::id::digest(&text) != row.get::<_, String>(4)? {
                    return Err(rusqlite::Error::InvalidQuery);
                }
                Ok((row.get::<_, String>(1)?, row.get::<_, u32>(2)?, row.get::<_, String>(3)?, text))
            })
            .unwrap_or_default();
        let files = rows
            .table("attached", "rowid, engine, revision, name, text", |row| {
                Ok(Attached { engine: row.get(1)?, revision: row.get(2)?, name: row.get(3)?, text: row.get(4)? })
            })
            .unwrap_or_default();
        let mut book = Self::create(to)?;
        let saved = book.refill(&sheets, &files, &entries);
        saved.map_err(|error| BookError::of(to, &error))
    }

    fn refill(
        &mut self,
        sheets: &[(String, u32, String, String)],
        files: &[Attached],
        entries: &[(i64, thou_life::entry::Entry)],
    ) -> rusqlite::Result<Saved> {
        let turn = self.db.transaction()?;
        let mut saved = Saved::default();
        let begin = |name: &str| {
            turn.execute(
                "INSERT INTO engine (name, title, usage, start) VALUES (?, '', '', '{}') ON CONFLICT DO NOTHING",
                [name],
            )
        };
        for (engine, revision, day, text) in sheets {
            begin(engine)?;
            let day = crate::derive::day(Some(day.clone())).unwrap_or_default();
            let of = files.iter().filter(|file| file.engine == *engine && file.revision == *revision);
            let files = of.map(|file| (file.name.clone(), file.text.clone())).collect();
            crate::engines::take_in_text(&turn, engine, text, &files, day)?;
            saved.sheets += 1;
        }
        for (seq, entry) in entries {
            begin(&entry.engine)?;
            match crate::append::write(&turn, Some(*seq), entry) {
                // of two with one id the first counts
                Err(e) if e.sqlite_error_code() == Some(ErrorCode::ConstraintViolation) => {}
                written => {
                    written?;
                    saved.entries += 1;
                }
            }
        }
        let mut statement = turn.prepare("SELECT name FROM engine ORDER BY name")?;
        let names: Vec<String> = statement.query_map([], |row| row.get(0))?.collect::<rusqlite::Result<_>>()?;
        drop(statement);
        for name in &names {
            derive::recompute(&turn, name)?;
        }
        saved.engines = u32::try_from(names.len()).unwrap_or(0);
        let last = entries.iter().map(|(seq, _)| *seq).max().unwrap_or(0);
        saved.lost = u32::try_from(last).unwrap_or(0).saturating_sub(saved.entries);
        turn.commit()?;
        Ok(saved)
    }
}

/// A file that was kept with a sheet.
struct Attached {
    engine: String,
    revision: u32,
    name: String,
    text: String,
}

struct Rescue<'a> {
    old: &'a Connection,
}

impl Rescue<'_> {
    /// The rows of a table that can be read, by span: where a span fails it is halved.
    fn table<T>(
        &self,
        table: &str,
        columns: &str,
        read: impl Fn(&Row<'_>) -> rusqlite::Result<T>,
    ) -> rusqlite::Result<Vec<T>> {
        let sql = format!("SELECT {columns} FROM {table} NOT INDEXED WHERE rowid BETWEEN ? AND ? ORDER BY rowid");
        let mut statement = self.old.prepare(&sql)?;
        // the last row's number, by whichever way the damage leaves open
        let last = [
            format!("SELECT max(rowid) FROM {table}"),
            format!("SELECT seq FROM sqlite_sequence WHERE name = '{table}'"),
        ]
        .iter()
        .filter_map(|sql| self.old.query_row(sql, [], |row| row.get::<_, i64>(0)).ok())
        .max()
        .unwrap_or(1_000_000);
        let mut out = Vec::new();
        let mut spans = vec![(0, last)];
        while let Some((from, to)) = spans.pop() {
            let mut rows = statement.query([from, to])?;
            let mut got = Vec::new();
            let whole = loop {
                match rows.next() {
                    Ok(Some(row)) => got.extend(read(row).ok()),
                    Ok(None) => break true,
                    Err(_) => break false,
                }
            };
            if whole {
                out.append(&mut got);
            } else if to - from >= SMALLEST {
                let half = from + (to - from) / 2;
                spans.push((half + 1, to));
                spans.push((from, half));
            }
        }
        Ok(out)
    }
}
