//! Beginning, opening and copying a book.

use crate::error::BookError;
use crate::{Book, schema};
use rusqlite::{Connection, OpenFlags, TransactionBehavior};
use std::path::Path;
use std::time::Duration;

/// How often a write asks for its turn before it gives up: some two minutes.
const MOST_WAITS: i32 = 40_000;

/// Waits a little, and not always the same. The library's own steps grow to a tenth of a second: beside a program that
/// writes without a pause they fell between its gaps for more than a minute.
fn wait(asked: i32) -> bool {
    std::thread::sleep(Duration::from_millis(1 + u64::from(asked.unsigned_abs() * 7 % 5)));
    asked < MOST_WAITS
}

/// What a program that writes without a pause leaves to the others between two writes.
const GAP: Duration = Duration::from_millis(2);

impl Book {
    /// Begins a new book.
    ///
    /// # Errors
    /// [`BookError::Exists`] where a file is there that is not empty, or what the disk says.
    pub fn create(path: &Path) -> Result<Self, BookError> {
        if std::fs::metadata(path).is_ok_and(|file| file.len() > 0) {
            return Err(BookError::Exists(path.to_owned()));
        }
        let flags = OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_CREATE;
        let mut book = Self::connect(path, flags)?;
        book.upgrade()?;
        Ok(book)
    }

    /// Opens a book, and brings one of an earlier version up to this one.
    ///
    /// # Errors
    /// [`BookError`]: no such file, another kind of file, a newer book, a damaged one.
    pub fn open(path: &Path) -> Result<Self, BookError> {
        if !path.exists() {
            return Err(BookError::Missing(path.to_owned()));
        }
        let mut book = Self::connect(path, OpenFlags::SQLITE_OPEN_READ_WRITE)?;
        let of = |error: rusqlite::Error| BookError::of(path, &error);
        let version = schema::version(&book.db).map_err(of)?;
        let application: i64 = book.db.pragma_query_value(None, "application_id", |row| row.get(0)).map_err(of)?;
        let pages: i64 = book.db.pragma_query_value(None, "page_count", |row| row.get(0)).map_err(of)?;
        if pages == 0 {
            // begun by a program that was killed before it wrote anything
            return Err(BookError::Missing(path.to_owned()));
        }
        if application != schema::APPLICATION {
            return Err(BookError::NotABook(path.to_owned()));
        }
        if version > schema::VERSION {
            return Err(BookError::Newer { path: path.to_owned(), version, known: schema::VERSION });
        }
        if version < schema::VERSION {
            book.upgrade()?;
        }
        Ok(book)
    }

    /// Opens a book, or begins one where there is none, or only an empty file.
    ///
    /// # Errors
    /// As [`Book::open`].
    pub fn open_or_create(path: &Path) -> Result<Self, BookError> {
        match std::fs::metadata(path) {
            // what the power cut short while it was begun is rolled back to nothing when it is opened
            Ok(file) if file.len() > 0 => match Self::open(path) {
                Err(BookError::Missing(_)) => Self::create(path),
                opened => opened,
            },
            _ => Self::create(path),
        }
    }

    fn connect(path: &Path, flags: OpenFlags) -> Result<Self, BookError> {
        let of = |error: rusqlite::Error| BookError::of(path, &error);
        let mut db = Connection::open_with_flags(path, flags | OpenFlags::SQLITE_OPEN_NO_MUTEX).map_err(of)?;
        db.busy_handler(Some(wait)).map_err(of)?;
        // A rollback journal keeps the book one file, which people copy; with EXTRA what was confirmed is on the disk,
        // the journal's end too (SQLite, "PRAGMA synchronous").
        db.pragma_update(None, "synchronous", "EXTRA").map_err(of)?;
        db.pragma_update(None, "foreign_keys", true).map_err(of)?;
        db.set_prepared_statement_cache_capacity(64);
        Ok(Self { db, path: path.to_owned(), wrote: None })
    }

