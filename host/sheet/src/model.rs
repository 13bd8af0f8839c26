//! A build sheet that was read and held to its schema: plain data, still as the shop wrote it but for SI values.

use jiff::civil::Date;
use std::collections::BTreeMap;
use std::ops::Range;
use std::path::PathBuf;
use std::sync::OnceLock;

use super::dotted::below;
pub use thou_fields::Axis;
use thou_fields::{PackField, ReadingField};

/// Which side of the head a valve is on.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// Lets the charge in.
    Inlet,
    /// Lets it out.
    Exhaust,
}

/// The places of this engine on every axis, in the shop's own numbering.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Places {
    /// Labels by axis; `Axis::One` has one empty label.
    pub labels: BTreeMap<Axis, Vec<String>>,
    /// For each cylinder, its crankpin.
    pub pin_of_cylinder: Vec<usize>,
    /// For each cylinder, its bank.
    pub bank_of_cylinder: Vec<usize>,
    /// For each valve, its cylinder and whether it is an inlet.
    pub cylinder_of_valve: Vec<(usize, bool)>,
}

impl Places {
    /// Labels on an axis.
    #[must_use]
    pub fn labels(&self, axis: Axis) -> &[String] {
        self.labels.get(&axis).map_or(&[], Vec::as_slice)
    }
    /// How many places an axis has.
    #[must_use]
    pub fn count(&self, axis: Axis) -> usize {
        if axis == Axis::One { 1 } else { self.labels(axis).len() }
    }
    /// Which place on `from` belongs to place `at` on `to`: the crankpin of a rod, the cylinder of a valve. None where
    /// the two axes have nothing to do with one another, or several places would do.
    #[must_use]
    pub fn project(&self, from: Axis, to: Axis, at: usize) -> Option<usize> {
        match (from, to) {
            (Axis::One, _) => Some(0),
            (a, b) if a == b => Some(at),
            (Axis::Cylinder, Axis::Rod) | (Axis::Rod, Axis::Cylinder) => Some(at),
            (Axis::Crankpin, Axis::Rod | Axis::Cylinder) => self.pin_of_cylinder.get(at).copied(),
            (Axis::Bank, Axis::Cylinder | Axis::Rod) => self.bank_of_cylinder.get(at).copied(),
            (Axis::Cylinder | Axis::Rod, Axis::Valve) => self.cylinder_of_valve.get(at).map(|v| v.0),
            (Axis::Bank, Axis::Valve) => {
                self.cylinder_of_valve.get(at).and_then(|v| self.bank_of_cylinder.get(v.0)).copied()
            }
            _ => None,
        }
    }
    /// The side of a valve.
    #[must_use]
    pub fn side(&self, valve: usize) -> Option<Side> {
        self.cylinder_of_valve.get(valve).map(|v| if v.1 { Side::Inlet } else { Side::Exhaust })
    }
}

/// The sheet's own text, for carets.
#[derive(Debug, Clone, Default)]
pub struct Source {
    /// The file as the user named it.
    pub name: String,
    /// Its text.
    pub text: String,
    /// The folder that the files it names are looked for in.
    pub folder: PathBuf,
    /// The files it names by their names, where the sheet was kept together with them: no folder is then looked into.
    pub kept: Option<BTreeMap<String, String>>,
    /// Where each value stands: JSON pointer to byte range.
    pub spans: BTreeMap<String, Range<usize>>,
    /// Where the name of each field stands.
    pub(crate) keys: BTreeMap<String, Range<usize>>,
    /// Where each line starts, once somebody asked.
    pub(crate) lines: OnceLock<Vec<usize>>,
}

impl Source {
    /// A text by its name, with nothing known of where its values stand.
    #[must_use]
    pub fn of_text(name: &str, text: &str) -> Self {
        Self { name: name.to_owned(), text: text.to_owned(), ..Self::default() }
    }

    /// Line and column of a byte, from one, in characters.
    #[must_use]
    pub fn position(&self, byte: usize) -> (usize, usize) {
        let lines = self.lines.get_or_init(|| {
            let ends = self.text.bytes().enumerate().filter(|(_, b)| *b == b'\n');
            std::iter::once(0).chain(ends.map(|(at, _)| at + 1)).collect()
        });
        let byte = byte.min(self.text.len());
        let line = lines.partition_point(|start| *start <= byte);
        let start = lines.get(line.saturating_sub(1)).copied().unwrap_or(0);
        let column = self.text.get(start..byte).unwrap_or("").chars().count() + 1;
        (line, column)
    }
    /// Where the value at a JSON pointer stands, or the nearest thing around it.
    #[must_use]
    pub fn span(&self, pointer: &str) -> Range<usize> {
        let mut at = pointer;
        loop {
            if let Some(span) = self.spans.get(at) {
                return span.clone();
            }
            match at.rfind('/') {
                Some(end) => at = at.get(..end).unwrap_or(""),
                None => return 0..0,
            }
        }
    }
}

