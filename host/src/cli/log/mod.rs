//! The log: what a thumb can type at the track, what was written, and logs as files.

mod file;
mod known;
pub(super) mod say;
mod words;

use super::book::{self, Shelf, refuse};
use super::{Exit, Io, load};
use crate::facts::{Catalogue, SheetFacts};
use crate::packs::clean::clean;
use crate::plan::ledger;
use clap::{Args, Subcommand};
use known::{Bench, Known, Sure};
use say::Wrap;
use thou_book::{Book, Refusal};
use thou_contract::System;
use thou_life::entry::{Entry, What};
use thou_life::events::{Happening, events};

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
    #[command(after_help = ADD)]
    Add(Box<Add>),
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
    Import(file::Import),
    /// Write a log as JSON Lines or CSV
    Export(file::Export),
}

const ADD: &str = "\
Examples:
  thou log add 0417 3 passes
  thou log add 0417 pass --peak \"7450 rpm\" --elapsed \"9.21 s\" --adder
  thou log add 0417 leak-down 5=\"9 %\" 6=\"4 %\" --gauge \"tester 2\"
  thou log add 0417 over-rev \"7750 rpm\"
  thou log add 0417 did oil oil-filter
  thou log add 0417 fitted \"valve springs\" --serial \"set 14\"
  thou log add 0417 removed --serial \"set 11\" --disposition scrap
  thou log add 0417 passes-on-meter 118
  thou log add 0417 note \"new plugs, one step colder\"";

#[derive(Debug, Args)]
struct Add {
    /// The engine's name in the book
    engine: String,
    /// What to write down
    #[arg(required = true)]
    what: Vec<String>,
    /// The day, like 2026-05-02; today if not given
    #[arg(long)]
    day: Option<String>,
    /// The event it belongs to; that of the day's last entry if not given
    #[arg(long)]
    event: Option<String>,
    /// It belongs to no event
    #[arg(long, conflicts_with = "event")]
    no_event: bool,
    /// Who writes it
    #[arg(long)]
    by: Option<String>,
    /// In words
    #[arg(long)]
    note: Option<String>,
    #[command(flatten)]
    with: words::With,
    #[command(flatten)]
    sure: SureArgs,
}

/// What is right although it looks wrong, and packs with more services.
#[derive(Debug, Args)]
pub(super) struct SureArgs {
    /// The day is right, although it is in the future or before the build
    #[arg(long)]
    day_is_right: bool,
    /// The part is right, although no service names it
    #[arg(long)]
    new_part: bool,
    /// It is another one, although it looks like one that is there
    #[arg(long)]
    again: bool,
    #[command(flatten)]
    packs: super::With,
}

impl SureArgs {
    fn sure(&self) -> Sure {
        Sure { day: self.day_is_right, part: self.new_part }
    }
}

pub(super) fn run(args: &LogArgs, io: &mut Io<'_>) -> Exit {
    let shelf = &args.shelf;
    let done = match &args.command {
        LogCommand::Add(add) => self::add(shelf, add, io),
        LogCommand::List { engine, since, what, undone } => {
            list(shelf, engine, since.as_deref(), what.as_deref(), *undone, io)
        }
        LogCommand::Undo { engine, id, by } => undo(shelf, engine, id.as_deref(), by.as_deref(), io),
        LogCommand::Import(import) => file::import(shelf, import, io),
        LogCommand::Export(export) => file::export(shelf, export, io),
    };
    done.map_or_else(|exit| exit, |()| Exit::FINE)
}

/// Says why nothing was written.
fn complain(words: &str, wrap: Wrap, io: &mut Io<'_>) -> Exit {
    io.complain(&wrap.fill(&clean(words), "", "  "));
    Exit::INVALID
}

/// Text as it is kept: what nobody sees is left out, and nothing is nothing.
fn tidy(text: Option<&str>) -> Option<String> {
    text.map(|t| clean(t.trim())).filter(|t| !t.is_empty())
}

