//! What proves that a book is as it was written: every entry and every sheet carries a digest of itself, and a link that is
//! made of that digest and of the link before it. So a row that was altered is named, and so is the place where one is
//! missing or not at its place; the last link, and how many there are, stand in a table of their own, so that an end that
//! was cut off is missed. Against one who makes all of it anew nothing in the file helps: the last link is printed, and
//! can be written down.

use crate::id::digest;
use rusqlite::{Connection, OptionalExtension, params};
use std::collections::BTreeMap;
use thou_life::entry::Entry;

/// The chain of the entries, in the order of writing.
pub(crate) const ENTRIES: &str = "entry";
/// The chain of the sheets, in the order in which they were taken in.
pub(crate) const SHEETS: &str = "sheet";
/// The engines, all together.
pub(crate) const ENGINES: &str = "engine";

/// The chain of the calendars.
pub(crate) const CALENDARS: &str = "calendars";

/// The digest of several texts: each with its length before it, so that no other texts come to the same.
pub(crate) fn of(parts: &[&str]) -> String {
    let lengths = parts.iter().map(|part| format!("{}:{part}", part.len()));
    digest(&lengths.collect::<String>())
}

/// An entry as its row has it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct EntryText {
    pub(crate) id: String,
    pub(crate) engine: String,
    pub(crate) day: String,
    pub(crate) what: String,
    pub(crate) serial: Option<String>,
    pub(crate) json: String,
}

impl EntryText {
    pub(crate) fn of(entry: &Entry) -> Self {
        Self {
            id: entry.id.clone(),
            engine: entry.engine.clone(),
            day: entry.day.to_string(),
            what: entry.what.name().to_owned(),
            serial: entry.what.serial().map(str::to_owned),
            json: serde_json::to_string(entry).unwrap_or_default(),
        }
    }

    pub(crate) fn digest(&self) -> String {
        let serial = self.serial.as_deref().map_or_else(|| "none".to_owned(), |s| format!("number {s}"));
        of(&[&self.id, &self.engine, &self.day, &self.what, &serial, &self.json])
    }
}

/// A sheet as its rows have it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct SheetText {
    pub(crate) engine: String,
    pub(crate) revision: u32,
    pub(crate) day: String,
    pub(crate) text: String,
    pub(crate) files: BTreeMap<String, String>,
}

impl SheetText {
    pub(crate) fn digest(&self) -> String {
        let revision = self.revision.to_string();
        let mut parts = vec![self.engine.as_str(), &revision, &self.day, &self.text];
        parts.extend(self.files.iter().flat_map(|(name, text)| [name.as_str(), text.as_str()]));
        of(&parts)
    }
}

/// The end of a chain.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub(crate) struct ChainEnd {
    pub(crate) link: String,
    pub(crate) rows: i64,
}

/// The link that a digest makes with the one before.
pub(crate) fn link(before: &str, digest: &str) -> String {
    of(&[before, digest])
}

/// What a book's chains hang on: its origin.
pub(crate) fn start(db: &Connection) -> rusqlite::Result<String> {
    let origin: String =
        db.prepare_cached("SELECT value FROM about WHERE key = 'origin'")?.query_row([], |row| row.get(0))?;
    Ok(of(&["a book of thou", &origin]))
}

/// Where a chain ends; none where its row is gone.
pub(crate) fn end(db: &Connection, chain: &str) -> rusqlite::Result<Option<ChainEnd>> {
    db.prepare_cached("SELECT link, rows FROM chain WHERE name = ?")?
        .query_row([chain], |row| Ok(ChainEnd { link: row.get(0)?, rows: row.get(1)? }))
        .optional()
}

/// The link of a row that comes after all, put down as the chain's end.
pub(crate) fn next(db: &Connection, chain: &str, digest: &str) -> rusqlite::Result<String> {
    let end = end(db, chain)?.unwrap_or_default();
    let before = if end.rows == 0 { start(db)? } else { end.link };
    let link = link(&before, digest);
    db.prepare_cached("INSERT OR REPLACE INTO chain (name, link, rows) VALUES (?, ?, ?)")?.execute(params![
        chain,
        link,
        end.rows + 1
    ])?;
    Ok(link)
}

