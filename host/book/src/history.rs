//! Reading: what an engine's log comes to, and what the shop's parts ran.

use crate::derive::{self, day};
use crate::error::BookError;
use crate::{Book, engines};
use jiff::civil::Date;
use rusqlite::Row;
use std::collections::BTreeMap;
use thou_life::entry::{Entry, SHOP, What};
use thou_life::history::{History, MeterNow, PartRun, Stretch};

/// The columns of a stretch that began by a day, and how often its part was tightened by then.
const STRETCHES: &str = "
SELECT serial, part, engine, place, fitted, removed, at_fitted, at_removed, brought, made, failed, disposition, because,
    (SELECT count(*) FROM tightened WHERE tightened.serial = stretch.serial AND tightened.day <= ?2)
FROM stretch WHERE fitted <= ?2 AND";

/// After every day that a log can have.
const LAST: &str = "9999-12-31";

impl Book {
    /// What an engine's log comes to.
    ///
    /// # Errors
    /// [`BookError::UnknownEngine`], or what the disk says.
    pub fn history(&self, engine: &str) -> Result<History, BookError> {
        self.history_on(engine, None)
    }

    /// What an engine's log came to in the evening of a day: of what was written of later days nothing is known, in this
    /// engine or in another.
    ///
    /// # Errors
    /// As [`Book::history`].
    pub fn history_on(&self, engine: &str, on: Option<Date>) -> Result<History, BookError> {
        let row = self.engine_alone(engine)?;
        let read = || -> rusqlite::Result<History> {
            let effective = |engine: &str| -> rusqlite::Result<Vec<Entry>> {
                Ok(derive::effective(&self.db, engine, on)?.into_iter().map(|(_, entry)| entry).collect())
            };
            let (entries, shop) = (effective(engine)?, effective(SHOP)?);
            let sql = format!(
                "{STRETCHES} serial IN (SELECT serial FROM stretch WHERE engine = ?1)
                 ORDER BY serial, fitted, fitted_by"
            );
            let shelved = entries.iter().chain(&shop).filter_map(|e| match &e.what {
                What::Shelved { serial, .. } => serial.as_deref(),
                _ => None,
            });
            let one = format!("{STRETCHES} serial = ?1 ORDER BY serial, fitted, fitted_by");
            let mut from_the_shelf = BTreeMap::new();
            for serial in shelved {
                from_the_shelf
                    .extend(self.parts(&one, serial, on)?.into_iter().map(|part| (part.serial.clone(), part)));
            }
            Ok(History {
                engine: engine.to_owned(),
                built: row,
                start: derive::start(&self.db, engine)?,
                entries,
                shop,
                from_the_shelf,
                meters: derive::meters_on(&self.db, engine, on)?,
                parts: self.parts(&sql, engine, on)?.into_iter().map(|part| (part.serial.clone(), part)).collect(),
            })
        };
        read().map_err(|error| self.fault(&error))
    }

    /// Every part of a kind that the shop ever ran, by its number: what it ran, whether it failed, where it still is.
    ///
    /// # Errors
    /// What the disk says.
    pub fn lives(&self, part: &str) -> Result<Vec<PartRun>, BookError> {
        self.lives_on(part, None)
    }

    /// The same as it was known in the evening of a day.
    ///
    /// # Errors
    /// What the disk says.
    pub fn lives_on(&self, part: &str, on: Option<Date>) -> Result<Vec<PartRun>, BookError> {
        let sql = format!("{STRETCHES} part = ?1 ORDER BY serial, fitted, fitted_by");
        self.parts(&sql, part, on).map_err(|error| self.fault(&error))
    }

    /// What was written in one engine's log, or in every one, undone entries and undoings too, in the order of writing;
    /// each with whether it counts.
    ///
    /// # Errors
    /// [`BookError::UnknownEngine`], or what the disk says.
    pub fn written(&self, engine: Option<&str>) -> Result<Vec<(Entry, bool)>, BookError> {
        if let Some(engine) = engine {
            self.engine_alone(engine)?;
        }
        let read = || -> rusqlite::Result<Vec<(Entry, bool)>> {
            let mut statement = self.db.prepare_cached(
                "SELECT json, what <> 'undone' AND NOT EXISTS (SELECT 1 FROM undone WHERE undone.seq = entry.seq)
                 FROM entry WHERE ?1 IS NULL OR engine = ?1 ORDER BY seq",
            )?;
            let rows = statement.query_map([engine], |row| Ok((derive::parse(row, 0)?, row.get(1)?)))?;
            rows.collect()
        };
        read().map_err(|error| self.fault(&error))
    }

    /// The entries of one day of an engine that count, in the order of writing.
    ///
    /// # Errors
    /// What the disk says.
    pub fn on_day(&self, engine: &str, day: Date) -> Result<Vec<Entry>, BookError> {
        let read = || -> rusqlite::Result<Vec<Entry>> {
            let mut statement = self.db.prepare_cached(
                "SELECT json FROM entry WHERE engine = ? AND day = ? AND what <> 'undone'
                    AND NOT EXISTS (SELECT 1 FROM undone WHERE undone.seq = entry.seq) ORDER BY seq",
            )?;
            let rows = statement.query_map([engine, &day.to_string()], |row| derive::parse(row, 0))?;
            rows.collect()
        };
        read().map_err(|error| self.fault(&error))
    }

