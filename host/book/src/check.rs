//! Holding a book against itself.

use crate::error::BookError;
use crate::proof::{self, ChainEnd, EntryRow, SheetRowText, Standing};
use crate::{Book, derive, engines, schema};
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

/// What a book came to when it was held against itself.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Checked {
    /// What is wrong, a thing each.
    pub wrong: Vec<String>,
    /// Entries that are as they were written, and how many there are.
    pub entries: [u32; 2],
    /// Sheets that are as they were taken in, and how many there are.
    pub sheets: [u32; 2],
    /// The last link: who has written it down can tell whether all of it was made anew. Empty for an empty log.
    pub last_link: String,
}

impl Book {
    /// What [`Book::examine`] finds wrong, a thing each.
    ///
    /// # Errors
    /// As [`Book::examine`].
    pub fn check(&self) -> Result<Vec<String>, BookError> {
        self.examine().map(|checked| checked.wrong)
    }

    /// Holds the book against itself: the file's pages, its tables against those that this program makes, every entry and
    /// sheet against its digest and its place, and what follows from them against the same made anew in a copy. Writes
    /// nothing to the book.
    ///
    /// # Errors
    /// What the disk says where the book cannot be read at all.
    pub fn examine(&self) -> Result<Checked, BookError> {
        let mut checked = Checked::default();
        let mut copy = Connection::open_in_memory().map_err(|error| self.fault(&error))?;
        {
            let work = rusqlite::backup::Backup::new(&self.db, &mut copy).map_err(|error| self.fault(&error))?;
            work.run_to_completion(10_000, std::time::Duration::ZERO, None).map_err(|error| self.fault(&error))?;
        }
        for part in [pages, tables, entries, sheets, calendars, derived_again] {
            if let Err(error) = part(&copy, &mut checked) {
                let words = format!("the file cannot be read to its end: {error}");
                if !checked.wrong.contains(&words) {
                    checked.wrong.push(words);
                }
            }
        }
        Ok(checked)
    }
}

/// The file's pages, and what points where.
fn pages(db: &Connection, checked: &mut Checked) -> rusqlite::Result<()> {
    let mut statement = db.prepare("PRAGMA integrity_check(100)")?;
    let lines: Vec<String> = statement.query_map([], |row| row.get(0))?.collect::<rusqlite::Result<_>>()?;
    checked.wrong.extend(lines.into_iter().filter(|line| line != "ok").map(|line| format!("the file: {line}")));
    let mut statement = db.prepare("PRAGMA foreign_key_check")?;
    let lines = statement.query_map([], |row| {
        Ok(format!(
            "{} row {:?} points at nothing in {}",
            row.get::<_, String>(0)?,
            row.get::<_, Option<i64>>(1)?,
            row.get::<_, String>(2)?
        ))
    })?;
    for line in lines {
        checked.wrong.push(line?);
    }
    Ok(())
}

type Rows = std::collections::BTreeSet<(String, String)>;

/// The tables themselves: a changed word in one of them changes what is read out of it.
fn tables(db: &Connection, checked: &mut Checked) -> rusqlite::Result<()> {
    let of = |db: &Connection| -> rusqlite::Result<Rows> {
        let mut statement = db.prepare(
            "SELECT type || ' ' || name, coalesce(tbl_name || ' ' || sql, '') FROM sqlite_schema WHERE name NOT LIKE 'sqlite\\_%' ESCAPE '\\'",
        )?;
        statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?.collect()
    };
    let fresh = Connection::open_in_memory()?;
    schema::migrate(&fresh, schema::steps())?;
    let (here, wanted) = (of(db)?, of(&fresh)?);
    checked.wrong.extend(
        here.symmetric_difference(&wanted).map(|(name, _)| format!("the {name} is not as this program makes it")),
    );
    Ok(())
}

