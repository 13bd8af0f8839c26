//! Engines and their sheets.

use crate::Book;
use crate::derive::{self, day};
use crate::error::BookError;
use crate::id::digest;
use crate::proof;
use jiff::civil::Date;
use rusqlite::{Connection, OptionalExtension, TransactionBehavior, params};
use serde_json::Value;
use std::collections::BTreeMap;
use thou_contract::Kind;
use thou_life::entry::Amount;
use thou_life::history::MeterNow;
use thou_life::meter::{METERS, reading};

/// What the list of engines shows.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct EngineRow {
    /// Its name in the book.
    pub name: String,
    /// Its serial or job number by its newest sheet; empty without one.
    pub title: String,
    /// What it is for, by its newest sheet; empty without one.
    pub usage: String,
    /// The day of its build by its first sheet.
    pub built: Option<Date>,
    /// The newest revision of its sheet; nought without one.
    pub revision: u32,
    /// How many entries its log has, undone ones too.
    pub entries: u32,
    /// The day of the newest.
    pub last: Option<Date>,
    /// Its meters.
    pub meters: BTreeMap<String, MeterNow>,
}

/// What taking a sheet in came to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Revision {
    /// The sheet's revision, from one.
    pub number: u32,
    /// Whether it is new; the same text again adds nothing.
    pub added: bool,
}

/// A sheet as it was taken in.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct SheetRow {
    /// Its revision, from one.
    pub revision: u32,
    /// The day it was taken in.
    pub day: Date,
    /// The SHA-256 of its text.
    pub digest: String,
    /// Its text, to the byte.
    pub text: String,
    /// The files of readings that it names, by their names in it.
    pub files: BTreeMap<String, String>,
}

impl Book {
    /// Takes a sheet in: the first of an engine begins it, the same text as the newest adds nothing.
    ///
    /// # Errors
    /// [`BookError`]: text that is no JSON, or what the disk says.
    pub fn add_sheet(&mut self, engine: &str, text: &str, day: Date) -> Result<Revision, BookError> {
        self.add_sheet_with(engine, text, &BTreeMap::new(), day)
    }

    /// Takes a sheet in with the files of readings that it names.
    ///
    /// # Errors
    /// As [`Book::add_sheet`].
    pub fn add_sheet_with(
        &mut self,
        engine: &str,
        text: &str,
        files: &BTreeMap<String, String>,
        day: Date,
    ) -> Result<Revision, BookError> {
        let about = SheetSummary::of(text)?;
        let path = self.path.clone();
        let of = |error: rusqlite::Error| BookError::of(&path, &error);
        let turn = self.db.transaction_with_behavior(TransactionBehavior::Immediate).map_err(of)?;
        let revision = take_in(&turn, engine, text, files, day, &about).map_err(of)?;
        turn.commit().map_err(of)?;
        Ok(revision)
    }

    /// Begins an engine without a sheet, so that a log can be read in before the sheet is there. One that is known
    /// stays as it is.
    ///
    /// # Errors
    /// What the disk says.
    pub fn add_engine(&mut self, engine: &str) -> Result<(), BookError> {
        let path = self.path.clone();
        let of = |error: rusqlite::Error| BookError::of(&path, &error);
        let turn = self.db.transaction_with_behavior(TransactionBehavior::Immediate).map_err(of)?;
        begin(&turn, engine, &SheetSummary::default()).map_err(of)?;
        turn.commit().map_err(of)
    }

    /// Every engine, by name.
    ///
    /// # Errors
    /// What the disk says.
    pub fn engines(&self) -> Result<Vec<EngineRow>, BookError> {
        let read = || -> rusqlite::Result<Vec<EngineRow>> {
            let mut statement = self.db.prepare_cached(
                "SELECT name, title, usage, built, entries,
                    (SELECT max(day) FROM entry WHERE engine = name AND what <> 'undone'),
                    (SELECT max(revision) FROM sheet WHERE engine = name)
                 FROM engine WHERE name <> '*' ORDER BY name",
            )?;
            let mut rows: Vec<EngineRow> = statement
                .query_map([], |row| {
                    Ok(EngineRow {
                        name: row.get(0)?,
                        title: row.get(1)?,
                        usage: row.get(2)?,
                        built: day(row.get(3)?),
                        entries: row.get(4)?,
                        last: day(row.get(5)?),
                        revision: row.get::<_, Option<u32>>(6)?.unwrap_or(0),
                        meters: BTreeMap::new(),
                    })
                })?
                .collect::<rusqlite::Result<_>>()?;
            for row in &mut rows {
                row.meters = derive::meters(&self.db, &row.name)?;
            }
            Ok(rows)
        };
        read().map_err(|error| self.fault(&error))
    }

    /// One engine.
    ///
    /// # Errors
    /// [`BookError::UnknownEngine`], with the name that was perhaps meant, or what the disk says.
    pub fn engine(&self, name: &str) -> Result<EngineRow, BookError> {
        let found = self.engines()?.into_iter().find(|row| row.name == name);
        found.ok_or_else(|| self.unknown(name))
    }

