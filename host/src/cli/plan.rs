//! `thou plan`: the plan as a page, as a card, before one event, for programs, as rows, as a calendar.

use super::io::{Exit, Io};
use super::known_names::known_parts;
use super::options::{Format, PackFiles, Units, WhatIf};
use super::pages::{self, PageArgs};
use super::plan_book::{self, CalendarShelf, FromBook};
use crate::plan;
use crate::plan::fleet::{self, WITHIN};
use crate::report::ics::CalendarFile;
use crate::report::{self, Bench, NamedPack};
use crate::sheet::clean;
use crate::verdict::Verdict;
use clap::{Args, ValueEnum};
use std::path::PathBuf;
use thou_text::{nearest, same_name};

#[derive(Debug, Args)]
pub(super) struct PlanArgs {
    /// The build sheet, or the name of an engine in the shop's book
    #[arg(value_name = "SHEET|ENGINE", required_unless_present = "all")]
    sheet: Option<PathBuf>,
    #[command(flatten)]
    from: FromBook,
    #[command(flatten)]
    with: PackFiles,
    #[command(flatten)]
    what_if: WhatIf,
    /// The units to print in
    #[arg(long, value_enum, default_value_t = Units::In)]
    units: Units,
    /// Text for people, JSON for programs, rows for a table, or a calendar
    #[arg(long, value_enum, default_value_t = PlanFormat::Text)]
    format: PlanFormat,
    /// Only what must be done before this event, and what may wait; the next event if none is named
    #[arg(long, value_name = "EVENT", num_args = 0..=1, default_missing_value = "")]
    next: Option<String>,
    /// One page for the tool box, with blanks to tick and to write on
    #[arg(long, conflicts_with = "next")]
    card: bool,
    /// With --all: what is due within so many days; 60 if not given
    #[arg(long, value_name = "DAYS", requires = "all")]
    within: Option<u32>,
    /// With --all: only what to order and to send out, over all engines
    #[arg(long, requires = "all", conflicts_with = "next")]
    orders: bool,
    /// Every figure of every life, with why it is counted so and what brings it sooner
    #[arg(long, conflicts_with_all = ["next", "card"])]
    figures: bool,
    /// Columns to wrap a page to, 40 on a phone; 80 if not given
    #[arg(long, value_name = "COLUMNS", conflicts_with = "card")]
    width: Option<usize>,
    /// With --format ics: remind so many days before, at eight in the morning, like 7 or 14,1; 0 is the day itself. Work,
    /// orders, stamps and what the log asks for remind, events do not. Without it nothing does: a calendar has a
    /// reminder of its own for each entry if you want one, and a file that the crew shares would ring on every phone
    #[arg(long, value_name = "DAYS", value_delimiter = ',', value_parser = clap::value_parser!(u16).range(0..=365))]
    remind: Vec<u16>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum PlanFormat {
    /// For people
    Text,
    /// For programs, as schemas/report.schema.json has it
    Json,
    /// One row a service, with a header
    Csv,
    /// A calendar of events, stops and days to order by (iCalendar). For an engine in the book, what the file says is kept
    /// there: the next one moves its entries and cancels what went away. For a sheet nothing is kept: the next file moves
    /// what it still has, and what went away is yours to delete
    Ics,
}

pub(super) fn plan(args: &PlanArgs, io: &mut Io<'_>) -> Exit {
    if args.format != PlanFormat::Text && (args.card || args.next.is_some()) {
        let which = if args.card { "--card" } else { "--next" };
        io.complain(&format!("{which} is a page for people: leave --format out"));
        return Exit::INVALID;
    }
    if args.format != PlanFormat::Ics && !args.remind.is_empty() {
        io.complain("--remind is for a calendar: it goes with --format ics");
        return Exit::INVALID;
    }
    if !args.what_if.assignments.is_empty() {
        let wrong = match args.format {
            PlanFormat::Ics => Some("a calendar that somebody keeps would have days of an engine that nobody has"),
            PlanFormat::Csv => Some("rows do not say that they are of an engine that nobody has"),
            _ if args.from.all => Some("it changes one engine's sheet: name the engine, and leave --all out"),
            _ if args.card => Some("a card in the tool box would be of an engine that nobody has"),
            _ => None,
        };
        if let Some(words) = wrong {
            io.complain(&args.wrapped(&format!("--set is for a look: {words}")));
            return Exit::INVALID;
        }
    }
    if args.from.all && args.card {
        io.complain("--card is the card of one engine: name it, and leave --all out");
        return Exit::INVALID;
    }
    let Some(sheet) = args.sheet.as_deref().filter(|_| !args.from.all) else { return all(args, io) };
    let mut wrong = None;
    let mut write = |bench: &Bench<'_>,
                     verdict: &Verdict,
                     plan: &plan::Plan,
                     names: &[NamedPack],
                     kept: Option<CalendarShelf<'_>>,
                     io: &mut Io<'_>| {
        let exit = if verdict.lost.is_empty() { Exit::FINE } else { Exit::PACK };
        match (args.format, &args.next) {
            (PlanFormat::Json, _) => pages::json(&report::json::plan(bench, verdict, plan, names), io),
            (PlanFormat::Ics, _) => {
                let mut calendar = CalendarFile::new(&args.remind);
                if let Err(words) = calendar_of(&mut calendar, bench, plan, kept) {
                    io.complain(&args.wrapped(&words));
                    return Exit::INVALID;
                }
                io.say(&calendar.text());
            }
            (PlanFormat::Csv, _) => match report::plan_csv::text(bench, plan) {
                Ok(text) => io.say(&text),
                Err(error) => wrong = Some(format!("the rows cannot be written: {error}")),
            },
            (PlanFormat::Text, _) if args.card => io.say(&report::card::text(bench, verdict, plan)),
            (PlanFormat::Text, Some(name)) => match event(bench, plan, name) {
                Ok(index) => io.say(&args.page(|| report::plan_next::text(bench, verdict, plan, index, names))),
                Err(words) => {
                    // what does not wait for an event is said without one
                    let standing = args.page(|| report::plan_next::standing_now(bench, plan).unwrap_or_default());
                    if !standing.is_empty() {
                        io.say(&standing);
                    }
                    wrong = Some(words);
                }
            },
            (PlanFormat::Text, None) => {
                let page = if args.figures { report::plan::with_figures } else { report::plan::text };
                io.say(&args.page(|| page(bench, verdict, plan, names)));
            }
        }
        exit
    };
    let exit = if args.from.asked(sheet) {
        plan_book::plan(&sheet.to_string_lossy(), &args.from, (&args.with, &args.what_if), args.units, io, write)
    } else {
        let page = PageArgs {
            sheet: sheet.to_owned(),
            with: args.with.clone(),
            what_if: args.what_if.clone(),
            units: args.units,
            format: Format::Text,
            on: args.from.on,
        };
        pages::page_with(&page, io, known_parts, |bench, verdict, names, io| {
            let plan = plan::plan(bench.sheet, verdict, io.today);
            write(bench, verdict, &plan, names, None, io)
        })
    };
    match wrong {
        Some(words) => {
            io.complain(&args.wrapped(&words));
            Exit::INVALID
        }
        None => exit,
    }
}

