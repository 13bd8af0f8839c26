//! `thou plan ENGINE`: the plan of an engine whose sheet and log are in the book, and `--all` for every engine in short.

use super::io::{Exit, Io};
use super::known_names::{known_parts, known_use};
use super::load;
use super::options::{PackFiles, Units, WhatIf};
use super::shelf;
use crate::facts::{Catalogue, SheetFacts};
use crate::packs::LoadedPack;
use crate::packs::clean::clean;
use crate::plan::fleet::PlannedEngine;
use crate::plan::ledger::{self, Ledger};
use crate::plan::{self, Plan};
use crate::report::ics_said::Said;
use crate::report::{Bench, NamedPack, Paint};
use crate::sheet::Sheet;
use crate::verdict::{self, Verdict};
use clap::Args;
use jiff::civil::Date;
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use thou_book::{Book, CalendarSaid, EngineRow};
use thou_contract::Manifest;
use thou_life::history::{History, PartRun};

/// Where a plan's engine comes from.
#[derive(Debug, Clone, Args)]
pub(super) struct FromBook {
    /// The shop's book; else what THOU_BOOK names, else thou.book here
    #[arg(long, value_name = "FILE")]
    book: Option<PathBuf>,
    /// The plan as of this day; else today
    #[arg(long, value_name = "DAY")]
    pub(super) on: Option<Date>,
    /// Every engine of the book, in short
    #[arg(long)]
    pub(super) all: bool,
    /// The zone whose day today is, like America/New_York or -05:00; else THOU_ZONE's, else the computer's own
    #[arg(long, value_name = "ZONE", allow_hyphen_values = true)]
    pub(super) zone: Option<String>,
}

impl FromBook {
    /// Whether this names an engine of the book and not a sheet: a file is a sheet.
    pub(super) fn asked(&self, sheet: &Path) -> bool {
        !(sheet.exists() || sheet.extension().is_some_and(|e| e == "json"))
    }

    /// The book, and the folder that it is in.
    fn open(&self, engine: Option<&str>) -> Result<(Book, PathBuf), String> {
        let named = self.book.clone().or_else(|| std::env::var_os("THOU_BOOK").map(PathBuf::from));
        let path = named.clone().unwrap_or_else(|| PathBuf::from("thou.book"));
        if named.is_none() && !path.exists() {
            let what = engine.map_or_else(|| "--all".to_owned(), |e| format!("\"{}\"", clean(e)));
            return Err(format!(
                "{what} is no file here, and there is no book: name a sheet, or the shop's book with --book FILE or in \
                 THOU_BOOK"
            ));
        }
        let folder = path.parent().map(Path::to_path_buf).unwrap_or_default();
        Book::open(&path).map(|book| (book, folder)).map_err(|error| error.to_string())
    }
}

fn wrong(words: &str, io: &mut Io<'_>) -> Exit {
    io.complain(&textwrap::fill(words, textwrap::Options::new(80).subsequent_indent("  ")));
    Exit::INVALID
}

/// Where what an engine's calendar files said is kept.
pub(super) struct CalendarShelf<'a> {
    book: &'a mut Book,
    history: &'a History,
}

impl CalendarShelf<'_> {
    /// What the last file said.
    pub(super) fn said(&self) -> Result<Said, String> {
        let engine = &self.history.engine;
        match self.book.calendar_said(engine).map_err(|e| e.to_string())? {
            CalendarSaid::Nothing => Ok(Said::default()),
            CalendarSaid::Kept(text) => {
                Said::read(&text).ok_or_else(|| format!("{engine}: what its last calendar file said cannot be read"))
            }
            CalendarSaid::Altered => Err(format!(
                "{engine}: what its last calendar file said was altered in the book, so this one could not cancel what \
                 went away. Save what can be trusted with thou book check --recover NEW-FILE, delete the engine's entries \
                 from the calendar, and take the next file in"
            )),
        }
    }

    /// Entries of the log that somebody wrote down as settled.
    pub(super) fn settled(&self) -> BTreeSet<&str> {
        thou_life::entry::settled(&self.history.entries)
    }

    pub(super) fn keep(&mut self, said: &Said) -> Result<(), String> {
        self.book.keep_calendar(&self.history.engine, &said.text()).map_err(|e| {
            format!("no file: what it says is kept in the book for the next one, and that cannot be written. {e}")
        })
    }
}

/// Lives of the shop's parts as they are known on the day of the plan, read once for each part.
#[derive(Default)]
struct Lives {
    parts: BTreeMap<String, Vec<PartRun>>,
    uses: BTreeMap<String, String>,
}

impl Lives {
    fn of(book: &Book) -> Result<Self, String> {
        let rows = book.engines().map_err(|e| e.to_string())?;
        Ok(Self { parts: BTreeMap::new(), uses: rows.into_iter().map(|r| (r.name, r.usage)).collect() })
    }