    fn upgrade(&mut self) -> Result<(), BookError> {
        let path = self.path.clone();
        let of = |error: rusqlite::Error| BookError::of(&path, &error);
        let turn = self.db.transaction_with_behavior(TransactionBehavior::Immediate).map_err(of)?;
        // another program may have done it while this one waited for its turn
        if schema::version(&turn).map_err(of)? < schema::VERSION {
            schema::migrate(&turn, schema::steps()).map_err(of)?;
        }
        turn.commit().map_err(of)
    }

    /// Copies the book, as it is at this moment, to a new file.
    ///
    /// # Errors
    /// [`BookError::Exists`] where a file is there already, or what the disk says.
    pub fn backup(&self, to: &Path) -> Result<(), BookError> {
        if to.exists() {
            return Err(BookError::Exists(to.to_owned()));
        }
        // under another name until it is whole, so that a copy that was cut short is never taken for one
        let mut name = to.as_os_str().to_owned();
        name.push(".part");
        let part = std::path::PathBuf::from(name);
        let failed = |error: std::io::Error| BookError::NotWritten { path: to.to_owned(), why: error.to_string() };
        if part.exists() {
            std::fs::remove_file(&part).map_err(failed)?;
        }
        let copied = self.copy_to(&part).map_err(|error| BookError::of(to, &error));
        named(copied, &part, to)
    }

    fn copy_to(&self, part: &Path) -> rusqlite::Result<()> {
        let mut copy = Connection::open(part)?;
        copy.pragma_update(None, "synchronous", "EXTRA")?;
        let work = rusqlite::backup::Backup::new(&self.db, &mut copy)?;
        work.run_to_completion(1_000, Duration::from_millis(1), None)
    }

    /// Lets others have their turn where this program wrote only just now.
    pub(crate) fn give_way(&self) {
        let since = self.wrote.map(|wrote| wrote.elapsed());
        if let Some(left) = since.and_then(|since| GAP.checked_sub(since)) {
            std::thread::sleep(left);
        }
    }

    /// What an error of the library means for this file.
    pub(crate) fn fault(&self, error: &rusqlite::Error) -> BookError {
        BookError::of(&self.path, error)
    }
}

/// Gives a copy its name where it is whole, and takes away what there is of it where it is not.
fn named(copied: Result<(), BookError>, part: &Path, to: &Path) -> Result<(), BookError> {
    let failed = |error: std::io::Error| BookError::NotWritten { path: to.to_owned(), why: error.to_string() };
    let whole = copied.and_then(|()| std::fs::rename(part, to).and_then(|()| sync_folder(to)).map_err(failed));
    if whole.is_err() {
        // half a copy helps nobody; where even this fails, what went wrong first is told
        let _ = std::fs::remove_file(part);
    }
    whole
}

/// Syncs the folder that a file was given its name in: until then the name is lost with the power (fsync(2)).
#[cfg(unix)]
fn sync_folder(of: &Path) -> std::io::Result<()> {
    let folder = of.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."));
    std::fs::File::open(folder)?.sync_all()
}

/// Where folders cannot be opened, names are the system's own business.
#[cfg(not(unix))]
fn sync_folder(_: &Path) -> std::io::Result<()> {
    Ok(())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn a_copy_that_a_full_disk_cut_short_leaves_nothing_behind() {
        let folder = tempfile::tempdir().unwrap();
        let (part, to) = (folder.path().join("copy.book.part"), folder.path().join("copy.book"));
        std::fs::write(&part, "").unwrap();
        let full = BookError::NotWritten { path: to.clone(), why: "the disk is full".to_owned() };
        assert!(matches!(named(Err(full), &part, &to), Err(BookError::NotWritten { .. })));
        assert!(!part.exists() && !to.exists());
        std::fs::write(&part, "whole").unwrap();
        named(Ok(()), &part, &to).unwrap();
        assert!(!part.exists() && to.exists());
    }
}
