//! What can go wrong with a book, in words that say what to do.

use jiff::civil::Date;
use rusqlite::ErrorCode;
use std::path::PathBuf;

/// Why a book cannot be opened, read or written.
#[derive(Debug, thiserror::Error)]
pub enum BookError {
    /// There is no such file.
    #[error("there is no book at {}: `thou book add SHEET.json` begins one", .0.display())]
    Missing(PathBuf),
    /// A file is there already.
    #[error("{} is there already: a new book does not go over an old file", .0.display())]
    Exists(PathBuf),
    /// A file of another kind.
    #[error("{} is not a book of thou: it is some other file, and was left as it is", .0.display())]
    NotABook(PathBuf),
    /// A later program wrote it.
    #[error(
        "{} was written by a newer thou (book version {version}, this one knows up to {known}): use the newer \
         program; the book was left as it is",
        .path.display()
    )]
    Newer {
        /// The file.
        path: PathBuf,
        /// Its version.
        version: i64,
        /// The newest version that this program knows.
        known: i64,
    },
    /// A later program wrote one of its entries.
    #[error(
        "{}: the entry \"{what}\" of {engine}, {day}, was written by a newer thou, which knows that kind: use the newer \
         program; the book was left as it is",
        .path.display()
    )]
    NewerEntry {
        /// The file.
        path: PathBuf,
        /// The entry's kind.
        what: String,
        /// The engine.
        engine: String,
        /// Its day.
        day: String,
    },
    /// The file does not hold together.
    #[error(
        "{} is damaged ({why}); nothing was written to it. Take the last backup, or save what can be read: \
         thou book check --recover NEW-FILE",
        .path.display()
    )]
    Damaged {
        /// The file.
        path: PathBuf,
        /// What was found.
        why: String,
    },
    /// No room, or no right to write.
    #[error("{}: {why}; this was NOT written, and the book is as it was", .path.display())]
    NotWritten {
        /// The file.
        path: PathBuf,
        /// Why.
        why: String,
    },
    /// Somebody else held it for too long.
    #[error("{}: another program has been writing to the book for too long; nothing was written, try again", .0.display())]
    Busy(PathBuf),
    /// No engine of that name.
    #[error("no engine \"{name}\" is in the book{hint}")]
    UnknownEngine {
        /// The name that was asked for.
        name: String,
        /// The one that was perhaps meant, or where they come from.
        hint: String,
    },
    /// An engine that was taken in without a sheet, or without that revision.
    #[error("the book has no such sheet of {0}: `thou book add SHEET.json --engine {0}` takes one in")]
    NoSheet(String),
    /// A sheet that is no JSON.
    #[error("the sheet is not JSON: {0}")]
    NotASheet(String),
    /// An entry was refused.
    #[error(transparent)]
    Refused(#[from] Refused),
    /// Anything else that the file's own library says.
    #[error("{}: {why}", .path.display())]
    Other {
        /// The file.
        path: PathBuf,
        /// What it says.
        why: String,
    },
}

impl BookError {
    /// What an error of the library means for the file at this path.
    pub(crate) fn of(path: &std::path::Path, error: &rusqlite::Error) -> Self {
        let path = path.to_owned();
        let why = error.to_string();
        if let rusqlite::Error::FromSqlConversionFailure(.., source) = error
            && let Some(Unread(line)) = source.downcast_ref()
        {
            return match newer(line) {
                Some((what, engine, day)) => Self::NewerEntry { path, what, engine, day },
                None => Self::Damaged { path, why: "an entry's line cannot be read".to_owned() },
            };
        }
        match error.sqlite_error_code() {
            Some(ErrorCode::NotADatabase) => Self::NotABook(path),
            Some(ErrorCode::DatabaseCorrupt) => Self::Damaged { path, why },
            Some(ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked) => Self::Busy(path),
            Some(ErrorCode::DiskFull) => Self::NotWritten { path, why: "the disk is full".to_owned() },
            Some(ErrorCode::ReadOnly) => Self::NotWritten { path, why: "the file may only be read".to_owned() },
            Some(ErrorCode::PermissionDenied) => Self::NotWritten { path, why: "no right to write there".to_owned() },
            Some(ErrorCode::CannotOpen) => Self::Other {
                path,
                why: "it cannot be opened: no such folder, or a folder itself, or no right to it".to_owned(),
            },
            Some(ErrorCode::SystemIoFailure) => {
                Self::NotWritten { path, why: format!("the disk did not take it ({why})") }
            }
            _ => Self::Other { path, why },
        }
    }
}