/// What the engines' names come to.
pub(crate) fn engines(db: &Connection) -> rusqlite::Result<ChainEnd> {
    let mut statement = db.prepare_cached("SELECT name FROM engine ORDER BY name")?;
    let names: Vec<String> = statement.query_map([], |row| row.get(0))?.collect::<rusqlite::Result<_>>()?;
    let parts: Vec<&str> = names.iter().map(String::as_str).collect();
    Ok(ChainEnd { link: of(&parts), rows: i64::try_from(parts.len()).unwrap_or(0) })
}

/// Puts the engines' names down as they are.
pub(crate) fn seal_engines(db: &Connection) -> rusqlite::Result<()> {
    put_down(db, ENGINES, &engines(db)?)
}

/// What the digests of the calendars come to.
pub(crate) fn calendars(db: &Connection) -> rusqlite::Result<ChainEnd> {
    let mut statement = db.prepare_cached("SELECT digest FROM calendar ORDER BY engine")?;
    let digests: Vec<String> = statement.query_map([], |row| row.get(0))?.collect::<rusqlite::Result<_>>()?;
    let parts: Vec<&str> = digests.iter().map(String::as_str).collect();
    Ok(ChainEnd { link: of(&parts), rows: i64::try_from(parts.len()).unwrap_or(0) })
}

/// Puts the calendars down as they are.
pub(crate) fn seal_calendars(db: &Connection) -> rusqlite::Result<()> {
    put_down(db, CALENDARS, &calendars(db)?)
}

fn put_down(db: &Connection, chain: &str, ChainEnd { link, rows }: &ChainEnd) -> rusqlite::Result<()> {
    db.prepare_cached("INSERT OR REPLACE INTO chain (name, link, rows) VALUES (?, ?, ?)")?
        .execute(params![chain, link, rows])
        .map(|_| ())
}

/// An entry's row with its number and what it carries.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct EntryRow {
    pub(crate) seq: i64,
    pub(crate) text: EntryText,
    pub(crate) digest: String,
    pub(crate) link: String,
}

/// The columns of [`EntryRow`].
pub(crate) const ENTRY_COLUMNS: &str = "seq, id, engine, day, what, serial, json, digest, link";

pub(crate) fn entry_row(row: &rusqlite::Row<'_>) -> rusqlite::Result<EntryRow> {
    Ok(EntryRow {
        seq: row.get(0)?,
        text: EntryText {
            id: row.get(1)?,
            engine: row.get(2)?,
            day: row.get(3)?,
            what: row.get(4)?,
            serial: row.get(5)?,
            json: row.get(6)?,
        },
        digest: row.get(7)?,
        link: row.get(8)?,
    })
}

/// A sheet's row with its number and what it carries; `digest` is that of its text alone.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct SheetRowText {
    pub(crate) seq: i64,
    pub(crate) text: SheetText,
    pub(crate) digest: String,
    pub(crate) proof: String,
    pub(crate) link: String,
}

/// The columns of [`SheetRowText`], without its files.
pub(crate) const SHEET_COLUMNS: &str = "rowid, engine, revision, day, text, digest, proof, link";

pub(crate) fn sheet_row(row: &rusqlite::Row<'_>) -> rusqlite::Result<SheetRowText> {
    Ok(SheetRowText {
        seq: row.get(0)?,
        text: SheetText {
            engine: row.get(1)?,
            revision: row.get(2)?,
            day: row.get(3)?,
            text: row.get(4)?,
            files: BTreeMap::new(),
        },
        digest: row.get(5)?,
        proof: row.get(6)?,
        link: row.get(7)?,
    })
}

/// How a row stands in its chain.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Standing {
    /// As it was written, at its place.
    Whole,
    /// As it was written; something before it is missing, or it is not at its place.
    Apart,
    /// As it was written, by its link; what it carries as its digest was altered.
    DigestAltered,
    /// Altered after it was written.
    Altered,
}

impl Standing {
    /// By the digest that the row comes to, what it carries, and the link before it.
    pub(crate) fn of(computed: &str, carried: &str, link_carried: &str, before: &str) -> Self {
        let follows = |digest: &str| link(before, digest) == link_carried;
        match (computed == carried, follows(computed)) {
            (true, true) => Self::Whole,
            (true, false) => Self::Apart,
            (false, true) => Self::DigestAltered,
            (false, false) => Self::Altered,
        }
    }

    /// Whether its words are what was written.
    pub(crate) fn trusted(self) -> bool {
        self != Self::Altered
    }
}