/// Where an end of a chain is not the one that stands in its table.
fn ends(db: &Connection, chain: &str, noun: &str, end: &ChainEnd, checked: &mut Checked) -> rusqlite::Result<()> {
    match proof::end(db, chain)? {
        Some(kept) if kept == *end => {}
        Some(kept) if kept.rows > end.rows => {
            let missing = kept.rows - end.rows;
            checked.wrong.push(format!("{missing} of the {} {noun} that were written are missing", kept.rows));
        }
        None if end.rows == 0 => {}
        _ => checked
            .wrong
            .push(format!("the last of the {noun} is not the one that was written last, or more were put in")),
    }
    Ok(())
}

/// Every entry against its digest and its place.
fn entries(db: &Connection, checked: &mut Checked) -> rusqlite::Result<()> {
    let sql = format!("SELECT {} FROM entry ORDER BY seq", proof::ENTRY_COLUMNS);
    let mut statement = db.prepare(&sql)?;
    let mut rows = statement.query([])?;
    let (mut before, mut number, mut end) = (proof::start(db)?, 0, ChainEnd::default());
    while let Some(row) = rows.next()? {
        let row = proof::entry_row(row)?;
        let standing = standing(&row, &before);
        let [trusted, all] = &mut checked.entries;
        *all += 1;
        *trusted += u32::from(standing.trusted());
        checked.wrong.extend(told(&row, standing, number));
        if let Some(words) = disagrees(&row) {
            checked.wrong.push(words);
        }
        (before, number) = (row.link.clone(), row.seq);
        end = ChainEnd { link: row.link, rows: end.rows + 1 };
    }
    ends(db, proof::ENTRIES, "entries", &end, checked)?;
    let last: i64 =
        db.query_row("SELECT coalesce(max(seq), 0) FROM sqlite_sequence WHERE name = 'entry'", [], |r| r.get(0))?;
    if last != number {
        checked.wrong.push(format!("entries were numbered up to {last}, and the last one is {number}"));
    }
    checked.last_link = end.link;
    Ok(())
}

pub(crate) fn standing(row: &EntryRow, before: &str) -> Standing {
    Standing::of(&row.text.digest(), &row.digest, &row.link, before)
}

/// An entry by its number, id, engine and day.
pub(crate) fn name(row: &EntryRow) -> String {
    format!("entry {} ({}, {}, {}, {})", row.seq, row.text.id, row.text.engine, row.text.day, row.text.what)
}

/// What is wrong with an entry, after the one with this number.
pub(crate) fn told(row: &EntryRow, standing: Standing, number: i64) -> Option<String> {
    let name = name(row);
    match standing {
        Standing::Whole => None,
        Standing::Altered => Some(format!("{name} was altered after it was written: do not trust it")),
        Standing::DigestAltered => {
            Some(format!("{name}: its digest was altered; its words are those that were written"))
        }
        Standing::Apart if row.seq - number == 2 => Some(format!("entry {} is missing, before {name}", number + 1)),
        Standing::Apart if row.seq - number > 2 => {
            Some(format!("entries {} to {} are missing, before {name}", number + 1, row.seq - 1))
        }
        Standing::Apart => Some(format!("{name} is not at its place: what it was written after is not before it")),
    }
}

/// An entry whose columns say another thing than its line.
fn disagrees(row: &EntryRow) -> Option<String> {
    let Ok(entry) = serde_json::from_str(&row.text.json) else {
        let why = if crate::error::newer(&row.text.json).is_some() {
            "was written by a newer thou, and this one cannot read it: use the newer program"
        } else {
            "has a line that cannot be read"
        };
        return Some(format!("{} {why}", name(row)));
    };
    (proof::EntryText::of(&entry) != row.text)
        .then(|| format!("{}: its columns and its line say two things", name(row)))
}