    fn own(
        &mut self,
        book: &Book,
        engine: &str,
        verdict: &Verdict,
        as_of: Option<Date>,
    ) -> Result<ledger::OwnLives, String> {
        let usage = self.uses.get(engine).cloned().unwrap_or_default();
        let mut own = ledger::OwnLives::new();
        for service in verdict.services.iter().filter(|s| s.service.renews()) {
            let part = &service.service.part;
            if !self.parts.contains_key(part) {
                let lives = book.lives_on(part, as_of).map_err(|e| e.to_string())?;
                self.parts.insert(part.clone(), lives);
            }
            let runs = self.parts.get(part).map_or(&[][..], Vec::as_slice);
            own.extend(ledger::own_lives(runs, &usage, &self.uses));
        }
        Ok(own)
    }
}

fn manifests(packs: &[LoadedPack]) -> Vec<&Manifest> {
    packs.iter().map(|p| &p.manifest).collect()
}

/// The sheet of an engine as the book had it on a day. Readings in files beside the sheet are not in the book: where the files are
/// not beside the book either, those readings are left out, for a plan asks for none of them.
pub(super) fn sheet(book: &Book, engine: &str, folder: &Path, on: Option<Date>) -> Result<Sheet, String> {
    let row = book.sheet_on(engine, on).map_err(|error| error.to_string())?;
    let name = format!("{engine} (revision {})", row.revision);
    let failed = match Sheet::parse(&name, &row.text, folder) {
        Ok(sheet) => return Ok(sheet),
        Err(faults) => faults,
    };
    let mut value: Value = serde_json::from_str(&row.text).unwrap_or(Value::Null);
    without_files(&mut value, folder);
    Sheet::parse(&name, &value.to_string(), folder).map_err(|_| failed.render(false))
}

/// An engine's history and its sheet as they were on a day, with where the numbers on the sheet's shelf are by now: in this
/// engine or in any other.
fn with_shelf(
    book: &Book,
    engine: &str,
    folder: &Path,
    on: Option<Date>,
    day: Option<Date>,
) -> Result<(History, Sheet), String> {
    let mut history = book.history_on(engine, day).map_err(|error| error.to_string())?;
    let sheet = sheet(book, engine, folder, on)?;
    for serial in sheet.spares.iter().filter_map(|spare| spare.serial.as_deref()) {
        let part = book.part(serial).map_err(|error| error.to_string())?;
        history.from_the_shelf.extend(part.map(|part| (serial.to_owned(), part)));
    }
    Ok((history, sheet))
}

/// Takes out what stands in a file that is not in this folder.
fn without_files(value: &mut Value, folder: &Path) {
    let gone = |v: &Value| {
        let file = v.get("csv").or_else(|| v.get("profile")).and_then(Value::as_str);
        file.is_some_and(|f| !folder.join(f).is_file())
    };
    match value {
        Value::Object(map) => {
            map.retain(|_, v| !gone(v));
            map.values_mut().for_each(|v| without_files(v, folder));
        }
        Value::Array(list) => {
            list.retain(|v| !gone(v));
            list.iter_mut().for_each(|v| without_files(v, folder));
        }
        _ => {}
    }
}

/// Makes the plan of an engine in the book and hands it over to the writer.
pub(super) fn plan(
    engine: &str,
    from: &FromBook,
    (with, what_if): (&PackFiles, &WhatIf),
    units: Units,
    io: &mut Io<'_>,
    write: impl FnOnce(&Bench<'_>, &Verdict, &Plan, &[NamedPack], Option<CalendarShelf<'_>>, &mut Io<'_>) -> Exit,
) -> Exit {
    let (mut book, folder) = match from.open(Some(engine)) {
        Ok(opened) => opened,
        Err(words) => return wrong(&words, io),
    };
    let engine = match shelf::engine(&book, engine) {
        Ok(engine) => engine,
        Err(error) => return wrong(&error.to_string(), io),
    };
    let engine = engine.as_str();
    let day = from.on.or(io.today);
    let made = || -> Result<_, String> {
        let (history, sheet) = with_shelf(&book, engine, &folder, from.on, day)?;
        Ok((history, sheet, Lives::of(&book)?))
    };
    let (history, mut sheet, mut lives) = match made() {
        Ok(made) => made,
        Err(words) => return wrong(&words, io),
    };
    sheet = match load::what_if(sheet, what_if, io) {
        Ok(sheet) => sheet,
        Err(exit) => return exit,
    };
    let (packs, faults) = load::packs(with, Some(&folder.join("book")), io);
    sheet.looked_at = day;
    let known = known_use(&sheet, &packs, io)
        .and_then(|()| load::pack_fields(&mut sheet, &packs, io))
        .and_then(|()| known_parts(&sheet, &packs, io));
    if let Err(exit) = known {
        return exit;
    }
    let kept = ledger::set(&mut sheet, &history, day);
    let facts = SheetFacts::new(Catalogue::of_sheet(&sheet), &sheet);
    let mut verdict = verdict::judge(&sheet, &facts, &packs, sheet.as_of);
    verdict.lost.splice(0..0, faults.into_iter().map(Into::into));
    let own = match lives.own(&book, engine, &verdict, sheet.as_of) {
        Ok(own) => own,
        Err(words) => return wrong(&words, io),
    };
    let (system, manifests) = (units.system(), manifests(&packs));
    let ledger = Ledger { history: &history, own: &own, packs: &manifests, system };
    let plan = Plan { kept, ..plan::plan_by_log(&sheet, &facts, &verdict, &ledger) };
    let paint = if io.out_colour { Paint::Colour } else { Paint::Plain };
    let bench = Bench { sheet: &sheet, facts: &facts, system, paint, like: None };
    let shelf = CalendarShelf { book: &mut book, history: &history };
    write(&bench, &verdict, &plan, &load::named(&packs), Some(shelf), io)
}

/// Every engine of the book.
pub(super) struct Fleet<'a> {
    pub(super) from: &'a FromBook,
    pub(super) with: &'a PackFiles,
    pub(super) units: Units,
}