impl PlanArgs {
    pub(super) fn zone(&self) -> Option<&str> {
        self.from.zone.as_deref()
    }

    /// Columns of a page: never fewer than a phone's 40.
    fn columns(&self) -> usize {
        self.width.unwrap_or(80).clamp(40, 120)
    }

    fn page(&self, page: impl FnOnce() -> String) -> String {
        report::at_width(self.columns(), page)
    }

    fn wrapped(&self, words: &str) -> String {
        textwrap::fill(words, textwrap::Options::new(self.columns()).subsequent_indent("  "))
    }
}

/// Every engine of the book: side by side, before one event, or as one file of rows, of a calendar or for programs.
fn all(args: &PlanArgs, io: &mut Io<'_>) -> Exit {
    let book = plan_book::Fleet { from: &args.from, with: &args.with, units: args.units };
    let day = args.from.on.or(io.today);
    let within = i64::from(args.within.unwrap_or_else(|| u32::try_from(WITHIN).unwrap_or(60)));
    if args.orders || args.format == PlanFormat::Text && args.next.is_none() {
        let (engines, exit) = book.side_by_side(io);
        let fleet = fleet::fleet(&engines, day, within);
        return match args.format {
            // a book that cannot be read has been told already
            PlanFormat::Text if engines.is_empty() && exit != Exit::FINE => exit,
            PlanFormat::Text => {
                let list = args.orders;
                io.say(&args.page(|| report::plan_all::text(&engines, &fleet, day, list)));
                exit
            }
            PlanFormat::Json => {
                pages::json(&report::plan_all::json(&engines, &fleet, day, Vec::new()), io);
                exit
            }
            PlanFormat::Ics => {
                io.say(&report::plan_all::calendar(&fleet, day, &args.remind));
                exit
            }
            PlanFormat::Csv => match report::plan_all::rows(&fleet) {
                Ok(text) => {
                    io.say(&text);
                    exit
                }
                Err(error) => {
                    io.complain(&args.wrapped(&format!("the rows cannot be written: {error}")));
                    Exit::INVALID
                }
            },
        };
    }
    let (mut pages, mut rows, mut wrong) = (String::new(), String::new(), Vec::new());
    let (mut list, mut engines) = (Vec::new(), Vec::new());
    let mut calendar = CalendarFile::new(&args.remind);
    let exit = book.each(io, |row, bench, verdict, plan, names, kept| match (args.format, &args.next) {
        (PlanFormat::Json, _) => {
            list.push(report::json::plan(bench, verdict, plan, names));
            engines.push(plan_book::planned(&row.name, &row.usage, bench.sheet, plan));
        }
        (PlanFormat::Ics, _) => wrong.extend(calendar_of(&mut calendar, bench, plan, Some(kept)).err()),
        (PlanFormat::Csv, _) => {
            let head = rows.is_empty();
            let made = if head { report::plan_csv::text(bench, plan) } else { report::plan_csv::rows(bench, plan) };
            match made {
                Ok(text) => rows.push_str(&text),
                Err(error) => wrong.push(format!("the rows cannot be written: {error}")),
            }
        }
        (PlanFormat::Text, next) => match event(bench, plan, next.as_deref().unwrap_or("")) {
            Ok(index) => {
                let page = args.page(|| report::plan_next::text(bench, verdict, plan, index, names));
                pages.push_str(if pages.is_empty() { "" } else { "\n\n" });
                pages.push_str(&page);
            }
            Err(words) => {
                // what does not wait for an event is said without one
                let page = args.page(|| report::plan_next::standing_now(bench, plan).unwrap_or_default());
                if !page.is_empty() {
                    pages.push_str(if pages.is_empty() { "" } else { "\n\n" });
                    pages.push_str(&page);
                }
                wrong.push(words);
            }
        },
    });
    match args.format {
        PlanFormat::Json => {
            let fleet = fleet::fleet(&engines, day, within);
            pages::json(&report::plan_all::json(&engines, &fleet, day, list), io);
        }
        PlanFormat::Ics => io.say(&calendar.text()),
        PlanFormat::Csv => io.say(&rows),
        PlanFormat::Text => io.say(&pages),
    }
    for words in &wrong {
        io.complain(&args.wrapped(words));
    }
    // an engine that has no event ahead is told; that none has is an answer to nothing
    if !wrong.is_empty() && (args.format != PlanFormat::Text || pages.is_empty()) { Exit::INVALID } else { exit }
}

