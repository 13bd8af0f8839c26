//! `thou log add`: writing down what was typed.

use super::by_id::by_id;
use super::compare;
use super::entry_check::EntryCheck;
use super::event;
use super::known::load_known;
use super::say::{self, Wrap};
use super::speak::Speak;
use super::sure::SureArgs;
use super::twin::{same, twin};
use super::units;
use super::words::{self, AddOptions};
use crate::cli::clock::near_midnight;
use crate::cli::io::{Exit, Io};
use crate::cli::shelf::{self, Shelf, complain, refuse, tidy};
use crate::packs::clean::clean;
use crate::sheet::{Axis, Sheet};
use clap::Args;
use thou_book::Book;
use thou_life::entry::{Entry, What};

#[derive(Debug, Args)]
pub(super) struct AddArgs {
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
    options: AddOptions,
    #[command(flatten)]
    sure: SureArgs,
}

/// What can be typed.
pub(super) const EXAMPLES: &str = "\
Examples:
  thou log add 0417 3 passes
  thou log add 0417 pass --peak \"7450 rpm\" --elapsed \"9.21 s\" --adder
  thou log add 0417 leak-down 5=\"9 %\" 6=\"4 %\" --gauge \"tester 2\"
  thou log add 0417 pass --peak \"7450 rpm\" --lambda 0.87 --water \"195 °F\" --oil \"72 psi\"
  thou log add 0417 pass --elapsed \"9.21 s\" --air-pressure \"29.60 inHg\" --air-temperature \"84 °F\" --humidity \"62 %\"
  thou log add 0417 over-rev \"7750 rpm\"
  thou log add 0417 broke \"valve springs\" --place 5E
  thou log add 0417 did oil oil-filter
  thou log add 0417 fitted \"valve springs\" --serial \"set 14\"
  thou log add 0417 removed --serial \"set 11\" --disposition scrap
  thou log add 0417 passes-on-meter 118
  thou log add 0417 note \"new plugs, one step colder\"";

