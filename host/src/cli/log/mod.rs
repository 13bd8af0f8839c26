//! The log: what a thumb can type at the track, what was written, and logs as files.

mod add;
mod by_id;
mod compare;
pub(super) mod entry_check;
mod event;
mod file;
pub(super) mod known;
mod list;
mod office_words;
pub(super) mod say;
mod speak;
mod sure;
mod twin;
mod undo;
mod units;
pub(super) mod words;

use super::io::{Exit, Io};
use super::options::Format;
use super::shelf::Shelf;
use clap::{Args, Subcommand};

#[derive(Debug, Args)]
pub(super) struct LogArgs {
    #[command(flatten)]
    shelf: Shelf,
    #[command(subcommand)]
    command: LogCommand,
}

#[derive(Debug, Subcommand)]
enum LogCommand {
    /// Write down what ran, what was read, what happened or what was done
    #[command(after_help = add::EXAMPLES)]
    Add(Box<add::AddArgs>),
    /// List what was written
    List {
        /// The engine's name in the book
        engine: String,
        /// From this day on
        #[arg(long, value_name = "DAY")]
        since: Option<String>,
        /// Only these: ran, read, happened, did, fitted, ..., or a reading or a happening by its name
        #[arg(long)]
        what: Option<String>,
        /// What was undone too
        #[arg(long)]
        undone: bool,
    },
    /// Set two passes side by side in the same air
    Compare {
        /// The engine's name in the book
        engine: String,
        /// The first pass: its entry's id, or its beginning
        first: String,
        /// The second
        second: String,
        /// Text for people or JSON for programs
        #[arg(long, value_enum, default_value_t = Format::Text)]
        format: Format,
    },
    /// Count an entry no more; the newest if none is named
    Undo {
        /// The engine's name in the book
        engine: String,
        /// The entry's id, or its beginning
        id: Option<String>,
        /// Who undoes it
        #[arg(long)]
        by: Option<String>,
    },
    /// Read a log in: JSON Lines or CSV
    Import(file::ImportArgs),
    /// Write a log as JSON Lines or CSV
    Export(file::ExportArgs),
}

impl LogArgs {
    pub(super) fn zone(&self) -> Option<&str> {
        self.shelf.zone.as_deref()
    }
}

pub(super) fn run(args: &LogArgs, io: &mut Io<'_>) -> Exit {
    let shelf = &args.shelf;
    let done = match &args.command {
        LogCommand::Add(add) => add::add(shelf, add, io),
        LogCommand::List { engine, since, what, undone } => {
            list::list(shelf, engine, since.as_deref(), what.as_deref(), *undone, io)
        }
        LogCommand::Compare { engine, first, second, format } => {
            compare::compare(shelf, engine, [first, second], *format, io)
        }
        LogCommand::Undo { engine, id, by } => undo::undo(shelf, engine, id.as_deref(), by.as_deref(), io),
        LogCommand::Import(import) => file::import(shelf, import, io),
        LogCommand::Export(export) => file::export(shelf, export, io),
    };
    done.map_or_else(|exit| exit, |()| Exit::FINE)
}