fn add(shelf: &Shelf, args: &Add, io: &mut Io<'_>) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    let mut book = shelf.open(io)?;
    let row = book.engine(&args.engine).map_err(|e| refuse(&e, wrap, io))?;
    let day = book::day(args.day.as_deref(), wrap, io)?;
    let known = known(&args.sure.packs, io)?;
    let spoken: Vec<String> = args.what.iter().map(|word| clean(word)).collect();
    let (whats, words) = words::entries(&spoken, &args.with, &known).map_err(|why| complain(&why, wrap, io))?;
    let note = words.as_deref().or(args.note.as_deref());
    let there = book.on_day(&args.engine, day).map_err(|e| refuse(&e, wrap, io))?;
    let before = there.last().and_then(|entry| entry.event.clone()).filter(|_| !args.no_event);
    let event = tidy(args.event.as_deref()).or(before);
    let made = whats.into_iter().map(|what| Entry {
        id: String::new(),
        engine: args.engine.clone(),
        day,
        event: event.clone(),
        by: tidy(args.by.as_deref()),
        note: tidy(note),
        what,
    });
    let entries: Vec<Entry> = made.collect();
    let sheet = book::sheet(&book, &args.engine, wrap, io)?;
    let bench =
        Bench { known: &known, sheet: sheet.as_ref(), built: row.built, today: io.today, sure: args.sure.sure() };
    for entry in &entries {
        if let Some((_, why)) = bench.wrong(entry) {
            let stop = if why.ends_with(['.', '?']) { "" } else { "." };
            return Err(complain(&format!("{why}{stop} Nothing was written."), wrap, io));
        }
        if let (Some(twin), false) = (twin(entry, &there), args.sure.again) {
            let why = format!(
                "{} is there already, as {} on {day}, with the same elapsed time: if it is another one, say --again. \
                 Nothing was written.",
                say::what(entry),
                twin.id
            );
            return Err(complain(&why, wrap, io));
        }
    }
    let alike = entries.iter().filter(|e| matches!(e.what, What::Ran { .. })).find_map(|e| same(e, &there)).cloned();
    let added = book.append(&entries).map_err(|e| refuse(&e, wrap, io))?;
    let written: Vec<Entry> =
        entries.into_iter().zip(&added).map(|(entry, added)| Entry { id: added.id.clone(), ..entry }).collect();
    for entry in &written {
        let words = format!("{} {}: {} [{}]", clean(&entry.engine), say::when(entry), say::what(entry), entry.id);
        io.say(&wrap.fill(&words, "", "  "));
    }
    let history = book.history(&args.engine).map_err(|e| refuse(&e, wrap, io))?;
    if written.iter().any(|e| matches!(e.what, What::Ran { .. } | What::Freshened)) {
        io.say(&wrap.fill(&format!("now {}", say::meters(&history.meters)), "  ", "  "));
    }
    if let Some(before) = added.iter().find_map(|a| a.before) {
        let words = format!("Older than the last entry, {before}: counted where its day puts it.");
        io.say(&wrap.fill(&words, "  ", "  "));
    }
    if let Some(alike) = alike {
        let words = format!(
            "The same words stand there as {}: `thou log undo {}` if this was one too many.",
            alike.id, alike.engine
        );
        io.say(&wrap.fill(&words, "  ", "  "));
    }
    still_in(&book, &written, wrap, io);
    let ran = written.iter().any(|e| matches!(e.what, What::Ran { .. }));
    let asks = |event: &Happening| event.open() && (ran || written.iter().any(|e| e.id == event.entry));
    let speeds = sheet.as_ref().map(|sheet| {
        let facts = SheetFacts::new(Catalogue::standard(), sheet);
        ledger::speeds(sheet, &facts, &history.entries)
    });
    for event in events(&history.entries, speeds.unwrap_or_default()).into_iter().filter(asks) {
        let over = ledger::how_far(&event, System::Inch);
        let words = format!(
            "BEFORE THE NEXT PASS ({}{over}, {}): {} Then: thou log add {} settled {} \"what was found\"",
            event.happening, event.day, event.to_do, args.engine, event.entry
        );
        io.say(&wrap.fill(&clean(&words), "  ", "  "));
    }
    Ok(())
}

/// Tells of a set of the same part that is still down as fitted at the same place.
fn still_in(book: &Book, written: &[Entry], wrap: Wrap, io: &mut Io<'_>) {
    for entry in written {
        let What::Fitted { part, serial, place, .. } = &entry.what else { continue };
        for other in book.lives(part).unwrap_or_default() {
            let here = other.still_in() == Some(entry.engine.as_str()) && other.serial != *serial;
            if here && other.stretches.last().is_some_and(|s| s.place == *place) {
                let words = format!(
                    "{} is still down as fitted there: thou log add {} removed --serial \"{}\" --disposition ...",
                    other.serial, entry.engine, other.serial
                );
                io.say(&wrap.fill(&clean(&words), "  ", "  "));
            }
        }
    }
}

/// The services that the packs know.
fn known(packs: &super::With, io: &mut Io<'_>) -> Result<Known, Exit> {
    let (packs, faults) = load::packs(packs, None);
    for fault in &faults {
        io.complain(&fault.to_string());
    }
    if faults.is_empty() { Ok(Known::of(&packs)) } else { Err(Exit::PACK) }
}

/// An entry of the same event that says the same.
fn same<'a>(entry: &Entry, there: &'a [Entry]) -> Option<&'a Entry> {
    there
        .iter()
        .find(|t| t.engine == entry.engine && t.day == entry.day && t.event == entry.event && t.what == entry.what)
}

/// The same pass once more: its elapsed time is the same to the last figure. Passes without one can be alike.
fn twin<'a>(entry: &Entry, there: &'a [Entry]) -> Option<&'a Entry> {
    matches!(entry.what, What::Ran { elapsed: Some(_), .. }).then(|| same(entry, there)).flatten()
}