/// Every sheet against its digests and its place, and what the book keeps of it beside.
fn sheets(db: &Connection, checked: &mut Checked) -> rusqlite::Result<()> {
    let (mut before, mut end) = (proof::start(db)?, ChainEnd::default());
    for row in sheet_rows(db)? {
        let standing = Standing::of(&row.text.digest(), &row.proof, &row.link, &before);
        let trusted = standing.trusted() && crate::id::digest(&row.text.text) == row.digest;
        let [good, all] = &mut checked.sheets;
        *all += 1;
        *good += u32::from(trusted);
        let name = format!("the sheet of {}, revision {}", row.text.engine, row.text.revision);
        checked.wrong.extend(match standing {
            _ if !trusted => Some(format!("{name}, was altered after it was taken in: do not trust it")),
            Standing::Whole => None,
            Standing::DigestAltered => {
                Some(format!("{name}: its digest was altered; its words are those that were taken in"))
            }
            _ => Some(format!("{name}, is not at its place: one that was taken in before it is missing")),
        });
        before.clone_from(&row.link);
        end = ChainEnd { link: row.link, rows: end.rows + 1 };
    }
    ends(db, proof::SHEETS, "sheets", &end, checked)?;
    let mut statement = db.prepare(
        "SELECT DISTINCT engine || ' revision ' || revision FROM attached WHERE NOT EXISTS (SELECT 1 FROM sheet
         WHERE sheet.engine = attached.engine AND sheet.revision = attached.revision)",
    )?;
    for of in statement.query_map([], |row| row.get::<_, String>(0))? {
        checked.wrong.push(format!("a file is kept with a sheet that is not there: {}", of?));
    }
    if proof::end(db, proof::ENGINES)?.unwrap_or_default() != proof::engines(db)? {
        checked.wrong.push("the names of the engines are not those that were taken in".to_owned());
    }
    checked.wrong.extend(engines::beside(db)?);
    Ok(())
}

/// What the calendar files said, against its digest.
fn calendars(db: &Connection, checked: &mut Checked) -> rusqlite::Result<()> {
    let altered = crate::calendar::altered(db)?.into_iter();
    // which one it was nobody knows any more
    if proof::end(db, proof::CALENDARS)?.unwrap_or_default() != proof::calendars(db)? {
        checked.wrong.push(
            "the calendars that are kept are not those that were: the next file of an engine may leave entries in a \
             calendar that went away"
                .to_owned(),
        );
    }
    checked.wrong.extend(altered.map(|engine| {
        format!("what the last calendar file of {engine} said was altered: the next one cannot cancel what went away")
    }));
    Ok(())
}

/// The sheets in the order in which they were taken in, with their files.
fn sheet_rows(db: &Connection) -> rusqlite::Result<Vec<SheetRowText>> {
    let sql = format!("SELECT {} FROM sheet ORDER BY rowid", proof::SHEET_COLUMNS);
    let mut rows: Vec<SheetRowText> =
        db.prepare(&sql)?.query_map([], proof::sheet_row)?.collect::<rusqlite::Result<_>>()?;
    for row in &mut rows {
        row.text.files = engines::attached(db, &row.text.engine, row.text.revision)?;
    }
    Ok(rows)
}

/// What follows from the entries against the same made anew.
fn derived_again(db: &Connection, checked: &mut Checked) -> rusqlite::Result<()> {
    let before = derived(db)?;
    let mut statement = db.prepare("SELECT name FROM engine ORDER BY name")?;
    let names: Vec<String> = statement.query_map([], |row| row.get(0))?.collect::<rusqlite::Result<_>>()?;
    for name in names {
        derive::recompute(db, &name)?;
    }
    let after = derived(db)?;
    for ((what, before), (_, after)) in before.iter().zip(&after) {
        let only = |some: &Rows, other: &Rows, words: &str| -> Vec<String> {
            some.difference(other).map(|(key, row)| format!("{what}: {key} {row} {words}")).collect()
        };
        checked.wrong.extend(only(before, after, "does not follow from the entries"));
        checked.wrong.extend(only(after, before, "follows from the entries and is missing"));
    }
    Ok(())
}

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