/// A gauge of the shop.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Gauge {
    /// What it is: `bore-gauge`, `outside-micrometer`, …
    pub kind: String,
    /// Smallest step it shows, SI.
    pub resolution: Option<f64>,
    /// Standard uncertainty (k = 1) of one reading, SI; of its value for a ratio gauge.
    pub uncertainty: Option<f64>,
    /// Whether that uncertainty is a share of the value, not a size.
    pub relative: bool,
    /// What it was set on.
    pub set_on: Option<String>,
    /// Where the sheet has it.
    pub pointer: String,
}

/// One value that was read, or a hole where none was.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// SI; none where nothing was read yet.
    pub value: Option<f64>,
    /// Where the sheet has it, or would have it.
    pub pointer: String,
}

/// What was read in one go: one kind of reading, one gauge, one day.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct ReadingSet {
    /// received, machined, mock-up, final, after-run or tear-down.
    pub stage: Option<String>,
    /// The day.
    pub when: Option<Date>,
    /// Who read it.
    pub by: Option<String>,
    /// The name of the gauge.
    pub gauge: Option<String>,
    /// Temperature of the part, K.
    pub temperature: Option<f64>,
    /// Whether the torque plate was on.
    pub plate: Option<bool>,
    /// Whether every place was read a second time.
    pub twice: bool,
    /// The points read at each place, in order; one empty name where there is one reading a place.
    pub points: Vec<String>,
    /// By place, then by point.
    pub rows: Vec<Vec<Reading>>,
    /// Where the sheet has it.
    pub pointer: String,
}

/// Something that was done to the metal.
#[derive(Debug, Clone, PartialEq)]
pub struct Work {
    /// honed, decked, …
    pub did: String,
    /// The day.
    pub when: Date,
    /// The part, where it is not plain from what was done.
    pub part: Option<String>,
    /// How much came off, m.
    pub took: Option<f64>,
    /// Labels of the places; empty for all.
    pub at: Vec<String>,
    /// Where the sheet has it.
    pub pointer: String,
}

/// A verdict that somebody in the shop answers for.
#[derive(Debug, Clone, PartialEq)]
pub struct Accepted {
    /// `pack/rule`.
    pub rule: String,
    /// One place, or all.
    pub place: Option<String>,
    /// Why.
    pub reason: String,
    /// Who.
    pub by: String,
    /// Until this day; none: until the next freshen.
    pub until: Option<Date>,
    /// Where the sheet has it.
    pub pointer: String,
}

/// That a rule may stand in for another although less holds then.
#[derive(Debug, Clone, PartialEq)]
pub struct Looser {
    /// The rule that holds no more as it did, `pack/rule`.
    pub rule: String,
    /// The rule that stands in for it, `pack/rule`.
    pub instead: String,
    /// Why.
    pub reason: String,
    /// Who.
    pub by: String,
    /// Where the sheet has it.
    pub pointer: String,
}

/// A part with a stamp and a date.
#[derive(Debug, Clone, PartialEq)]
pub struct Certificate {
    /// The part.
    pub part: String,
    /// Its last good day.
    pub until: Date,
    /// Where the sheet has it.
    pub pointer: String,
}

/// The finish that a measured profile of a bore shows.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Finish {
    /// Arithmetical mean deviation, m.
    pub ra: f64,
    /// Root mean square deviation, m.
    pub rq: f64,
    /// Mean height of five sections, m.
    pub rz: f64,
    /// Core, peaks and valleys.
    pub core: thou_mechanics::roughness::CoreRoughness,
}

/// When a service was done last.
#[derive(Debug, Clone, PartialEq)]
pub struct Serviced {
    /// `pack/rule`.
    pub rule: String,
    /// The day.
    pub date: Option<Date>,
    /// The meters then, SI or a count.
    pub at: BTreeMap<String, f64>,
    /// Where the sheet has it.
    pub pointer: String,
}

/// How the rounds of an event go.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum EventKind {
    /// A lost round ends it.
    Race,
    /// Every round is run.
    Match,
    /// Nobody is put out.
    Test,
}

/// An event of the season.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Event {
    /// What the shop calls it.
    pub name: String,
    /// Its first day.
    pub first: Date,
    /// Its last day, not before the first.
    pub last: Date,
    /// How its rounds go.
    pub kind: EventKind,
    /// Passes before the rounds.
    pub trials: u32,
    /// Rounds to the end.
    pub rounds: u32,
    /// Whether the sheet says how many passes it can be.
    pub known: bool,
    /// Where it is.
    pub at: Option<String>,
    /// Where the sheet has it.
    pub pointer: String,
}