    /// An engine's newest sheet.
    ///
    /// # Errors
    /// [`BookError::UnknownEngine`], [`BookError::NoSheet`], or what the disk says.
    pub fn sheet(&self, engine: &str) -> Result<SheetRow, BookError> {
        self.sheet_where(
            engine,
            "SELECT revision, day, digest, text FROM sheet WHERE engine = ? ORDER BY revision DESC",
            &[&engine],
        )
    }

    /// The newest sheet that was taken in by a day; the first where none was.
    ///
    /// # Errors
    /// As [`Book::sheet`].
    pub fn sheet_on(&self, engine: &str, on: Option<Date>) -> Result<SheetRow, BookError> {
        let Some(on) = on else { return self.sheet(engine) };
        let sql = "SELECT revision, day, digest, text FROM sheet WHERE engine = ?1
                   ORDER BY day <= ?2 DESC, CASE WHEN day <= ?2 THEN -revision ELSE revision END";
        self.sheet_where(engine, sql, &[&engine, &on.to_string()])
    }

    /// An engine's sheet by its revision.
    ///
    /// # Errors
    /// As [`Book::sheet`].
    pub fn sheet_revision(&self, engine: &str, revision: u32) -> Result<SheetRow, BookError> {
        let sql = "SELECT revision, day, digest, text FROM sheet WHERE engine = ? AND revision = ?";
        self.sheet_where(engine, sql, &[&engine, &revision])
    }

    fn sheet_where(&self, engine: &str, sql: &str, with: &[&dyn rusqlite::ToSql]) -> Result<SheetRow, BookError> {
        let read = || -> rusqlite::Result<Option<SheetRow>> {
            let found = self.db.prepare_cached(sql)?.query_row(with, |row| {
                Ok(SheetRow {
                    revision: row.get(0)?,
                    day: day(row.get(1)?).unwrap_or_default(),
                    digest: row.get(2)?,
                    text: row.get(3)?,
                    files: BTreeMap::new(),
                })
            });
            let Some(mut sheet) = found.optional()? else { return Ok(None) };
            sheet.files = attached(&self.db, engine, sheet.revision)?;
            Ok(Some(sheet))
        };
        match read().map_err(|error| self.fault(&error))? {
            Some(sheet) => Ok(sheet),
            None if exists(&self.db, engine).map_err(|error| self.fault(&error))? => {
                Err(BookError::NoSheet(engine.to_owned()))
            }
            None => Err(self.unknown(engine)),
        }
    }

    fn unknown(&self, name: &str) -> BookError {
        let hint = hint(&self.db, name).unwrap_or_default();
        BookError::UnknownEngine { name: name.to_owned(), hint }
    }
}

/// What a book keeps of a sheet beside its text.
#[derive(Debug, Default)]
struct SheetSummary {
    title: String,
    usage: String,
    built: Option<Date>,
    start: BTreeMap<String, f64>,
}

impl SheetSummary {
    fn of(text: &str) -> Result<Self, BookError> {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let root: Value = serde_json::from_str(text).map_err(|error| BookError::NotASheet(error.to_string()))?;
        let word = |pointer: &str| root.pointer(pointer).and_then(Value::as_str).unwrap_or("").to_owned();
        let title = [word("/engine/serial"), word("/engine/job")].into_iter().find(|t| !t.is_empty());
        let start = METERS.iter().filter_map(|meter| {
            let value = root.pointer(&format!("/meters/{}", meter.name))?;
            let si = match value {
                Value::Number(number) => number.as_f64(),
                Value::String(text) => reading(meter.name, &Amount(text.clone()))
                    .ok()
                    .or_else(|| Kind::by_id(meter.kind).and_then(|kind| kind.parse(text).ok())),
                _ => None,
            };
            Some((meter.name.to_owned(), si?))
        });
        Ok(Self {
            title: title.unwrap_or_default(),
            usage: word("/intent/use"),
            built: word("/engine/date").parse().ok(),
            start: start.collect(),
        })
    }
}

/// Takes a sheet in that was in a book before.
pub(crate) fn take_in_text(
    db: &Connection,
    engine: &str,
    text: &str,
    files: &BTreeMap<String, String>,
    day: Date,
) -> rusqlite::Result<()> {
    take_in(db, engine, text, files, day, &SheetSummary::of(text).unwrap_or_default()).map(|_| ())
}

