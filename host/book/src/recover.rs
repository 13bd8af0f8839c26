//! Saving what can be read of a damaged book.

use crate::error::{BookError, newer};
use crate::proof::{self, ChainEnd, EntryRow, Standing};
use crate::{Book, check, derive};
use rusqlite::{Connection, ErrorCode, OpenFlags, Row};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use thou_life::entry::Entry;

/// What was saved of a damaged book, and what was not.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Saved {
    /// Engines.
    pub engines: u32,
    /// Sheets.
    pub sheets: u32,
    /// Entries.
    pub entries: u32,
    /// Entries that were written once and are not in the new book, each as it can be named: by its number alone where it
    /// could not be read, with what it says now where it was altered.
    pub lost: Vec<Lost>,
    /// Sheets that are not in the new book, or may not be, each named.
    pub lost_sheets: Vec<String>,
    /// Engines whose last calendar file's words are not in the new book, each with why.
    pub lost_calendars: Vec<String>,
    /// Whether the book says how many entries there were, so that none is missing at the end without a word.
    pub end_known: bool,
}

/// Entries that were not saved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lost {
    /// Their numbers, in the order of writing.
    pub from: i64,
    /// The last of them.
    pub to: i64,
    /// What is known of them.
    pub words: String,
}

impl Saved {
    /// How many entries were not saved.
    #[must_use]
    pub fn lost_entries(&self) -> i64 {
        self.lost.iter().map(|l| l.to - l.from + 1).sum()
    }
}

/// A span of rows that cannot be read is halved until it is this small, and then left out.
const SMALLEST: i64 = 1;

