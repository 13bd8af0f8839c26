//! The shop's book: taking sheets in, looking at what is there, checking and copying it.

use super::io::{Exit, Io};
use super::keep;
use super::known_names::known_use;
use super::load;
use super::log::say::{count, meters, run_text};
use super::money;
use super::options::PackFiles;
use super::shelf::{Shelf, day, entries, refuse};
use crate::packs::clean::clean;
use clap::{Args, Subcommand};
use std::path::{Path, PathBuf};
use thou_book::{Book, Lost};
use thou_life::entry::SHOP;

#[derive(Debug, Args)]
pub(super) struct BookArgs {
    #[command(flatten)]
    shelf: Shelf,
    #[command(subcommand)]
    command: BookCommand,
}

#[derive(Debug, Subcommand)]
enum BookCommand {
    /// Take a build sheet in; a changed one is a new revision. Begins the book where there is none
    Add {
        /// The build sheet
        sheet: PathBuf,
        /// The engine's name in the book; the sheet's own if not given
        #[arg(long)]
        engine: Option<String>,
        /// The day, like 2026-05-02; today if not given
        #[arg(long)]
        day: Option<String>,
    },
    /// List the engines
    List,
    /// Show one engine: its sheet, its meters, the parts in it
    Show {
        /// The engine's name in the book
        engine: String,
    },
    /// Write down when an event is, that it moved or is called off
    Event(keep::EventArgs),
    /// Write down what lies on the shelf, or is gone from it
    Spare(keep::SpareArgs),
    /// Write down how long a part takes to come, or is away
    LeadTime(keep::LeadTimeArgs),
    /// Write down what a part, a failure or an hour of work costs
    Cost(keep::CostArgs),
    /// Charge an engine for work or parts that are no service
    Charge(keep::ChargeArgs),
    /// Write down what was paid for an engine
    Paid(keep::PaidArgs),
    /// Write down what may be spent on an engine in a season
    Budget(keep::BudgetArgs),
    /// Write down whose an engine is
    Customer(keep::CustomerArgs),
    /// List what the book keeps over the sheets: events, days, costs, shelf
    Kept {
        /// The engine's name in the book, or shop; every engine if not given
        engine: Option<String>,
    },
    /// Sum up costs and hours by season, engine and customer, with what is still owed
    Money(money::MoneyArgs),
    /// Hold the book against itself, page by page and entry by entry
    Check {
        /// Save what can be read into a new book
        #[arg(long, value_name = "NEW-FILE")]
        recover: Option<PathBuf>,
    },
    /// How long a part lived in this shop: maker beside maker, or engine beside engine
    Lives(super::lives::LivesArgs),
    /// Copy the book, as it is now, to a new file
    Backup {
        /// The new file
        to: PathBuf,
    },
}

impl BookArgs {
    pub(super) fn zone(&self) -> Option<&str> {
        self.shelf.zone.as_deref()
    }
}

pub(super) fn run(args: &BookArgs, io: &mut Io<'_>) -> Exit {
    let shelf = &args.shelf;
    let done = match &args.command {
        BookCommand::Add { sheet, engine, day } => add(shelf, sheet, engine.as_deref(), day.as_deref(), io),
        BookCommand::List => list(shelf, io),
        BookCommand::Show { engine } => show(shelf, engine, io),
        BookCommand::Event(args) => keep::event(shelf, args, io),
        BookCommand::Spare(args) => keep::spare(shelf, args, io),
        BookCommand::LeadTime(args) => keep::lead_time(shelf, args, io),
        BookCommand::Cost(args) => keep::cost(shelf, args, io),
        BookCommand::Charge(args) => keep::charge(shelf, args, io),
        BookCommand::Paid(args) => keep::paid(shelf, args, io),
        BookCommand::Budget(args) => keep::budget(shelf, args, io),
        BookCommand::Customer(args) => keep::customer(shelf, args, io),
        BookCommand::Kept { engine } => keep::list(shelf, engine.as_deref(), io),
        BookCommand::Money(args) => money::money(shelf, args, io),
        BookCommand::Check { recover: Some(to) } => recover(shelf, to, io),
        BookCommand::Check { recover: None } => check(shelf, io),
        BookCommand::Lives(of) => super::lives::lives(shelf, of, io),
        BookCommand::Backup { to } => backup(shelf, to, io),
    };
    done.map_or_else(|exit| exit, |()| Exit::FINE)
}