fn list(
    shelf: &Shelf,
    engine: &str,
    since: Option<&str>,
    what: Option<&str>,
    undone: bool,
    io: &mut Io<'_>,
) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    let since =
        since.map(|text| words::parse_day("--since", text)).transpose().map_err(|why| complain(&why, wrap, io))?;
    let book = shelf.open(io)?;
    let mut all = book.written(Some(engine)).map_err(|e| refuse(&e, wrap, io))?;
    all.sort_by_key(|(entry, _)| entry.day);
    let named = |entry: &Entry| match (&entry.what, what) {
        (_, None) => true,
        (What::Read { reading: name, .. } | What::Happened { happening: name, .. }, Some(what)) if name == what => true,
        (_, Some(what)) => entry.what.name() == what,
    };
    if let Some(word) = what.filter(|w| !all.iter().any(|(e, _)| named(e)) && !names().contains(w)) {
        let hint = known::near(word, names().into_iter()).map_or_else(String::new, |n| format!(" Did you mean {n}?"));
        return Err(complain(&format!("--what {word}: no entry can say that.{hint}"), wrap, io));
    }
    let mut shown = 0;
    for (entry, counts) in all.iter().filter(|(e, _)| since.is_none_or(|day| e.day >= day) && named(e)) {
        if !counts && !undone {
            continue;
        }
        shown += 1;
        let mark = match (&entry.what, counts) {
            (What::Undone { .. }, _) | (_, true) => "",
            (_, false) => "undone: ",
        };
        let by = entry.by.as_ref().map(|by| format!(", {}", clean(by))).unwrap_or_default();
        let words = format!("{}  {mark}{}{by} [{}]", say::when(entry), say::what(entry), entry.id);
        io.say(&wrap.fill(&words, "", "    "));
    }
    let hidden = all.iter().filter(|(e, counts)| !counts && !matches!(e.what, What::Undone { .. })).count();
    if shown == 0 {
        io.say(&wrap.fill("Nothing to show.", "", ""));
    }
    if hidden > 0 && !undone {
        io.say(&wrap.fill(&format!("{hidden} undone, left out here; --undone shows them."), "", "  "));
    }
    Ok(())
}

/// What `--what` takes.
fn names() -> Vec<&'static str> {
    let readings = thou_life::entry::READINGS.iter().map(|r| r.name);
    What::NAMES.into_iter().chain(readings).chain(thou_life::events::known()).collect()
}

fn undo(shelf: &Shelf, engine: &str, id: Option<&str>, by: Option<&str>, io: &mut Io<'_>) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    let mut book = shelf.open(io)?;
    let all = book.written(Some(engine)).map_err(|e| refuse(&e, wrap, io))?;
    let counting: Vec<&Entry> = all.iter().filter(|(_, counts)| *counts).map(|(entry, _)| entry).collect();
    let wrong = match id {
        None => counting.last().map(|e| (*e).clone()),
        Some(id) => {
            let found: Vec<&&Entry> = counting.iter().filter(|e| e.id == id || e.id.starts_with(id)).collect();
            let exact = counting.iter().find(|e| e.id == id);
            match (exact, found.as_slice()) {
                (Some(one), _) => Some((*one).clone()),
                (None, [one]) => Some((**one).clone()),
                (None, []) if all.iter().any(|(e, counts)| !counts && e.id == id) => {
                    return Err(complain(&Refusal::UndoneBefore { id: id.to_owned() }.to_string(), wrap, io));
                }
                (None, []) => None,
                (None, several) => {
                    let ids: Vec<&str> = several.iter().map(|e| e.id.as_str()).collect();
                    return Err(complain(
                        &format!("\"{id}\" is the beginning of {}: write more of it", ids.join(", ")),
                        wrap,
                        io,
                    ));
                }
            }
        }
    };
    let Some(wrong) = wrong else {
        let why = match id {
            Some(id) => {
                format!("{engine} has no entry {id} that counts: `thou log list {engine}` shows them with their ids")
            }
            None => format!("{engine} has no entry that counts: there is nothing to undo"),
        };
        return Err(complain(&why, wrap, io));
    };
    let day = io.today.map_or(wrong.day, |today| today.max(wrong.day));
    let undoing = Entry {
        id: String::new(),
        engine: engine.to_owned(),
        day,
        event: None,
        by: tidy(by),
        note: None,
        what: What::Undone { entry: wrong.id.clone() },
    };
    book.append(&[undoing]).map_err(|e| refuse(&e, wrap, io))?;
    let words = format!("{} {}: {} [{}] counts no more", clean(engine), say::when(&wrong), say::what(&wrong), wrong.id);
    io.say(&wrap.fill(&words, "", "  "));
    let row = book.engine(engine).map_err(|e| refuse(&e, wrap, io))?;
    let now = if row.meters.is_empty() { "nothing run".to_owned() } else { say::meters(&row.meters) };
    io.say(&wrap.fill(&format!("now {now}"), "  ", "  "));
    Ok(())
}