impl Book {
    /// Copies what can be read and trusted of a book, damaged or not, into a new one, and makes anew what follows from the
    /// entries. The damaged file is only read.
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
        // a book of before the digests has none to be held against
        let sealed = old.prepare("SELECT digest, link FROM entry").is_ok();
        let columns = if sealed {
            proof::ENTRY_COLUMNS.to_owned()
        } else {
            proof::ENTRY_COLUMNS.replace("digest, link", "'', ''")
        };
        let entries = rows.table("entry", &columns, proof::entry_row).map_err(of)?;
        let mut saved = Saved::default();
        let end = proof::end(&old, proof::ENTRIES).unwrap_or_default();
        let good = sift(entries, sealed, end.as_ref(), &old, &mut saved);
        let sheets = rows
            .table("sheet", "rowid, engine, revision, day, digest, text", |row| {
                let text: String = row.get(5)?;
                let sheet = Kept { engine: row.get(1)?, revision: row.get(2)?, day: row.get(3)?, text };
                Ok((crate::id::digest(&sheet.text) == row.get::<_, String>(4)?, sheet))
            })
            .unwrap_or_default();
        let files = rows
            .table("attached", "rowid, engine, revision, name, text", |row| {
                Ok(Attached { engine: row.get(1)?, revision: row.get(2)?, name: row.get(3)?, text: row.get(4)? })
            })
            .unwrap_or_default();
        let sheets = sift_sheets(&old, sheets, &files, &mut saved);
        let mut book = Self::create(to)?;
        let calendars = sift_calendars(&old, &rows, &mut saved);
        book.refill(&sheets, &files, &good, &calendars, &mut saved).map_err(|error| BookError::of(to, &error))?;
        Ok(saved)
    }

    fn refill(
        &mut self,
        sheets: &[Kept],
        files: &[Attached],
        entries: &[(EntryRow, Entry)],
        calendars: &[(String, String)],
        saved: &mut Saved,
    ) -> rusqlite::Result<()> {
        let turn = self.db.transaction()?;
        for Kept { engine, revision, day, text } in sheets {
            crate::engines::begin_alone(&turn, engine)?;
            let day = crate::derive::day(Some(day.clone())).unwrap_or_default();
            let of = files.iter().filter(|file| file.engine == *engine && file.revision == *revision);
            let files = of.map(|file| (file.name.clone(), file.text.clone())).collect();
            crate::engines::take_in_text(&turn, engine, text, &files, day)?;
            saved.sheets += 1;
        }
        for (row, entry) in entries {
            crate::engines::begin_alone(&turn, &entry.engine)?;
            match crate::append::write(&turn, Some(row.seq), entry) {
                // of two with one id the first counts
                Err(e) if e.sqlite_error_code() == Some(ErrorCode::ConstraintViolation) => {
                    let words = format!("{}: its id is that of an earlier one", check::name(row));
                    saved.lost.push(Lost { from: row.seq, to: row.seq, words });
                }
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
        for (engine, said) in calendars {
            if names.contains(engine) {
                crate::calendar::keep(&turn, engine, said)?;
            } else {
                saved.lost_calendars.push(format!("{engine}: nothing else is left of that engine"));
            }
        }
        let engines = names.iter().filter(|name| *name != thou_life::entry::SHOP).count();
        saved.engines = u32::try_from(engines).unwrap_or(0);
        saved.lost.sort_by_key(|lost| lost.from);
        turn.commit()
    }
}

/// Entries that can be trusted; the others are put down as lost, by number, with what is known of each.
fn sift(
    rows: Vec<EntryRow>,
    sealed: bool,
    end: Option<&ChainEnd>,
    old: &Connection,
    saved: &mut Saved,
) -> Vec<(EntryRow, Entry)> {
    let mut good = Vec::new();
    let mut before = proof::start(old).unwrap_or_default();
    let mut number = 0;
    let mut last: Option<String> = None;
    for row in rows {
        let standing = if sealed { check::standing(&row, &before) } else { Standing::Apart };
        // numbers that are not there are missing where the next row does not follow on the one before them
        if row.seq - number > 1 && standing != Standing::Whole && standing != Standing::DigestAltered {
            let (from, to) = (number + 1, row.seq - 1);
            let since =
                last.as_deref().map_or_else(|| "before the first that is left".to_owned(), |l| format!("after {l}"));
            saved.lost.push(Lost {
                from,
                to,
                words: format!("not to be read, {since} and before {}", check::name(&row)),
            });
        }
        (before, number) = (row.link.clone(), row.seq);
        last = Some(check::name(&row));
        let entry: Option<Entry> = serde_json::from_str(&row.text.json).ok();
        let same = entry.as_ref().is_some_and(|e| proof::EntryText::of(e) == row.text);
        match entry.filter(|_| same && standing.trusted()) {
            Some(entry) => good.push((row, entry)),
            None if standing.trusted() && newer(&row.text.json).is_some() => {
                let words = format!("{} was written by a newer thou: save it with that one", check::name(&row));
                saved.lost.push(Lost { from: row.seq, to: row.seq, words });
            }
            None => {
                let line: String = row.text.json.chars().take(300).collect();
                let words = format!("{} was altered after it was written; it reads now: {line}", check::name(&row));
                saved.lost.push(Lost { from: row.seq, to: row.seq, words });
            }
        }
    }
    let numbered =
        old.query_row("SELECT seq FROM sqlite_sequence WHERE name = 'entry'", [], |row| row.get::<_, i64>(0));
    let reached = numbered.ok();
    saved.end_known = reached.is_some() || end.is_some();
    // where the last link is that of the chain's end, nothing was written after it
    let whole = end.is_some_and(|end| end.link == before || end.rows == 0 && number == 0);
    if let Some(to) = reached.filter(|to| *to > number && !whole) {
        let since = last.map_or_else(|| "none is left".to_owned(), |l| format!("after {l}"));
        saved.lost.push(Lost { from: number + 1, to, words: format!("not to be read, {since}") });
    }
    good
}

/// Sheets whose text is that of its digest; the others are named, and so is a revision that is not there.
fn sift_sheets(old: &Connection, rows: Vec<(bool, Kept)>, files: &[Attached], saved: &mut Saved) -> Vec<Kept> {
    let mut seen: BTreeMap<String, BTreeSet<u32>> = BTreeMap::new();
    let mut good = Vec::new();
    let many = rows.len();
    for (whole, kept) in rows {
        seen.entry(kept.engine.clone()).or_default().insert(kept.revision);
        if whole {
            good.push(kept);
        } else {
            saved.lost_sheets.push(format!("{}, revision {}: altered", kept.engine, kept.revision));
        }
    }
    let kept_files = files.iter().map(|file| (file.engine.clone(), file.revision));
    for (engine, revision) in kept_files.collect::<BTreeSet<_>>() {
        if !seen.get(&engine).is_some_and(|of| of.contains(&revision)) {
            saved.lost_sheets.push(format!("{engine}, revision {revision}: not to be read, only its files"));
        }
    }
    for (engine, revisions) in &seen {
        let last = revisions.last().copied().unwrap_or(0);
        let missing = (1..last).filter(|r| !revisions.contains(r));
        saved.lost_sheets.extend(missing.map(|r| format!("{engine}, revision {r}: not to be read")));
    }
    let written = proof::end(old, proof::SHEETS).unwrap_or_default().map_or(0, |end| end.rows);
    let named = saved.lost_sheets.iter().filter(|l| !l.ends_with("altered")).count();
    if let Some(more) = usize::try_from(written).ok().and_then(|n| n.checked_sub(many + named)).filter(|n| *n > 0) {
        saved.lost_sheets.push(format!("{more} of which nothing is left"));
    }
    good
}

/// What the last calendar files said, as far as it stands as it was kept; the others are named.
fn sift_calendars(old: &Connection, rows: &Rescue<'_>, saved: &mut Saved) -> Vec<(String, String)> {
    let read = |row: &Row<'_>| -> rusqlite::Result<(bool, String, String)> {
        let (engine, said): (String, String) = (row.get(1)?, row.get(2)?);
        Ok((crate::calendar::of(&engine, &said) == row.get::<_, String>(3)?, engine, said))
    };
    // a book of before the calendars has no such table
    let all = rows.table("calendar", "rowid, engine, said, digest", read).unwrap_or_default();
    let kept = proof::end(old, proof::CALENDARS).unwrap_or_default().map_or(0, |end| end.rows);
    if let Some(more) = usize::try_from(kept).ok().and_then(|n| n.checked_sub(all.len())).filter(|n| *n > 0) {
        saved.lost_calendars.push(format!("{more} more: nothing is left of it"));
    }
    let (whole, altered): (Vec<_>, Vec<_>) = all.into_iter().partition(|(whole, ..)| *whole);
    saved.lost_calendars.extend(altered.into_iter().map(|(_, engine, _)| format!("{engine}: altered")));
    whole.into_iter().map(|(_, engine, said)| (engine, said)).collect()
}

/// A sheet as it was read.
struct Kept {
    engine: String,
    revision: u32,
    day: String,
    text: String,
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