impl Event {
    /// Passes when the first round is lost; all of them where nobody is put out.
    #[must_use]
    pub fn fewest(&self) -> u32 {
        match self.kind {
            EventKind::Race => self.trials + self.rounds.min(1),
            EventKind::Match | EventKind::Test => self.most(),
        }
    }
    /// Passes when every round is won.
    #[must_use]
    pub fn most(&self) -> u32 {
        self.trials + self.rounds
    }
}

/// How long a part takes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LeadTime {
    /// Days from the order to the bench.
    pub order: Option<i64>,
    /// Days away when it is sent out.
    pub away: Option<i64>,
    /// Whose word that is.
    pub said_by: Option<String>,
    /// The day it was said.
    pub said: Option<Date>,
    /// Where the sheet has it.
    pub pointer: String,
}

/// What one part costs, in the shop's own money.
#[derive(Debug, Clone, PartialEq)]
pub struct PartCost {
    /// A planned change without the hours.
    pub planned: f64,
    /// All of a failure.
    pub failure: Option<f64>,
    /// Where the sheet has it.
    pub pointer: String,
}

/// What changes and failures cost.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Costs {
    /// What the money is called.
    pub money: Option<String>,
    /// An hour of work.
    pub hour: Option<f64>,
    /// By part.
    pub parts: BTreeMap<String, PartCost>,
}

/// A part or a set on the shelf.
#[derive(Debug, Clone, PartialEq)]
pub struct Spare {
    /// The part, as the services name it.
    pub part: String,
    /// Its own number.
    pub serial: Option<String>,
    /// What it has run, by meter: SI or a count.
    pub used: BTreeMap<String, f64>,
    /// Where the sheet has it.
    pub pointer: String,
}

/// A field that is written otherwise than in the file, for one look.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Change {
    /// The field.
    pub path: String,
    /// What the file has; none where it has nothing.
    pub was: Option<String>,
    /// What is written instead.
    pub now: String,
}

/// A valid sheet.
#[derive(Debug, Clone, Default)]
pub struct Sheet {
    /// Its text.
    pub source: Source,
    /// Its value, as written.
    pub root: serde_json::Value,
    /// Its places.
    pub places: Places,
    /// Readings by key, oldest set first.
    pub readings: BTreeMap<String, Vec<ReadingSet>>,
    /// Gauges by name.
    pub gauges: BTreeMap<String, Gauge>,
    /// Work in the order of its days.
    pub work: Vec<Work>,
    /// Accepted deviations.
    pub accepted: Vec<Accepted>,
    /// Rules whose hold a pack of the shop loosens, signed for.
    pub looser: Vec<Looser>,
    /// Dated parts.
    pub certificates: Vec<Certificate>,
    /// What the engine has run since its last freshen, by meter: SI or a count.
    pub meters: BTreeMap<String, f64>,
    /// The day of those meters, else of the sheet.
    pub as_of: Option<Date>,
    /// Services done.
    pub serviced: Vec<Serviced>,
    /// Events in the order of their days.
    pub calendar: Vec<Event>,
    /// How long parts take, by part.
    pub lead_times: BTreeMap<String, LeadTime>,
    /// What changes and failures cost.
    pub costs: Costs,
    /// What is on the shelf.
    pub spares: Vec<Spare>,
    /// The finish of the profile that it names.
    pub finish: Option<Finish>,
    /// The fields that the loaded packs ask for, by their paths.
    pub pack_fields: BTreeMap<&'static str, &'static PackField>,
    /// The day that it is looked at, where the caller says so.
    pub looked_at: Option<Date>,
    /// What is written otherwise than in the file.
    pub changes: Vec<Change>,
}

impl Sheet {
    /// The entry of a reading, of the sheet's own or of a field that a pack asks for.
    #[must_use]
    pub fn reading_field(&self, key: &str) -> Option<&'static ReadingField> {
        thou_fields::reading(key).or_else(|| self.pack_fields.get(key).map(|f| &f.entry))
    }
    /// The day that things are held to: the one it is looked at, else its own.
    #[must_use]
    pub fn day(&self) -> Option<Date> {
        self.looked_at.or(self.as_of)
    }
    /// The value at a dotted path such as `block.bore`, with its JSON pointer.
    #[must_use]
    pub fn stated(&self, path: &str) -> Option<(&serde_json::Value, String)> {
        let value = below(&self.root, path).filter(|v| !v.is_null())?;
        Some((value, format!("/{}", path.replace('.', "/"))))
    }
    /// The quantity at a dotted path, SI; none where nothing that reads as one stands there.
    #[must_use]
    pub fn figure(&self, path: &str, kind: thou_contract::Kind) -> Option<f64> {
        let (value, _) = self.stated(path)?;
        value.as_f64().or_else(|| kind.parse(value.as_str()?).ok())
    }
    /// The state of a part: new unless the sheet says otherwise.
    #[must_use]
    pub fn state(&self, part: &str) -> &str {
        self.stated(&format!("{part}.state")).and_then(|(v, _)| v.as_str()).unwrap_or("new")
    }
}
