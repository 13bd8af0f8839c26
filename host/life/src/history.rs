//! What a book knows of one engine, and of the parts that were in it.

use crate::entry::Entry;
use jiff::civil::Date;
use std::collections::BTreeMap;

/// What an engine's log comes to.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct History {
    /// The engine's name in the book.
    pub engine: String,
    /// The day of its build, by its first sheet.
    pub built: Option<Date>,
    /// What its first sheet says that it had run by then, by meter: SI or a count.
    pub start: BTreeMap<String, f64>,
    /// Entries that count: what was undone is left out, and so is the undoing. By day, then in the order of writing.
    pub entries: Vec<Entry>,
    /// Its meters after the last entry.
    pub meters: BTreeMap<String, MeterNow>,
    /// Every part that was ever fitted here, by its number, with every stretch that it ran anywhere in the shop.
    pub parts: BTreeMap<String, PartRun>,
    /// What holds for every engine of the shop, as [`History::entries`].
    pub shop: Vec<Entry>,
    /// Numbers that lay on the shelf, by an entry of this engine's log or of the shop's, or by its sheet where that was asked
    /// for, and went into any engine.
    pub from_the_shelf: BTreeMap<String, PartRun>,
}

impl History {
    /// What a part ran in other engines of the shop and before the book knew it, on one meter: SI or a count.
    #[must_use]
    pub fn elsewhere(&self, serial: &str, meter: &str) -> f64 {
        let of = |run: &BTreeMap<String, f64>| run.get(meter).copied().unwrap_or(0.0);
        self.parts.get(serial).map_or(0.0, |part| {
            let others = part.stretches.iter().filter(|s| s.engine != self.engine).map(|s| of(&s.run));
            others.sum::<f64>() + of(&part.brought)
        })
    }
}

/// How one meter of an engine stands: SI or a count.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct MeterNow {
    /// All that it ran, with what its first sheet brought.
    pub total: f64,
    /// Since it was freshened last; the same as the total where it never was.
    pub since_freshened: f64,
}

/// One part by its number: where it ran, and how it ended.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct PartRun {
    /// Its number.
    pub serial: String,
    /// What it is, as the services name it.
    pub part: String,
    /// What it had run before the book knew it, by meter: SI or a count.
    pub brought: BTreeMap<String, f64>,
    /// The day on its own stamp.
    pub made: Option<Date>,
    /// Where it ran, the first first.
    pub stretches: Vec<Stretch>,
    /// How often it was tightened after it was fitted.
    pub tightened: u32,
}

impl PartRun {
    /// What it ran in all, with what it brought, by meter: SI or a count.
    #[must_use]
    pub fn run(&self) -> BTreeMap<String, f64> {
        let mut run = self.brought.clone();
        for (meter, value) in self.stretches.iter().flat_map(|s| &s.run) {
            *run.entry(meter.clone()).or_insert(0.0) += value;
        }
        run
    }
    /// Whether it let go, or was at its end by what was measured, when it came out last.
    #[must_use]
    pub fn failed(&self) -> bool {
        self.stretches.last().is_some_and(|s| s.failed)
    }
    /// The engine that it is still in.
    #[must_use]
    pub fn still_in(&self) -> Option<&str> {
        self.stretches.last().filter(|s| s.removed.is_none()).map(|s| s.engine.as_str())
    }
    /// What was decided over it when it came out last: run, recondition, watch or scrap.
    #[must_use]
    pub fn disposition(&self) -> Option<&str> {
        self.stretches.last().and_then(|s| s.disposition.as_deref())
    }
}

/// One stretch of a part's life: from when it was fitted until it came out.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Stretch {
    /// The engine.
    pub engine: String,
    /// Where in it, when it is one of several.
    pub place: Option<String>,
    /// The day it was fitted.
    pub fitted: Date,
    /// The day it came out; none while it is still in.
    pub removed: Option<Date>,
    /// The engine's meters when it was fitted: SI or a count.
    pub at: BTreeMap<String, f64>,
    /// What it ran in this stretch, up to the last entry where it is still in, by meter: SI or a count.
    pub run: BTreeMap<String, f64>,
    /// Whether it had let go, or was at its end by what was measured.
    pub failed: bool,
    /// What was decided over it: run, recondition, watch or scrap.
    pub disposition: Option<String>,
    /// Why it came out, in words.
    pub because: Option<String>,
}
