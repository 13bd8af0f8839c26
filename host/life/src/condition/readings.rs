//! Readings of a log that can be compared, and what is said of them.

use crate::log::Log;
use crate::services::LogServices;
use jiff::civil::Date;
use std::collections::BTreeMap;
use thou_contract::System;

/// What makes readings comparable.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub struct SeriesKey {
    /// Which reading.
    pub reading: String,
    /// The place, in the shop's own numbering.
    pub place: Option<String>,
    /// The tester or gauge.
    pub gauge: Option<String>,
    /// hot or cold, on the head or on the bench.
    pub state: Option<String>,
}

/// One reading.
#[derive(Debug, Clone, PartialEq)]
pub struct ReadingPoint {
    /// The entry's place in the log.
    pub index: usize,
    /// Its id.
    pub entry: String,
    /// The day.
    pub day: Date,
    /// The event.
    pub event: Option<String>,
    /// What the engine had run, on the meter that the plan counts by: passes or metres, from the start of the log.
    pub run: f64,
    /// The value, SI.
    pub value: f64,
    /// Whether it is the fresh one that later ones are held against.
    pub baseline: bool,
}

/// A reading that the sheet has of the engine as it was handed over.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetReading {
    /// The value, SI.
    pub value: f64,
    /// As a sentence has it: "the sheet's after-run reading of 2026-06-24".
    pub called: String,
    /// The gauge that read it.
    pub gauge: Option<String>,
    /// The speed that it was read at, where it hangs on one, rad/s.
    pub speed: Option<f64>,
}

/// Readings of the sheet that a log's can be held against where it has no fresh one of its own: by reading and place.
pub type SheetReadings = BTreeMap<(String, Option<String>), SheetReading>;

/// Readings that can be compared, since the part was last new.
#[derive(Debug, Clone, PartialEq)]
pub struct Series {
    /// What makes them comparable.
    pub key: SeriesKey,
    /// In the order of the log.
    pub points: Vec<ReadingPoint>,
}

/// How much a finding weighs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Urgency {
    /// It does not run until this is settled.
    Stop,
    /// To be looked at before the next pass.
    Look,
    /// Worth knowing.
    Note,
}

/// Something to look at.
#[derive(Debug, Clone, PartialEq)]
pub struct ReadingAlert {
    /// How much it weighs.
    pub weight: Urgency,
    /// What it is about: "leak-down cylinder 5".
    pub title: String,
    /// What was seen, with its numbers.
    pub words: String,
    /// What to do.
    pub to_do: String,
    /// Whose limit it is.
    pub whose: String,
    /// The day that it was seen.
    pub day: Date,
    /// The entry that shows it: a `settled` of it ends the finding.
    pub entry: String,
    /// The part that it says something of, as the services name it.
    pub part: Option<String>,
}

/// What reads the log.
pub struct ConditionReader<'a> {
    /// The log.
    pub log: &'a Log<'a>,
    /// The meter that lines are drawn against: passes or miles.
    pub meter: &'a str,
    /// What the services say of its readings.
    pub services: &'a LogServices<'a>,
    /// What the sheet has of the engine as it was handed over.
    pub sheet: &'a SheetReadings,
    /// The reader's units.
    pub system: System,
}

impl ConditionReader<'_> {
    /// A stretch of the meter that slopes are told over.
    pub(super) fn each(&self) -> (f64, &'static str) {
        match (self.meter, self.system) {
            ("miles", System::Metric) => (1e6, "1,000 km"),
            ("miles", _) => (1_609_344.0, "1,000 miles"),
            _ => (10.0, "10 passes"),
        }
    }
}