/// Adds a plan to a calendar file, after what the last one said where the engine is in a book, and keeps what this one says.
fn calendar_of(
    calendar: &mut CalendarFile,
    bench: &Bench<'_>,
    plan: &plan::Plan,
    kept: Option<CalendarShelf<'_>>,
) -> Result<(), String> {
    let Some(mut kept) = kept else {
        calendar.add(bench, plan);
        return Ok(());
    };
    let said = calendar.add_after(bench, plan, kept.said()?, &kept.settled());
    kept.keep(&said)
}

/// The event that `--next` names.
fn event(bench: &Bench<'_>, plan: &plan::Plan, name: &str) -> Result<usize, String> {
    let sheet = &bench.sheet.source.name;
    if name.is_empty() && !plan.events.is_empty() {
        return Ok(0);
    }
    let same = |n: &str| same_name(n) == same_name(name);
    if let Some(index) = plan.events.iter().position(|e| same(&e.name)) {
        return Ok(index);
    }
    let day = plan.as_of.map(|d| d.to_string()).unwrap_or_default();
    if let Some(over) = bench.sheet.calendar.iter().find(|e| same(&e.name)) {
        return Err(format!("--next {}: that event ended on {}, and the plan is of {day}", over.name, over.last));
    }
    let ahead: Vec<&str> = plan.events.iter().map(|e| e.name.as_str()).collect();
    if ahead.is_empty() {
        return Err(format!(
            "--next: {sheet} has no event ahead of {day}. Write them into its \"calendar\", each with a name and a date"
        ));
    }
    let hint = nearest(name, ahead.iter().copied()).map(|n| format!(" Did you mean \"{n}\"?")).unwrap_or_default();
    Err(format!("--next: {sheet} has no event \"{}\".{hint} Ahead are {}", clean(name, 40), ahead.join(", ")))
}
