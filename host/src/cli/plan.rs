//! `thou plan`: the plan as a page, as a card, before one event, for programs, as rows, as a calendar.

use super::io::{Exit, Io};
use super::known_names::known_parts;
use super::options::{Format, PackFiles, Units};
use super::pages::{self, PageArgs};
use super::plan_book::{self, FromBook};
use crate::plan;
use crate::report::{self, Bench, NamedPack};
use crate::sheet::clean;
use crate::verdict::Verdict;
use clap::{Args, ValueEnum};
use std::path::PathBuf;
use thou_text::nearest;

#[derive(Debug, Args)]
pub(super) struct PlanArgs {
    /// The build sheet, or the name of an engine in the shop's book
    #[arg(value_name = "SHEET|ENGINE", required_unless_present = "all")]
    sheet: Option<PathBuf>,
    #[command(flatten)]
    from: FromBook,
    #[command(flatten)]
    with: PackFiles,
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
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum PlanFormat {
    /// For people
    Text,
    /// For programs, as schemas/report.schema.json has it
    Json,
    /// One row a service, with a header
    Csv,
    /// A calendar of events, stops and days to order by (iCalendar)
    Ics,
}

pub(super) fn plan(args: &PlanArgs, io: &mut Io<'_>) -> Exit {
    if args.format != PlanFormat::Text && (args.card || args.next.is_some()) {
        let which = if args.card { "--card" } else { "--next" };
        io.complain(&format!("{which} is a page for people: leave --format out"));
        return Exit::INVALID;
    }
    let Some(sheet) = args.sheet.as_deref().filter(|_| !args.from.all) else {
        return plan_book::all(&args.from, &args.with, args.units, io);
    };
    let mut wrong = None;
    let mut write = |bench: &Bench<'_>, verdict: &Verdict, plan: &plan::Plan, names: &[NamedPack], io: &mut Io<'_>| {
        let exit = if verdict.lost.is_empty() { Exit::FINE } else { Exit::PACK };
        match (args.format, &args.next) {
            (PlanFormat::Json, _) => pages::json(&report::json::plan(bench, verdict, plan, names), io),
            (PlanFormat::Ics, _) => io.say(&report::ics::text(bench, plan)),
            (PlanFormat::Csv, _) => match report::plan_csv::text(bench, plan) {
                Ok(text) => io.say(&text),
                Err(error) => wrong = Some(format!("the rows cannot be written: {error}")),
            },
            (PlanFormat::Text, _) if args.card => io.say(&report::card::text(bench, verdict, plan)),
            (PlanFormat::Text, Some(name)) => match event(bench, plan, name) {
                Ok(index) => io.say(&report::plan_next::text(bench, verdict, plan, index, names)),
                Err(words) => wrong = Some(words),
            },
            (PlanFormat::Text, None) => io.say(&report::plan::text(bench, verdict, plan, names)),
        }
        exit
    };
    let exit = if args.from.asked(sheet) {
        plan_book::plan(&sheet.to_string_lossy(), &args.from, &args.with, args.units, io, write)
    } else {
        let page =
            PageArgs { sheet: sheet.to_owned(), with: args.with.clone(), units: args.units, format: Format::Text };
        pages::page_with(&page, io, known_parts, |bench, verdict, names, io| {
            let plan = plan::plan(bench.sheet, verdict, io.today);
            write(bench, verdict, &plan, names, io)
        })
    };
    match wrong {
        Some(words) => {
            io.complain(&textwrap::fill(&words, textwrap::Options::new(80).subsequent_indent("  ")));
            Exit::INVALID
        }
        None => exit,
    }
}

/// The event that `--next` names.
fn event(bench: &Bench<'_>, plan: &plan::Plan, name: &str) -> Result<usize, String> {
    let sheet = &bench.sheet.source.name;
    if name.is_empty() && !plan.events.is_empty() {
        return Ok(0);
    }
    let same = |n: &str| n.to_lowercase() == name.to_lowercase();
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
