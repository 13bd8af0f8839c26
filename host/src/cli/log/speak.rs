//! What a log asks for before the next pass, said to whoever has just written a line of it: the words of the plan's page.

use super::known::Known;
use super::say::Wrap;
use crate::cli::io::Io;
use crate::facts::{Catalogue, SheetFacts};
use crate::packs::clean::clean;
use crate::plan::findings::FACTS;
use crate::plan::ledger::{self, Ledger, OwnLives};
use crate::sheet::Sheet;
use crate::verdict;
use std::collections::{BTreeMap, BTreeSet};
use thou_book::Book;
use thou_contract::{Manifest, System};
use thou_life::condition::{ReadingAlert, Urgency};
use thou_life::entry::{Entry, What};
use thou_life::events::READ;
use thou_life::history::History;
use thou_life::services::LogServices;

/// So many are named of what stood open before; the plan has all.
const MOST_OLD: usize = 3;

/// What one engine's log asked for before a line was written.
pub(super) struct Speak<'a> {
    sheet: Option<&'a Sheet>,
    before: Vec<ReadingAlert>,
}

/// So much of what a file asks for is said in full.
const MOST_NEW: usize = 8;

type Asked = (Vec<ReadingAlert>, BTreeMap<String, String>);

impl<'a> Speak<'a> {
    /// Looks only where something is put in: what that closes is worth a last look.
    pub(super) fn before(book: &Book, engine: &str, sheet: Option<&'a Sheet>, new: &[Entry], known: &Known) -> Self {
        let closes = |e: &Entry| matches!(e.what, What::Fitted { .. } | What::Did { .. } | What::Freshened);
        let history = new.iter().any(closes).then(|| book.history(engine).ok()).flatten();
        let before = history.map(|history| asked(sheet, &history, known).0).unwrap_or_default();
        Self { sheet, before }
    }

    /// Of a file: what its lines close was looked at then.
    pub(super) fn of_file(sheet: Option<&'a Sheet>) -> Self {
        Self { sheet, before: Vec::new() }
    }

    /// Says what these entries ask for, and, where the engine ran, what stood open.
    pub(super) fn after(&self, history: &History, written: &[Entry], known: &Known, wrap: Wrap, io: &mut Io<'_>) {
        let says_nothing = |e: &Entry| {
            e.what.of_the_office()
                || matches!(e.what, What::Noted | What::Settled { .. } | What::Tightened { .. } | What::TornDown { .. })
        };
        if written.iter().all(says_nothing) {
            return;
        }
        let (alerts, against) = asked(self.sheet, history, known);
        let new: BTreeSet<&str> = written.iter().map(|e| e.id.as_str()).collect();
        let told_then = |e: &&Entry| match &e.what {
            What::Read { reading, .. } => !READ.contains(&reading.as_str()),
            _ => false,
        };
        let read: BTreeSet<&str> = history.entries.iter().filter(told_then).map(|e| e.id.as_str()).collect();
        let ran = written.iter().any(|e| matches!(e.what, What::Ran { .. }));
        let fresh = |a: &&ReadingAlert| new.contains(a.entry.as_str());
        // a reading that asks for a look was told when it was written down
        let old = |a: &&ReadingAlert| {
            let told = read.contains(a.entry.as_str()) && a.weight != Urgency::Stop;
            ran && !fresh(a) && !told && a.weight != Urgency::Note
        };
        for alert in alerts.iter().filter(fresh).take(MOST_NEW) {
            tell(alert, &history.engine, wrap, io);
        }
        if let Some(more) = alerts.iter().filter(fresh).count().checked_sub(MOST_NEW).filter(|n| *n > 0) {
            let words = format!("and {more} more of these entries: thou plan {}", history.engine);
            io.say(&wrap.fill(&clean(&words), "  ", "  "));
        }
        let standing: Vec<&ReadingAlert> = alerts.iter().filter(old).collect();
        for alert in standing.iter().take(MOST_OLD) {
            let words = format!("STILL OPEN: {} [{}]", alert.words.trim_end_matches('.'), alert.entry);
            io.say(&wrap.fill(&clean(&words), "  ", "  "));
        }
        if let Some(more) = standing.len().checked_sub(MOST_OLD).filter(|n| *n > 0) {
            io.say(&wrap.fill(&format!("and {more} more"), "  ", "  "));
        }
        if !standing.is_empty() {
            let words = format!("What to look at for each: thou plan {}", history.engine);
            io.say(&wrap.fill(&clean(&words), "  ", "  "));
        }
        let asked_for: BTreeSet<&str> = alerts.iter().map(|a| a.entry.as_str()).collect();
        let mut told: BTreeSet<&str> = BTreeSet::new();
        for entry in written.iter().filter(|e| !asked_for.contains(e.id.as_str())) {
            let What::Read { reading, .. } = &entry.what else { continue };
            let Some(words) = against.get(&entry.id).filter(|w| told.insert(w)) else { continue };
            io.say(&wrap.fill(&clean(&format!("{reading}: {words}")), "  ", "  "));
        }
        self.closed(&alerts, history, wrap, io);
        let manifests: Vec<&Manifest> = known.packs.iter().map(|p| &p.manifest).collect();
        let services = LogServices::new([], &manifests);
        for entry in written.iter().filter(|e| !asked_for.contains(e.id.as_str())) {
            let What::Removed { serial, failed: true, because, .. } = &entry.what else { continue };
            let Some(part) = history.parts.get(serial) else { continue };
            let looks = services.reach(&part.part, because.as_deref().unwrap_or_default()).join(" ");
            if !looks.is_empty() {
                let words = format!("The next is in. Before it runs: {looks}");
                io.say(&wrap.fill(&clean(&words), "  ", "  "));
            }
        }
    }