fn add(shelf: &Shelf, path: &Path, engine: Option<&str>, given: Option<&str>, io: &mut Io<'_>) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    let sheet = load::sheet(path, io)?;
    let (packs, _) = load::packs(&PackFiles { packs: Vec::new() }, Some(path), io);
    known_use(&sheet, &packs, io)?;
    let day = day(given, wrap, io)?;
    let named = sheet.stated("engine.name").and_then(|(v, _)| v.as_str()).unwrap_or("").to_owned();
    let name = engine.map_or(named, str::to_owned);
    if name.trim().is_empty() || name.starts_with('-') || clean(&name) != name || name == SHOP {
        io.complain(&wrap.fill(
            "The sheet has no engine.name that can stand in a book: give one with --engine NAME",
            "",
            "  ",
        ));
        return Err(Exit::INVALID);
    }
    let file = shelf.path();
    let begun = std::fs::metadata(&file).map_or(true, |f| f.len() == 0);
    let mut book = Book::open_or_create(&file).map_err(|e| refuse(&e, wrap, io))?;
    let text = &sheet.source.text;
    let taken = book.add_sheet_with(&name, text, &sheet.files(), day).map_err(|e| refuse(&e, wrap, io))?;
    let mut words = if taken.added {
        format!("{name}: sheet taken in as revision {}, {day}", taken.number)
    } else {
        format!("{name}: the book has this sheet already, as revision {}; nothing was written", taken.number)
    };
    if begun {
        words = format!("Began {}. {words}", file.display());
    }
    io.say(&wrap.fill(&clean(&words), "", "  "));
    let row = book.engine(&name).map_err(|e| refuse(&e, wrap, io))?;
    if taken.added && taken.number == 1 && !row.meters.is_empty() {
        let words = format!("By the sheet it had run {} then; the log counts on from there.", meters(&row.meters));
        io.say(&wrap.fill(&words, "  ", "  "));
    }
    Ok(())
}

fn list(shelf: &Shelf, io: &mut Io<'_>) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    let rows = shelf.open(io)?.engines().map_err(|e| refuse(&e, wrap, io))?;
    for row in &rows {
        let mut words = vec![match (row.usage.as_str(), row.revision) {
            (_, 0) => "no sheet yet".to_owned(),
            (usage, n) => format!(
                "{usage}, {}sheet revision {n}",
                if row.title.is_empty() { String::new() } else { format!("{}, ", row.title) }
            ),
        }];
        words.push(match row.last {
            Some(last) => format!("{}, the last {last}", entries(row.entries)),
            None => "nothing logged".to_owned(),
        });
        if !row.meters.is_empty() {
            words.push(meters(&row.meters));
        }
        io.say(&wrap.fill(&clean(&words.join("; ")), &format!("{:<8} ", clean(&row.name)), "         "));
    }
    if rows.is_empty() {
        io.say(&wrap.fill("No engine yet: `thou book add SHEET.json` takes one in.", "", "  "));
    }
    Ok(())
}

fn show(shelf: &Shelf, engine: &str, io: &mut Io<'_>) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    let book = shelf.open(io)?;
    let row = book.engine(engine).map_err(|e| refuse(&e, wrap, io))?;
    let history = book.history(engine).map_err(|e| refuse(&e, wrap, io))?;
    let title = [row.name.as_str(), row.title.as_str(), row.usage.as_str()].into_iter().filter(|t| !t.is_empty());
    io.say(&wrap.fill(&clean(&title.collect::<Vec<_>>().join("   ")), "", "  "));
    let mut line = |label: &str, words: &str| {
        io.say(&wrap.fill(&clean(words), &format!("{label:<8} "), "         "));
    };
    match book.sheet(engine) {
        Ok(sheet) => line(
            "sheet",
            &format!("revision {} of {}, sha256 {}", sheet.revision, sheet.day, sheet.digest.get(..12).unwrap_or("")),
        ),
        Err(_) => line("sheet", "none yet"),
    }
    if let Some(built) = row.built {
        line("built", &built.to_string());
    }
    line(
        "log",
        &row.last.map_or_else(|| "nothing yet".to_owned(), |last| format!("{}, the last {last}", entries(row.entries))),
    );
    line("meters", &if row.meters.is_empty() { "nothing run".to_owned() } else { meters(&row.meters) });
    let here = history.parts.values().filter(|part| part.still_in() == Some(engine));
    for (index, part) in here.enumerate() {
        let place = part.stretches.last().and_then(|s| s.place.clone()).map(|p| format!(" at {p}")).unwrap_or_default();
        let since = part.stretches.last().map(|s| s.fitted.to_string()).unwrap_or_default();
        let run = run_text(&part.run());
        line(
            if index == 0 { "parts" } else { "" },
            &format!(
                "{}{place}, {}, since {since}: {}",
                part.part,
                part.serial,
                if run.is_empty() { "not run" } else { &run }
            ),
        );
    }
    Ok(())
}