/// One engine as the shop's pages have it.
pub(super) fn planned(name: &str, usage: &str, sheet: &Sheet, plan: &Plan) -> PlannedEngine {
    let stamps = sheet.certificates.iter().map(|c| (c.part.clone(), c.until)).collect();
    PlannedEngine { name: name.to_owned(), usage: usage.to_owned(), stamps, plan: plan.clone() }
}

/// How much of an engine is judged.
type Judge = fn(&Sheet, &SheetFacts<'_>, &[LoadedPack]) -> Verdict;

/// One engine of the book with its plan.
struct Planned<'a> {
    row: &'a EngineRow,
    bench: Bench<'a>,
    verdict: &'a Verdict,
    plan: &'a Plan,
    names: &'a [NamedPack],
    shelf: CalendarShelf<'a>,
}

impl Fleet<'_> {
    /// The engines side by side, without what a page of one engine has beside.
    pub(super) fn side_by_side(&self, io: &mut Io<'_>) -> (Vec<PlannedEngine>, Exit) {
        let mut engines = Vec::new();
        // the services, and the windows that a log's readings are held to: nothing else of the sheet is on this page
        let judge: Judge = |sheet, facts, packs| {
            let mut verdict = verdict::services(sheet, facts, packs);
            verdict.windows = verdict::windows_on(sheet, facts, packs, &plan::findings::FACTS);
            verdict
        };
        let exit = self.go(io, judge, |p| engines.push(planned(&p.row.name, &p.row.usage, p.bench.sheet, p.plan)));
        (engines, exit)
    }

    /// Hands the whole plan of each over.
    pub(super) fn each(
        &self,
        io: &mut Io<'_>,
        mut write: impl FnMut(&EngineRow, &Bench<'_>, &Verdict, &Plan, &[NamedPack], CalendarShelf<'_>),
    ) -> Exit {
        let judge: Judge = |sheet, facts, packs| verdict::judge(sheet, facts, packs, sheet.as_of);
        self.go(io, judge, |p| write(p.row, &p.bench, p.verdict, p.plan, p.names, p.shelf))
    }

    fn go(&self, io: &mut Io<'_>, judge: Judge, mut write: impl FnMut(Planned<'_>)) -> Exit {
        let (mut book, folder) = match self.from.open(None) {
            Ok(opened) => opened,
            Err(words) => return wrong(&words, io),
        };
        let (packs, faults) = load::packs(self.with, Some(&folder.join("book")), io);
        let made = book.engines().map_err(|e| e.to_string()).and_then(|rows| Ok((rows, Lives::of(&book)?)));
        let (rows, mut lives) = match made {
            Ok(made) => made,
            Err(words) => return wrong(&words, io),
        };
        let mut exit = if faults.is_empty() { Exit::FINE } else { Exit::PACK };
        let (system, manifests, names) = (self.units.system(), manifests(&packs), load::named(&packs));
        let day = self.from.on.or(io.today);
        for row in &rows {
            let engine = row.name.as_str();
            let (history, mut sheet) = match with_shelf(&book, engine, &folder, self.from.on, day) {
                Ok(made) => made,
                Err(words) => {
                    exit = wrong(&format!("{engine}: {words}"), io);
                    continue;
                }
            };
            sheet.looked_at = day;
            if let Err(no) = load::pack_fields(&mut sheet, &packs, io) {
                exit = no;
                continue;
            }
            let kept = ledger::set(&mut sheet, &history, day);
            let facts = SheetFacts::new(Catalogue::of_sheet(&sheet), &sheet);
            let verdict = judge(&sheet, &facts, &packs);
            match lives.own(&book, engine, &verdict, day) {
                Ok(own) => {
                    let ledger = Ledger { history: &history, own: &own, packs: &manifests, system };
                    let plan = Plan { kept, ..plan::plan_by_log(&sheet, &facts, &verdict, &ledger) };
                    let bench = Bench { sheet: &sheet, facts: &facts, system, paint: Paint::Plain, like: None };
                    let shelf = CalendarShelf { book: &mut book, history: &history };
                    write(Planned { row, bench, verdict: &verdict, plan: &plan, names: &names, shelf });
                }
                Err(words) => exit = wrong(&format!("{engine}: {words}"), io),
            }
        }
        exit
    }
}
