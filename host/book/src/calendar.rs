//! What the last calendar files of an engine said. It follows from no entry: what was told cannot be made anew.

use crate::error::BookError;
use crate::id::digest;
use crate::{Book, proof};
use rusqlite::{Connection, OptionalExtension, TransactionBehavior, params};

/// What is kept of the calendar files.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum CalendarSaid {
    /// No file was written yet.
    Nothing,
    /// As it was kept.
    Kept(String),
    /// Altered since it was kept: nothing that it says can be relied on.
    Altered,
}

impl Book {
    /// What the last calendar files of an engine said.
    ///
    /// # Errors
    /// What the disk says.
    pub fn calendar_said(&self, engine: &str) -> Result<CalendarSaid, BookError> {
        let mut statement = self
            .db
            .prepare_cached("SELECT said, digest FROM calendar WHERE engine = ?")
            .map_err(|error| self.fault(&error))?;
        let row = statement
            .query_row([engine], |row| Ok((row.get::<_, String>(0)?, row.get::<_, String>(1)?)))
            .optional()
            .map_err(|error| self.fault(&error))?;
        Ok(match row {
            None => CalendarSaid::Nothing,
            Some((said, kept)) if of(engine, &said) == kept => CalendarSaid::Kept(said),
            Some(_) => CalendarSaid::Altered,
        })
    }

    /// Keeps what a calendar file says; when this returns it is on the disk.
    ///
    /// # Errors
    /// What the disk says; what was kept before stands then.
    pub fn keep_calendar(&mut self, engine: &str, said: &str) -> Result<(), BookError> {
        self.give_way();
        let mut write = || -> rusqlite::Result<()> {
            let turn = self.db.transaction_with_behavior(TransactionBehavior::Immediate)?;
            keep(&turn, engine, said)?;
            turn.commit()
        };
        write().map_err(|error| self.fault(&error))?;
        self.wrote = Some(std::time::Instant::now());
        Ok(())
    }
}

/// Its digest, with the engine whose it is.
pub(crate) fn of(engine: &str, said: &str) -> String {
    digest(&format!("{}:{engine}{said}", engine.len()))
}

pub(crate) fn keep(db: &Connection, engine: &str, said: &str) -> rusqlite::Result<()> {
    db.prepare_cached(
        "INSERT INTO calendar (engine, said, digest) VALUES (?, ?, ?)
         ON CONFLICT DO UPDATE SET said = excluded.said, digest = excluded.digest",
    )?
    .execute(params![engine, said, of(engine, said)])?;
    proof::seal_calendars(db)
}

/// Engines whose row is not as it was kept.
pub(crate) fn altered(db: &Connection) -> rusqlite::Result<Vec<String>> {
    let mut statement = db.prepare("SELECT engine, said, digest FROM calendar ORDER BY engine")?;
    let rows = statement.query_map([], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))?;
    let mut out = Vec::new();
    for row in rows {
        let (engine, said, kept): (String, String, String) = row?;
        if of(&engine, &said) != kept {
            out.push(engine);
        }
    }
    Ok(out)
}
