//! Reading: what an engine's log comes to, and what the shop's parts ran.

use crate::derive::{self, day};
use crate::error::BookError;
use crate::{Book, engines};
use jiff::civil::Date;
use rusqlite::Row;
use std::collections::BTreeMap;
use thou_life::entry::Entry;
use thou_life::history::{History, MeterNow, PartRun, Stretch};

/// The columns of a stretch, and how often its part was tightened.
const STRETCHES: &str = "
SELECT serial, part, engine, place, fitted, removed, at_fitted, at_removed, brought, made, failed, disposition, because,
    (SELECT count(*) FROM tightened WHERE tightened.serial = stretch.serial)
FROM stretch";

impl Book {
    /// What an engine's log comes to.
    ///
    /// # Errors
    /// [`BookError::UnknownEngine`], or what the disk says.
    pub fn history(&self, engine: &str) -> Result<History, BookError> {
        let row = self.engine_alone(engine)?;
        let read = || -> rusqlite::Result<History> {
            let entries = derive::effective(&self.db, engine, None)?.into_iter().map(|(_, entry)| entry).collect();
            let sql = format!(
                "{STRETCHES} WHERE serial IN (SELECT serial FROM stretch WHERE engine = ?)
                 ORDER BY serial, fitted, fitted_by"
            );
            Ok(History {
                engine: engine.to_owned(),
                built: row,
                start: derive::start(&self.db, engine)?,
                entries,
                meters: derive::meters(&self.db, engine)?,
                parts: self.parts(&sql, engine)?.into_iter().map(|part| (part.serial.clone(), part)).collect(),
            })
        };
        read().map_err(|error| self.fault(&error))
    }

    /// Every part of a kind that the shop ever ran, by its number: what it ran, whether it failed, where it still is.
    ///
    /// # Errors
    /// What the disk says.
    pub fn lives(&self, part: &str) -> Result<Vec<PartRun>, BookError> {
        let sql = format!("{STRETCHES} WHERE part = ? ORDER BY serial, fitted, fitted_by");
        self.parts(&sql, part).map_err(|error| self.fault(&error))
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

    /// The part of this number, if the shop ever had it in an engine.
    ///
    /// # Errors
    /// What the disk says.
    pub fn part(&self, serial: &str) -> Result<Option<PartRun>, BookError> {
        let sql = format!("{STRETCHES} WHERE serial = ? ORDER BY serial, fitted, fitted_by");
        Ok(self.parts(&sql, serial).map_err(|error| self.fault(&error))?.into_iter().next())
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

    fn parts(&self, sql: &str, with: &str) -> rusqlite::Result<Vec<PartRun>> {
        let mut now: BTreeMap<String, BTreeMap<String, MeterNow>> = BTreeMap::new();
        let mut parts: Vec<PartRun> = Vec::new();
        let mut statement = self.db.prepare_cached(sql)?;
        let mut rows = statement.query([with])?;
        while let Some(row) = rows.next()? {
            let serial: String = row.get(0)?;
            let engine: String = row.get(2)?;
            if !now.contains_key(&engine) {
                now.insert(engine.clone(), derive::meters(&self.db, &engine)?);
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
                part.stretches.push(stretch(row, engine, totals)?);
            }
        }
        Ok(parts)
    }
}

fn stretch(row: &Row<'_>, engine: String, now: &BTreeMap<String, MeterNow>) -> rusqlite::Result<Stretch> {
    let at = derive::map(&row.get::<_, String>(6)?);
    let end = match row.get::<_, Option<String>>(7)? {
        Some(text) => derive::map(&text),
        None => now.iter().map(|(meter, now)| (meter.clone(), now.total)).collect(),
    };
    let run = end.iter().map(|(meter, end)| (meter.clone(), end - at.get(meter).copied().unwrap_or(0.0)));
    Ok(Stretch {
        engine,
        place: row.get(3)?,
        fitted: day(row.get(4)?).unwrap_or_default(),
        removed: day(row.get(5)?),
        run: run.filter(|(_, run)| *run > 0.0).collect(),
        at,
        failed: row.get(10)?,
        disposition: row.get(11)?,
        because: row.get(12)?,
    })
}