fn take_in(
    db: &Connection,
    engine: &str,
    text: &str,
    files: &BTreeMap<String, String>,
    day: Date,
    about: &SheetSummary,
) -> rusqlite::Result<Revision> {
    begin(db, engine, about)?;
    let newest: Option<(u32, String)> = db
        .prepare_cached("SELECT revision, digest FROM sheet WHERE engine = ? ORDER BY revision DESC")?
        .query_row([engine], |row| Ok((row.get(0)?, row.get(1)?)))
        .optional()?;
    let digest = digest(text);
    let known = match &newest {
        Some((number, _)) => attached(db, engine, *number)?,
        None => BTreeMap::new(),
    };
    let number = match newest {
        Some((number, same)) if same == digest && known == *files => return Ok(Revision { number, added: false }),
        Some((number, _)) => number + 1,
        None => {
            // the first sheet says what had run before the log began
            let start = derive::json(&about.start);
            let built = about.built.map(|d| d.to_string());
            db.execute("UPDATE engine SET built = ?, start = ? WHERE name = ?", params![built, start, engine])?;
            derive::recompute(db, engine)?;
            1
        }
    };
    let whole = proof::SheetText {
        engine: engine.to_owned(),
        revision: number,
        day: day.to_string(),
        text: text.to_owned(),
        files: files.clone(),
    };
    let proof = whole.digest();
    let link = proof::next(db, proof::SHEETS, &proof)?;
    db.execute(
        "INSERT INTO sheet (engine, revision, day, digest, text, proof, link) VALUES (?, ?, ?, ?, ?, ?, ?)",
        params![engine, number, whole.day, digest, text, proof, link],
    )?;
    for (name, text) in files {
        let row = params![engine, number, name, text];
        db.execute("INSERT INTO attached (engine, revision, name, text) VALUES (?, ?, ?, ?)", row)?;
    }
    db.execute("UPDATE engine SET title = ?, usage = ? WHERE name = ?", params![about.title, about.usage, engine])?;
    Ok(Revision { number, added: true })
}

/// The files that were kept with a sheet.
pub(crate) fn attached(db: &Connection, engine: &str, revision: u32) -> rusqlite::Result<BTreeMap<String, String>> {
    let mut statement = db.prepare_cached("SELECT name, text FROM attached WHERE engine = ? AND revision = ?")?;
    statement.query_map(params![engine, revision], |row| Ok((row.get(0)?, row.get(1)?)))?.collect()
}

fn begin(db: &Connection, engine: &str, about: &SheetSummary) -> rusqlite::Result<()> {
    let row = params![engine, about.title, about.usage, derive::json(&BTreeMap::new())];
    let new =
        db.execute("INSERT INTO engine (name, title, usage, start) VALUES (?, ?, ?, ?) ON CONFLICT DO NOTHING", row)?;
    if new > 0 { proof::seal_engines(db) } else { Ok(()) }
}

/// Begins an engine of which only the name is known.
pub(crate) fn begin_alone(db: &Connection, engine: &str) -> rusqlite::Result<()> {
    begin(db, engine, &SheetSummary::default())
}

/// What the book keeps of its engines beside their sheets and the sheets do not say.
pub(crate) fn beside(db: &Connection) -> rusqlite::Result<Vec<String>> {
    let mut statement = db.prepare("SELECT name, title, usage, built, start FROM engine ORDER BY name")?;
    let rows = statement.query_map([], |row| {
        let kept: (String, String, String, Option<String>, String) =
            (row.get(0)?, row.get(1)?, row.get(2)?, row.get(3)?, row.get(4)?);
        Ok(kept)
    })?;
    let mut wrong = Vec::new();
    for row in rows {
        let (name, title, usage, built, start) = row?;
        let sheet = |order: &str| -> rusqlite::Result<SheetSummary> {
            let sql = format!("SELECT text FROM sheet WHERE engine = ? ORDER BY revision {order} LIMIT 1");
            let text: Option<String> = db.prepare_cached(&sql)?.query_row([&name], |row| row.get(0)).optional()?;
            Ok(text.and_then(|text| SheetSummary::of(&text).ok()).unwrap_or_default())
        };
        let (first, newest) = (sheet("ASC")?, sheet("DESC")?);
        for (what, same) in [
            ("what it is called", newest.title == title),
            ("what it is for", newest.usage == usage),
            ("the day of its build", first.built.map(|d| d.to_string()) == built),
            ("what it had run before its log", derive::json(&first.start) == start),
        ] {
            if !same {
                wrong.push(format!("of {name} the book keeps another thing than its sheet says: {what}"));
            }
        }
    }
    Ok(wrong)
}

/// Whether the book has this engine.
pub(crate) fn exists(db: &Connection, engine: &str) -> rusqlite::Result<bool> {
    db.prepare_cached("SELECT 1 FROM engine WHERE name = ?")?.exists([engine])
}

/// What to say of a name that the book does not have.
pub(crate) fn hint(db: &Connection, name: &str) -> rusqlite::Result<String> {
    let mut statement = db.prepare_cached("SELECT name FROM engine WHERE name <> '*' ORDER BY name")?;
    let names: Vec<String> = statement.query_map([], |row| row.get(0))?.collect::<rusqlite::Result<_>>()?;
    let near = thou_text::nearest(name, names.iter().map(String::as_str));
    Ok(match (near, names.as_slice()) {
        (Some(near), _) => format!("; did you mean {near}?"),
        (None, []) => ": it has none yet; `thou book add SHEET.json` takes one in".to_owned(),
        (None, few) if few.len() <= 8 => format!("; it has {}", few.join(", ")),
        (None, many) => format!("; it has {}: `thou book list` names them", many.len()),
    })
}