    /// What holds for every engine of the shop, as far as it counts.
    ///
    /// # Errors
    /// What the disk says.
    pub fn shop(&self) -> Result<Vec<Entry>, BookError> {
        let entries = derive::effective(&self.db, SHOP, None).map_err(|error| self.fault(&error))?;
        Ok(entries.into_iter().map(|(_, entry)| entry).collect())
    }

    /// What an engine's log and the shop's own keep of dates, days, costs, shelf and money, and counts; the shop's first.
    ///
    /// # Errors
    /// What the disk says.
    pub fn office(&self, engine: &str) -> Result<[Vec<Entry>; 2], BookError> {
        let read = |engine: &str| -> rusqlite::Result<Vec<Entry>> {
            let mut statement = self.db.prepare_cached(
                "SELECT json FROM entry WHERE engine = ? AND what IN ('scheduled', 'called-off', 'shelved', 'off-the-shelf',
                    'lead-time', 'priced', 'charged', 'paid', 'budgeted', 'customer', 'did')
                    AND NOT EXISTS (SELECT 1 FROM undone WHERE undone.seq = entry.seq) ORDER BY day, seq",
            )?;
            let rows = statement.query_map([engine], |row| derive::parse(row, 0))?;
            rows.collect()
        };
        let all = || Ok([read(SHOP)?, read(engine)?]);
        all().map_err(|error| self.fault(&error))
    }

    /// How many entries there are, undone ones and the shop's too.
    ///
    /// # Errors
    /// What the disk says.
    pub fn count(&self) -> Result<u32, BookError> {
        let mut statement = self.db.prepare_cached("SELECT count(*) FROM entry").map_err(|error| self.fault(&error))?;
        statement.query_row([], |row| row.get(0)).map_err(|error| self.fault(&error))
    }

    /// The part of this number, if the shop ever had it in an engine.
    ///
    /// # Errors
    /// What the disk says.
    pub fn part(&self, serial: &str) -> Result<Option<PartRun>, BookError> {
        let sql = format!("{STRETCHES} serial = ?1 ORDER BY serial, fitted, fitted_by");
        Ok(self.parts(&sql, serial, None).map_err(|error| self.fault(&error))?.into_iter().next())
    }

    /// The day of the build, of an engine that the book has.
    fn engine_alone(&self, engine: &str) -> Result<Option<Date>, BookError> {
        if !engines::exists(&self.db, engine).map_err(|error| self.fault(&error))? {
            return self.engine(engine).map(|row| row.built);
        }
        let mut statement =
            self.db.prepare_cached("SELECT built FROM engine WHERE name = ?").map_err(|error| self.fault(&error))?;
        statement.query_row([engine], |row| Ok(day(row.get(0)?))).map_err(|error| self.fault(&error))
    }

    fn parts(&self, sql: &str, with: &str, on: Option<Date>) -> rusqlite::Result<Vec<PartRun>> {
        let mut now: BTreeMap<String, BTreeMap<String, MeterNow>> = BTreeMap::new();
        let mut parts: Vec<PartRun> = Vec::new();
        let mut statement = self.db.prepare_cached(sql)?;
        let last = on.map_or_else(|| LAST.to_owned(), |day| day.to_string());
        let mut rows = statement.query([with, &last])?;
        while let Some(row) = rows.next()? {
            let serial: String = row.get(0)?;
            let engine: String = row.get(2)?;
            if !now.contains_key(&engine) {
                now.insert(engine.clone(), derive::meters_on(&self.db, &engine, on)?);
            }
            if parts.last().is_none_or(|part| part.serial != serial) {
                parts.push(PartRun {
                    serial,
                    part: row.get(1)?,
                    brought: derive::map(&row.get::<_, String>(8)?),
                    made: day(row.get(9)?),
                    tightened: row.get(13)?,
                    ..PartRun::default()
                });
            }
            if let Some(part) = parts.last_mut() {
                let none = BTreeMap::new();
                let totals = now.get(&engine).unwrap_or(&none);
                part.stretches.push(stretch(row, engine, totals, on)?);
            }
        }
        Ok(parts)
    }
}

/// A stretch as it was known on a day: what came out later was still in.
fn stretch(
    row: &Row<'_>,
    engine: String,
    now: &BTreeMap<String, MeterNow>,
    on: Option<Date>,
) -> rusqlite::Result<Stretch> {
    let removed = day(row.get(5)?).filter(|removed| on.is_none_or(|on| *removed <= on));
    let at = derive::map(&row.get::<_, String>(6)?);
    let end = match row.get::<_, Option<String>>(7)?.filter(|_| removed.is_some()) {
        Some(text) => derive::map(&text),
        None => now.iter().map(|(meter, now)| (meter.clone(), now.total)).collect(),
    };
    let run = end.iter().map(|(meter, end)| (meter.clone(), end - at.get(meter).copied().unwrap_or(0.0)));
    Ok(Stretch {
        engine,
        place: row.get(3)?,
        fitted: day(row.get(4)?).unwrap_or_default(),
        removed,
        run: run.filter(|(_, run)| *run > 0.0).collect(),
        at,
        failed: removed.is_some() && row.get(10)?,
        disposition: row.get::<_, Option<String>>(11)?.filter(|_| removed.is_some()),
        because: row.get::<_, Option<String>>(12)?.filter(|_| removed.is_some()),
    })
}
