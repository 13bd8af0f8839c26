//! The tables of a book, version by version.

use rusqlite::{Connection, Result};

/// Marks the file as a book of thou: "thou" in ASCII, in the header's application id.
pub(crate) const APPLICATION: i64 = 0x7468_6f75;

/// The version that this program writes.
pub(crate) const VERSION: i64 = STEPS.len() as i64;

/// What takes a book from one version to the next; the first makes it.
const STEPS: &[&str] = &[ONE, TWO, THREE, FOUR, FIVE, SIX];

/// `entry` is what was written; `undone`, `meter`, `stretch`, `tightened` and `done` follow from it.
const ONE: &str = "
CREATE TABLE about (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID;
INSERT INTO about VALUES ('origin', lower(hex(randomblob(8))));
CREATE TABLE engine (
    name TEXT PRIMARY KEY, title TEXT NOT NULL, usage TEXT NOT NULL, built TEXT, start TEXT NOT NULL,
    last_event TEXT NOT NULL DEFAULT '', entries INTEGER NOT NULL DEFAULT 0
) STRICT, WITHOUT ROWID;
CREATE TABLE sheet (
    engine TEXT NOT NULL REFERENCES engine(name), revision INTEGER NOT NULL, day TEXT NOT NULL, digest TEXT NOT NULL,
    text TEXT NOT NULL, PRIMARY KEY (engine, revision)
) STRICT;
CREATE TABLE entry (
    seq INTEGER PRIMARY KEY AUTOINCREMENT, id TEXT NOT NULL UNIQUE, engine TEXT NOT NULL REFERENCES engine(name),
    day TEXT NOT NULL, what TEXT NOT NULL, serial TEXT, json TEXT NOT NULL
) STRICT;
CREATE INDEX entry_by_day ON entry (engine, day, seq);
CREATE INDEX entry_by_serial ON entry (serial, day, seq) WHERE serial IS NOT NULL;
CREATE TABLE undone (seq INTEGER PRIMARY KEY REFERENCES entry(seq), engine TEXT NOT NULL) STRICT;
CREATE INDEX undone_by_engine ON undone (engine);
CREATE TABLE meter (
    engine TEXT NOT NULL REFERENCES engine(name), meter TEXT NOT NULL, total REAL NOT NULL, zero REAL NOT NULL,
    read_at REAL NOT NULL, freshened REAL NOT NULL, PRIMARY KEY (engine, meter)
) STRICT, WITHOUT ROWID;
CREATE TABLE stretch (
    fitted_by INTEGER PRIMARY KEY REFERENCES entry(seq), removed_by INTEGER REFERENCES entry(seq),
    serial TEXT NOT NULL, part TEXT NOT NULL, engine TEXT NOT NULL REFERENCES engine(name), place TEXT,
    fitted TEXT NOT NULL, removed TEXT, at_fitted TEXT NOT NULL, at_removed TEXT, brought TEXT NOT NULL, made TEXT,
    failed INTEGER NOT NULL DEFAULT 0, disposition TEXT, because TEXT
) STRICT;
CREATE INDEX stretch_by_serial ON stretch (serial, fitted, fitted_by);
CREATE INDEX stretch_by_part ON stretch (part, serial);
CREATE INDEX stretch_by_engine ON stretch (engine, serial);
CREATE TABLE tightened (
    seq INTEGER PRIMARY KEY REFERENCES entry(seq), serial TEXT NOT NULL, engine TEXT NOT NULL, day TEXT NOT NULL
) STRICT;
CREATE INDEX tightened_by_serial ON tightened (serial);
CREATE INDEX tightened_by_engine ON tightened (engine);
CREATE TABLE done (
    engine TEXT NOT NULL REFERENCES engine(name), service TEXT NOT NULL, seq INTEGER NOT NULL REFERENCES entry(seq),
    day TEXT NOT NULL, at TEXT NOT NULL, PRIMARY KEY (engine, service)
) STRICT, WITHOUT ROWID;
";

/// Counts an event once in its year, however many days apart its entries are; what follows from the entries is made anew.
const TWO: &str = "
CREATE TABLE event (
    engine TEXT NOT NULL REFERENCES engine(name), year INTEGER NOT NULL, name TEXT NOT NULL,
    PRIMARY KEY (engine, year, name)
) STRICT, WITHOUT ROWID;
ALTER TABLE engine DROP COLUMN last_event;
";

/// Keeps the files that a sheet names with it, and says of work that was begun whether it came to its end.
const THREE: &str = "
CREATE TABLE attached (
    engine TEXT NOT NULL, revision INTEGER NOT NULL, name TEXT NOT NULL, text TEXT NOT NULL,
    PRIMARY KEY (engine, revision, name), FOREIGN KEY (engine, revision) REFERENCES sheet (engine, revision)
) STRICT;
CREATE TABLE unfinished (digest TEXT PRIMARY KEY, what TEXT NOT NULL, entries INTEGER NOT NULL) STRICT, WITHOUT ROWID;
";

/// What proves that the book is as it was written; what has no digest yet is given one when the step is taken.
const FOUR: &str = "
ALTER TABLE entry ADD COLUMN digest TEXT NOT NULL DEFAULT '';
ALTER TABLE entry ADD COLUMN link TEXT NOT NULL DEFAULT '';
ALTER TABLE sheet ADD COLUMN proof TEXT NOT NULL DEFAULT '';
ALTER TABLE sheet ADD COLUMN link TEXT NOT NULL DEFAULT '';
CREATE TABLE chain (name TEXT PRIMARY KEY, link TEXT NOT NULL, rows INTEGER NOT NULL) STRICT, WITHOUT ROWID;
";

/// Keeps what the last calendar files of an engine said, so that the next one moves and cancels their entries.
const FIVE: &str = "
CREATE TABLE calendar (engine TEXT PRIMARY KEY REFERENCES engine(name), said TEXT NOT NULL, digest TEXT NOT NULL) STRICT;
";

/// Counts the calendars that are kept, so that one that was taken out is missed: a row of `chain`, no table of its own.
const SIX: &str = "";

/// The version from which on a book has digests: what it says by then is not sealed anew as it is found.
const SEALED: i64 = 4;

/// The version that the file is at; nought where it is new.
pub(crate) fn version(db: &Connection) -> Result<i64> {
    db.pragma_query_value(None, "user_version", |row| row.get(0))
}

/// Takes a book to the newest version; call it within a transaction.
pub(crate) fn migrate(db: &Connection, steps: &[&str]) -> Result<()> {
    let from = version(db)?;
    for (index, step) in steps.iter().enumerate().skip(usize::try_from(from).unwrap_or(0)) {
        db.execute_batch(step)?;
        db.pragma_update(None, "user_version", index as i64 + 1)?;
    }
    let mut statement = db.prepare("SELECT name FROM engine ORDER BY name")?;
    let names: Vec<String> = statement.query_map([], |row| row.get(0))?.collect::<Result<_>>()?;
    for name in names {
        crate::derive::recompute(db, &name)?;
    }
    if from < SEALED {
        crate::seal::seal(db)?;
    }
    if from < VERSION {
        crate::proof::seal_calendars(db)?;
    }
    db.pragma_update(None, "application_id", APPLICATION)
}

/// The steps that this program knows.
pub(crate) fn steps() -> &'static [&'static str] {
    STEPS
}