fn check(shelf: &Shelf, io: &mut Io<'_>) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    let mut book = shelf.open(io)?;
    let checked = book.examine().map_err(|e| refuse(&e, wrap, io))?;
    let wrong = &checked.wrong;
    if !wrong.is_empty() {
        for line in wrong {
            io.complain(&wrap.fill(&clean(line), "- ", "  "));
        }
        let ([good, all], [good_sheets, all_sheets]) = (checked.entries, checked.sheets);
        let words = format!(
            "{}: {} wrong. As they were written, and to be trusted: {good} of {all} entries and {good_sheets} of \
             {all_sheets} sheets. Nothing was changed. Take the last backup, or save what can be read: thou book check \
             --recover NEW-FILE",
            shelf.path().display(),
            if wrong.len() == 1 { "1 thing is".to_owned() } else { format!("{} things are", wrong.len()) }
        );
        io.complain(&wrap.fill(&words, "", "  "));
        return Err(Exit::INVALID);
    }
    let told = book.unfinished().map_err(|e| refuse(&e, wrap, io))?;
    book.strike_out(&told).map_err(|e| refuse(&e, wrap, io))?;
    let rows = book.engines().map_err(|e| refuse(&e, wrap, io))?;
    let sum = book.count().map_err(|e| refuse(&e, wrap, io))?;
    let words = format!(
        "{}: {}, {}. The file holds together, every entry and sheet is as it was written, and all that is kept beside \
         them follows from them.{}",
        shelf.path().display(),
        engines(rows.len()),
        entries(sum),
        match checked.last_link.get(..12) {
            Some(link) => format!(" Its last entry is {link}."),
            None => String::new(),
        }
    );
    io.say(&wrap.fill(&words, "", "  "));
    Ok(())
}

fn recover(shelf: &Shelf, to: &Path, io: &mut Io<'_>) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    let saved = Book::recover(&shelf.path(), to).map_err(|e| refuse(&e, wrap, io))?;
    let lost = match (saved.lost_entries(), saved.end_known) {
        (0, true) => "none is missing".to_owned(),
        (0, false) => {
            "none is missing up to the last that could be read, and nothing says how many there were".to_owned()
        }
        (1, true) => "1 that was written once is NOT in it".to_owned(),
        (n, true) => format!("{n} that were written once are NOT in it"),
        (n, false) => {
            format!("{n} at the least that were written once are NOT in it: nothing says how many there were")
        }
    };
    for Lost { from, to, words } in &saved.lost {
        let which = if from == to { format!("entry {from}") } else { format!("entries {from} to {to}") };
        // one that can be named names itself
        let line = if words.starts_with("entry ") { words.clone() } else { format!("{which}: {words}") };
        io.complain(&wrap.fill(&clean(&line), "- ", "  "));
    }
    for sheet in &saved.lost_sheets {
        io.complain(&wrap.fill(&clean(&format!("sheet of {sheet}")), "- ", "  "));
    }
    for calendar in &saved.lost_calendars {
        let words = format!(
            "what the last calendar file said of {calendar}. The next file cannot cancel what went away: take it into a \
             calendar of its own"
        );
        io.complain(&wrap.fill(&clean(&words), "- ", "  "));
    }
    let words = format!(
        "{}: {}, {} and {} saved from {}; of the entries {lost}. The damaged file was only read.",
        to.display(),
        engines(saved.engines as usize),
        count(f64::from(saved.sheets), "sheet", "sheets"),
        entries(saved.entries),
        shelf.path().display()
    );
    io.say(&wrap.fill(&words, "", "  "));
    Ok(())
}

fn backup(shelf: &Shelf, to: &Path, io: &mut Io<'_>) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    let book = shelf.open(io)?;
    book.backup(to).map_err(|e| refuse(&e, wrap, io))?;
    let rows = book.engines().map_err(|e| refuse(&e, wrap, io))?;
    let sum = book.count().map_err(|e| refuse(&e, wrap, io))?;
    let words = format!("{}: {} and {} copied", to.display(), engines(rows.len()), entries(sum));
    io.say(&wrap.fill(&words, "", "  "));
    Ok(())
}

/// How many engines.
fn engines(number: usize) -> String {
    count(number as f64, "engine", "engines")
}
