//! Beginning, opening and copying a book.

use crate::error::BookError;
use crate::{Book, schema};
use rusqlite::{Connection, OpenFlags, TransactionBehavior};
use std::path::Path;
use std::time::Duration;

/// How long a write waits for its turn.
const PATIENCE: Duration = Duration::from_secs(60);

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
            Ok(file) if file.len() > 0 => Self::open(path),
            _ => Self::create(path),
        }
    }

    fn connect(path: &Path, flags: OpenFlags) -> Result<Self, BookError> {
        let of = |error: rusqlite::Error| BookError::of(path, &error);
        let db = Connection::open_with_flags(path, flags | OpenFlags::SQLITE_OPEN_NO_MUTEX).map_err(of)?;
        db.busy_timeout(PATIENCE).map_err(of)?;
        // A rollback journal keeps the book one file, which people copy; with EXTRA what was confirmed is on the disk,
        // the journal's end too (SQLite, "PRAGMA synchronous").
        db.pragma_update(None, "synchronous", "EXTRA").map_err(of)?;
        db.pragma_update(None, "foreign_keys", true).map_err(of)?;
        db.set_prepared_statement_cache_capacity(64);
        Ok(Self { db, path: path.to_owned() })
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
        let of = |error: rusqlite::Error| BookError::of(to, &error);
        let mut copy = Connection::open(to).map_err(of)?;
        copy.pragma_update(None, "synchronous", "EXTRA").map_err(of)?;
        let work = rusqlite::backup::Backup::new(&self.db, &mut copy).map_err(of)?;
        work.run_to_completion(1_000, Duration::from_millis(1), None).map_err(of)
    }

    /// What an error of the library means for this file.
    pub(crate) fn fault(&self, error: &rusqlite::Error) -> BookError {
        BookError::of(&self.path, error)
    }
}
