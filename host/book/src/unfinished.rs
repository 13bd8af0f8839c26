//! Work that was begun and did not come to its end: nothing of it is in the book, and the next start says so.

use crate::Book;
use crate::append::KeptGood;
use crate::error::BookError;
use rusqlite::TransactionBehavior;
use std::time::Duration;
use thou_life::entry::Entry;

/// How long work that was begun just now may take to get its turn at the file.
const GRACE: Duration = Duration::from_millis(400);

/// Work that was begun and not ended.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Unfinished {
    /// What it was: the file that was being read in.
    pub what: String,
    /// How many entries it had.
    pub entries: u32,
    /// The digest of those entries.
    digest: String,
}

impl Book {
    /// Reads a file's entries in: the good ones, or with `all_or_none` all or none. Whether it came to its end is kept
    /// in the book itself: the line that says "begun" is struck out in the same turn that writes the entries.
    ///
    /// # Errors
    /// [`BookError::Refused`] with `all_or_none` at the first that does not fit, or what the disk says.
    pub fn import(&mut self, file: &str, entries: &[Entry], all_or_none: bool) -> Result<KeptGood, BookError> {
        let lines: Vec<String> = entries.iter().filter_map(|entry| serde_json::to_string(entry).ok()).collect();
        let digest = crate::id::digest(&lines.join("\n"));
        let count = u32::try_from(entries.len()).unwrap_or(u32::MAX);
        let begun = "INSERT INTO unfinished (digest, what, entries) VALUES (?, ?, ?) ON CONFLICT DO NOTHING";
        self.db.execute(begun, rusqlite::params![digest, file, count]).map_err(|error| self.fault(&error))?;
        let kept = self.write(entries, all_or_none, Some(&digest));
        if kept.as_ref().map_or(true, |kept| all_or_none && !kept.refused.is_empty()) {
            // it was told why nothing was read in: that is an end too
            let _ = self.db.execute("DELETE FROM unfinished WHERE digest = ?", [&digest]);
        }
        let kept = kept?;
        match kept.refused.first() {
            Some(refused) if all_or_none => Err(BookError::Refused(refused.clone())),
            _ => Ok(kept),
        }
    }

    /// Work that was begun and not ended, where nobody is at it just now.
    ///
    /// # Errors
    /// What the disk says.
    pub fn unfinished(&mut self) -> Result<Vec<Unfinished>, BookError> {
        let mut found = self.begun()?;
        if !found.is_empty() {
            // another program may be at it: it has the file, or is about to have it
            for _ in 0..2 {
                let path = self.path.clone();
                let of = |error: rusqlite::Error| BookError::of(&path, &error);
                self.db
                    .transaction_with_behavior(TransactionBehavior::Immediate)
                    .map_err(of)?
                    .rollback()
                    .map_err(of)?;
                found = self.begun()?;
                if found.is_empty() {
                    break;
                }
                std::thread::sleep(GRACE);
            }
        }
        Ok(found)
    }

    /// Strikes out what was told.
    ///
    /// # Errors
    /// What the disk says.
    pub fn strike_out(&mut self, unfinished: &[Unfinished]) -> Result<(), BookError> {
        for Unfinished { digest, .. } in unfinished {
            let done = self.db.execute("DELETE FROM unfinished WHERE digest = ?", [digest]);
            done.map_err(|error| self.fault(&error))?;
        }
        Ok(())
    }

    fn begun(&self) -> Result<Vec<Unfinished>, BookError> {
        let read = || -> rusqlite::Result<Vec<Unfinished>> {
            let mut statement = self.db.prepare_cached("SELECT what, entries, digest FROM unfinished ORDER BY 1, 3")?;
            let rows = statement
                .query_map([], |row| Ok(Unfinished { what: row.get(0)?, entries: row.get(1)?, digest: row.get(2)? }))?;
            rows.collect()
        };
        read().map_err(|error| self.fault(&error))
    }
}
