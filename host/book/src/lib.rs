//! The shop's book: one file with its engines, their sheets by revision, and their logs.
//!
//! What is written is an entry, and an entry is never changed: what was wrong is undone by another. All else in the file
//! (meters, parts with every stretch they ran, services done last) follows from the entries and is kept for speed;
//! [`Book::check`] holds it against them. No clock: days come in with the entries.
#![forbid(unsafe_code)]

mod append;
mod calendar;
mod check;
mod derive;
mod engines;
mod error;
mod history;
mod id;
mod lines;
mod open;
mod proof;
mod recover;
mod schema;
mod seal;
mod serials;
mod unfinished;

pub use append::{Added, KeptGood, shown};
pub use calendar::CalendarSaid;
pub use check::Checked;
pub use engines::{EngineRow, Revision, SheetRow};
pub use error::{BookError, Refusal, Refused};
pub use lines::{FileForm, LineFault, LogLine, read, write};
pub use recover::{Lost, Saved};
pub use unfinished::Unfinished;

/// An open book. Several programs may have one open at once: each write is whole, and waits for its turn.
#[derive(Debug)]
pub struct Book {
    pub(crate) db: rusqlite::Connection,
    pub(crate) path: std::path::PathBuf,
    /// When it wrote last.
    pub(crate) wrote: Option<std::time::Instant>,
}

#[cfg(test)]
mod damage_tests;
#[cfg(test)]
mod full_tests;