/// The line of an entry that is none for this program.
#[derive(Debug, thiserror::Error)]
#[error("the line cannot be read: {0}")]
pub(crate) struct Unread(pub(crate) String);

/// The kind, engine and day of a line that is whole, but says what this program does not know: a newer one wrote it.
pub(crate) fn newer(line: &str) -> Option<(String, String, String)> {
    let fields: serde_json::Map<String, serde_json::Value> = serde_json::from_str(line).ok()?;
    let text = |key: &str| fields.get(key)?.as_str().map(str::to_owned);
    let of = (text("what")?, text("engine")?, text("day")?);
    serde_json::from_str::<thou_life::entry::Entry>(line).is_err().then_some(of)
}

/// An entry that was refused: none of those that came with it were written.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{why}")]
pub struct Refused {
    /// Which of the entries that came together, from nought.
    pub at: usize,
    /// Why.
    pub why: Refusal,
}

/// Why an entry was refused.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum Refusal {
    /// No engine of that name.
    #[error("no engine \"{name}\" is in the book{hint}")]
    UnknownEngine {
        /// As it was written.
        name: String,
        /// The one that was perhaps meant, or where they come from.
        hint: String,
    },
    /// What cannot be said of the whole shop.
    #[error("\"{what}\" is of one engine: name the engine, not the whole shop")]
    OfOneEngine {
        /// What the entry says.
        what: &'static str,
    },
    /// The same id with other words.
    #[error("the id {0} is already that of another entry, with other words: leave the id out, and it gets its own")]
    IdTaken(String),
    /// A count or a meter that cannot be read.
    #[error("{0}")]
    Meter(#[from] thou_life::meter::MeterError),
    /// A meter that goes down.
    #[error(
        "the meter {meter} would go down: it reads {reading}, and the book has {have}. If it was put back to nothing, \
         say --meter-was-reset; if an earlier entry counts too much, undo that first"
    )]
    MeterDown {
        /// The meter.
        meter: String,
        /// What it reads, as it was written.
        reading: String,
        /// What the book has, for the reader.
        have: String,
    },
    /// The first reading of a meter after a freshening, and no less than the last before it.
    #[error(
        "the meter {meter} reads {reading}, and before the freshening it read {before}; a freshened engine is counted from \
         nothing. If the meter was put back to nothing then, say --meter-was-reset; if it runs on, log what the engine \
         ran since instead"
    )]
    MeterOfBefore {
        /// The meter.
        meter: String,
        /// What it reads, as it was written.
        reading: String,
        /// What it read then, as it was written.
        before: String,
    },
    /// The part is in another engine, or in this one already.
    #[error("{serial} is in {engine}, since {since}: log it as removed there first")]
    Fitted {
        /// The part's number.
        serial: String,
        /// The engine that has it.
        engine: String,
        /// Since this day.
        since: Date,
    },
    /// The part is not in this engine.
    #[error("{serial} is not in {engine} on {day}{hint}")]
    NotIn {
        /// The part's number.
        serial: String,
        /// The engine.
        engine: String,
        /// The day of the entry.
        day: Date,
        /// Where it is, or what to write first.
        hint: String,
    },
    /// A later entry about the part would no longer make sense.
    #[error(
        "{serial} has a later entry that this would contradict ({later}, {day}): undo that first, and write it again after"
    )]
    Later {
        /// The part's number.
        serial: String,
        /// The later entry's id.
        later: String,
        /// Its day.
        day: Date,
    },
    /// The number stands for another part.
    #[error("{serial} is already the number of {known} in this shop: give {part} a number of their own")]
    OtherPart {
        /// The number.
        serial: String,
        /// What it is to be the number of.
        part: String,
        /// What it is the number of.
        known: String,
    },
    /// No such entry to undo or to settle.
    #[error("{engine} has no entry {id}: `thou log list {engine}` shows them with their ids")]
    NoSuchEntry {
        /// The id.
        id: String,
        /// The engine.
        engine: String,
    },
    /// An entry that was undone before.
    #[error("{id} was undone before")]
    UndoneBefore {
        /// The id.
        id: String,
    },
}