    /// What failed and is now put right: whether anybody looked at what it reached.
    fn closed(&self, now: &[ReadingAlert], history: &History, wrap: Wrap, io: &mut Io<'_>) {
        let open: BTreeSet<&str> = now.iter().map(|a| a.entry.as_str()).collect();
        let failed = |entry: &str| {
            history.entries.iter().filter(|e| e.id == entry).any(|e| match &e.what {
                What::Removed { failed, .. } => *failed,
                What::Happened { .. } => true,
                _ => false,
            })
        };
        let stop =
            |a: &&ReadingAlert| a.weight == Urgency::Stop && !open.contains(a.entry.as_str()) && failed(&a.entry);
        for alert in self.before.iter().filter(stop) {
            let words = format!("That puts {} right. Before it runs: {}", alert.title, looks(&alert.to_do));
            io.say(&wrap.fill(&clean(&words), "  ", "  "));
        }
    }
}

/// What to look at, without the word that it does not run.
fn looks(to_do: &str) -> &str {
    to_do.split_once("or this is settled. ").map_or(to_do, |(_, looks)| looks)
}

fn tell(alert: &ReadingAlert, engine: &str, wrap: Wrap, io: &mut Io<'_>) {
    let words = format!(
        "BEFORE THE NEXT PASS: {}. {} ({}) Then: thou log add {engine} settled {} \"what was found\"",
        alert.words.trim_end_matches('.'),
        alert.to_do,
        alert.whose,
        alert.entry
    );
    io.say(&wrap.fill(&clean(&words), "  ", "  "));
}

/// What the log asks for, and what its readings were held against.
fn asked(sheet: Option<&Sheet>, history: &History, known: &Known) -> Asked {
    let manifests: Vec<&Manifest> = known.packs.iter().map(|p| &p.manifest).collect();
    let own = OwnLives::new();
    let ledger = Ledger { history, own: &own, packs: &manifests, system: System::Inch };
    let Some(sheet) = sheet else { return ledger::at_the_log(None, &ledger) };
    let facts = SheetFacts::new(Catalogue::of_sheet(sheet), sheet);
    let read = history.entries.iter().any(|e| matches!(e.what, What::Read { .. }));
    let windows = if read { verdict::windows_on(sheet, &facts, &known.packs, &FACTS) } else { Vec::new() };
    ledger::at_the_log(Some((sheet, &facts, &windows)), &ledger)
}
