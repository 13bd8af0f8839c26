//! The book that a command works on, and what every such command asks of it.

use super::io::{Exit, Io};
use super::log::say::{Wrap, count};
use crate::packs::clean::clean;
use crate::plan::kept;
use crate::sheet::Sheet;
use clap::Args;
use jiff::civil::Date;
use std::path::PathBuf;
use thou_book::{Book, BookError};
use thou_life::entry::SHOP;
use thou_text::same_name;

/// Where the book is, and how wide the page is.
#[derive(Debug, Args)]
pub(super) struct Shelf {
    /// The book; else the file that THOU_BOOK names, else thou.book in this folder
    #[arg(long, value_name = "FILE", global = true)]
    book: Option<PathBuf>,
    /// Columns to wrap to; the terminal's own if not given
    #[arg(long, value_name = "COLUMNS", global = true)]
    width: Option<usize>,
    /// The zone whose days count, like America/New_York or -05:00; else THOU_ZONE's, else the computer's own
    #[arg(long, value_name = "ZONE", global = true, allow_hyphen_values = true)]
    pub(super) zone: Option<String>,
}

impl Shelf {
    /// The book's file.
    pub(super) fn path(&self) -> PathBuf {
        let named = self.book.clone().or_else(|| std::env::var_os("THOU_BOOK").map(PathBuf::from));
        named.unwrap_or_else(|| PathBuf::from("thou.book"))
    }

    /// The folder that the book is in.
    pub(super) fn folder(&self) -> PathBuf {
        self.path().parent().map(std::path::Path::to_path_buf).unwrap_or_default()
    }

    /// How lines are wrapped: to the terminal, and never to less than a phone's 40 columns.
    pub(super) fn wrap(&self) -> Wrap {
        let terminal = || terminal_size::terminal_size().map(|(width, _)| usize::from(width.0));
        Wrap(self.width.or_else(terminal).unwrap_or(80).clamp(40, 120))
    }

    /// Opens the book, and says what was begun in it and not ended.
    pub(super) fn open(&self, io: &mut Io<'_>) -> Result<Book, Exit> {
        let mut book = Book::open(&self.path()).map_err(|error| refuse(&error, self.wrap(), io))?;
        for work in book.unfinished().map_err(|error| refuse(&error, self.wrap(), io))? {
            let words = format!(
                "An import of {} ({}) was begun and not ended: nothing of it is in the book. Read it in again; \
                 `thou book check` strikes this line out.",
                clean(&work.what),
                entries(work.entries)
            );
            io.complain(&self.wrap().fill(&words, "", "  "));
        }
        Ok(book)
    }
}

/// The engine of the book that was meant, however its letters were written; `shop`, or `*`, is what holds for all.
pub(super) fn engine(book: &Book, typed: &str) -> Result<String, BookError> {
    let rows = book.engines()?;
    if let Some(row) = rows.iter().find(|row| row.name == typed) {
        return Ok(row.name.clone());
    }
    let mut alike = rows.iter().filter(|row| same_name(&row.name) == same_name(typed));
    match (alike.next(), alike.next()) {
        (Some(one), None) => Ok(one.name.clone()),
        _ if typed == SHOP || typed.eq_ignore_ascii_case("shop") => Ok(SHOP.to_owned()),
        _ => book.engine(typed).map(|row| row.name),
    }
}

/// How many entries.
pub(super) fn entries(number: u32) -> String {
    count(f64::from(number), "entry", "entries")
}

/// Says why not.
pub(super) fn refuse(error: &BookError, wrap: Wrap, io: &mut Io<'_>) -> Exit {
    io.complain(&wrap.fill(&clean(&error.to_string()), "", "  "));
    Exit::INVALID
}

/// Says why nothing was written.
pub(super) fn complain(words: &str, wrap: Wrap, io: &mut Io<'_>) -> Exit {
    io.complain(&wrap.fill(&clean(words), "", "  "));
    Exit::INVALID
}

/// Text as it is kept: what nobody sees is left out, and nothing is nothing.
pub(super) fn tidy(text: Option<&str>) -> Option<String> {
    text.map(|t| clean(t.trim())).filter(|t| !t.is_empty())
}

/// The day that was given, else today.
pub(super) fn day(given: Option<&str>, wrap: Wrap, io: &mut Io<'_>) -> Result<Date, Exit> {
    let words = match given {
        Some(text) => match text.parse() {
            Ok(day) => return Ok(day),
            Err(_) => format!("--day {}: write year, month, day, like 2026-05-02", clean(text)),
        },
        None => match io.today {
            Some(day) => return Ok(day),
            None => "The computer does not say what day it is: give it with --day 2026-05-02".to_owned(),
        },
    };
    io.complain(&wrap.fill(&words, "", "  "));
    Err(Exit::INVALID)
}

/// The newest sheet of an engine with the files that were kept with it, and what the book keeps over it; none where it was taken in without one. A sheet
/// that this program no longer takes is told, and stops nobody from writing down what happened.
pub(super) fn sheet(book: &Book, engine: &str, wrap: Wrap, io: &mut Io<'_>) -> Result<Option<Sheet>, Exit> {
    let kept = match book.sheet(engine) {
        Ok(kept) => kept,
        Err(BookError::NoSheet(_)) => return Ok(None),
        Err(error) => return Err(refuse(&error, wrap, io)),
    };
    let name = format!("{engine}, revision {}", kept.revision);
    match Sheet::parse_kept(&name, &kept.text, kept.files) {
        Ok(mut sheet) => {
            let [shop, own] = book.office(engine).map_err(|error| refuse(&error, wrap, io))?;
            kept::over(&mut sheet, [&shop, &own], None);
            Ok(Some(sheet))
        }
        Err(faults) => {
            let words = format!(
                "The sheet of {name} in the book is not one that this program takes ({} faults): places are not checked. \
                 Take it in anew with `thou book add`.",
                faults.faults().len() + faults.left_off()
            );
            io.complain(&wrap.fill(&clean(&words), "", "  "));
            Ok(None)
        }
    }
}