pub(super) fn add(shelf: &Shelf, args: &AddArgs, io: &mut Io<'_>) -> Result<(), Exit> {
    let wrap = shelf.wrap();
    let mut book = shelf.open(io)?;
    let engine = &shelf::engine(&book, &args.engine).map_err(|e| refuse(&e, wrap, io))?;
    let row = book.engine(engine).map_err(|e| refuse(&e, wrap, io))?;
    let day = shelf::day(args.day.as_deref(), wrap, io)?;
    let known = load_known(&args.sure.packs, io)?;
    let spoken: Vec<String> = args.what.iter().map(|word| clean(word)).collect();
    let (mut whats, words) = words::entries(&spoken, &args.options, &known).map_err(|why| complain(&why, wrap, io))?;
    let taken = units::guess(&mut whats);
    if whats.iter().any(|what| matches!(what, What::Settled { .. })) {
        let all = book.written(Some(engine)).map_err(|e| refuse(&e, wrap, io))?;
        for what in &mut whats {
            let What::Settled { entry, .. } = what else { continue };
            if let Some(found) = by_id(&all, entry).map_err(|why| complain(&why, wrap, io))? {
                entry.clone_from(&found.id);
            }
        }
    }
    if let Some(why) = whats.iter().find_map(|what| scrapped(&book, what)) {
        return Err(complain(&format!("{why} Nothing was written."), wrap, io));
    }
    let sheet = shelf::sheet(&book, engine, wrap, io)?;
    if let Some(sheet) = &sheet {
        whats.iter_mut().for_each(|what| as_labelled(sheet, what));
    }
    let note = words.as_deref().or(args.note.as_deref());
    let there = book.on_day(engine, day).map_err(|e| refuse(&e, wrap, io))?;
    let here = there.iter().rfind(|entry| !entry.what.of_the_office());
    let before = here.and_then(|entry| entry.event.clone()).filter(|_| !args.no_event);
    let calendar = sheet.as_ref().map_or(&[][..], |sheet| sheet.calendar.as_slice());
    let event = match tidy(args.event.as_deref()) {
        Some(named) => Some(event::in_calendar(calendar, &named).map_or(named, |e| e.name.clone())),
        None if args.no_event => None,
        None => before.or_else(|| event::on_day(calendar, day).map(|e| e.name.clone())),
    };
    let zone = io.zone().filter(|_| args.day.is_none());
    let made = whats.into_iter().map(|what| Entry {
        id: String::new(),
        engine: engine.clone(),
        day,
        zone: zone.clone(),
        event: event.clone(),
        by: tidy(args.by.as_deref()),
        note: tidy(note),
        what,
    });
    let entries: Vec<Entry> = made.collect();
    let check =
        EntryCheck { known: &known, sheet: sheet.as_ref(), built: row.built, today: io.today, sure: args.sure.sure() };
    for entry in &entries {
        if let Some((_, why)) = check.wrong(entry) {
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
    if let Some(why) = args.sure.too_many(&entries, &there) {
        return Err(complain(&format!("{why}. Nothing was written."), wrap, io));
    }
    let speak = Speak::before(&book, engine, sheet.as_ref(), &entries, &known);
    let alike = entries.iter().filter(|e| matches!(e.what, What::Ran { .. })).find_map(|e| same(e, &there)).cloned();
    let added = book.append(&entries).map_err(|e| refuse(&e, wrap, io))?;
    let written: Vec<Entry> =
        entries.into_iter().zip(&added).map(|(entry, added)| Entry { id: added.id.clone(), ..entry }).collect();
    for entry in &written {
        let words = format!("{} {}: {} [{}]", clean(&entry.engine), say::when(entry), say::what(entry), entry.id);
        io.say(&wrap.fill(&words, "", "  "));
    }
    for words in &taken {
        io.say(&wrap.fill(&clean(words), "  ", "  "));
    }
    let history = book.history(engine).map_err(|e| refuse(&e, wrap, io))?;
    if written.iter().any(|e| matches!(e.what, What::Ran { .. } | What::Freshened)) {
        io.say(&wrap.fill(&format!("now {}", say::meters(&history.meters)), "  ", "  "));
    }
    for words in written.iter().filter_map(|entry| compare::at_once(entry, sheet.as_ref())) {
        io.say(&wrap.fill(&words, "  ", "  "));
    }
    if let Some(before) = added.iter().find_map(|a| a.before) {
        let words = format!("Older than the last entry, {before}: counted where its day puts it.");
        io.say(&wrap.fill(&words, "  ", "  "));
    }
    let midnight = io.clock.as_ref().filter(|_| args.day.is_none()).and_then(|now| near_midnight(now, engine));
    let elsewhen =
        event.as_ref().filter(|_| args.event.is_some()).and_then(|name| event::elsewhen(calendar, name, day));
    for words in midnight.into_iter().chain(elsewhen) {
        io.say(&wrap.fill(&clean(&words), "  ", "  "));
    }
    if let Some(alike) = alike {
        let words = format!(
            "The same words stand there as {}: `thou log undo {}` if this was one too many.",
            alike.id, alike.engine
        );
        io.say(&wrap.fill(&words, "  ", "  "));
    }
    still_in(&book, &written, wrap, io);
    speak.after(&history, &written, &known, wrap, io);
    io.say(&wrap.fill(crate::report::DEFERS_SHORT, "  ", "  "));
    Ok(())
}

/// A place in the letters that the engine has it in: a phone writes `5e`, and that is 5E.
fn as_labelled(sheet: &Sheet, what: &mut What) {
    let (What::Read { place, .. } | What::Happened { place, .. } | What::Fitted { place, .. }) = what else { return };
    let Some(place) = place else { return };
    let axes = ["cylinder", "valve", "rod", "main"].into_iter().filter_map(Axis::by_id);
    let labels: Vec<&String> = axes.flat_map(|axis| sheet.places.labels(axis)).collect();
    if labels.iter().any(|label| *label == place) {
        return;
    }
    if let Some(label) = labels.into_iter().find(|label| label.eq_ignore_ascii_case(place)) {
        place.clone_from(label);
    }
}

/// That a part goes in again which was thrown away.
fn scrapped(book: &Book, what: &What) -> Option<String> {
    let What::Fitted { serial, .. } = what else { return None };
    let part = book.part(serial).ok()??;
    let last = part.stretches.last().filter(|s| s.disposition.as_deref() == Some("scrap"))?;
    let day = last.removed?;
    Some(format!(
        "{serial} was scrapped on {day}, out of {}: what was scrapped does not run. If it was not, undo that entry first \
         (`thou log list {} --what removed` shows it).",
        last.engine, last.engine
    ))
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
