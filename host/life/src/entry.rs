//! What a racer or the shop writes down: one entry a thing that happened, as a line of JSON or a row of CSV has it.
//!
//! An entry is never changed: what was wrong is undone by another, so a log can be read back as it was on any day.

pub use crate::amount::Amount;
use crate::slip::Slip;
use jiff::civil::Date;
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};

/// One entry of an engine's log.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub struct Entry {
    /// Its own name, the same in every copy of the log, so that a file read twice adds nothing twice.
    pub id: String,
    /// The engine's name in the book.
    pub engine: String,
    /// The day.
    pub day: Date,
    /// The zone in which that was the day, where it was read off a clock: `America/New_York`, `-05:00`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub zone: Option<String>,
    /// The event it belongs to, by its name in the sheet's calendar.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub event: Option<String>,
    /// Who wrote it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub by: Option<String>,
    /// In words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
    /// What it says.
    #[serde(flatten)]
    pub what: What,
}

/// What an entry says.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(tag = "what", rename_all = "kebab-case", rename_all_fields = "kebab-case")]
pub enum What {
    /// The engine ran. What is not given is not known; a count of nothing is left out.
    Ran {
        /// Passes down the strip.
        #[serde(default, skip_serializing_if = "Option::is_none", serialize_with = "plain")]
        passes: Option<f64>,
        /// Pulls on the dyno.
        #[serde(default, skip_serializing_if = "Option::is_none", serialize_with = "plain")]
        pulls: Option<f64>,
        /// Way on the road, text with its unit.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        miles: Option<Amount>,
        /// Time run, text with its unit.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        hours: Option<Amount>,
        /// The highest speed that was seen.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        peak_speed: Option<Amount>,
        /// Elapsed time of a pass.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        elapsed: Option<Amount>,
        /// Whether the adder (nitrous) was on.
        #[serde(default, skip_serializing_if = "std::ops::Not::not")]
        adder: bool,
        /// A meter's own reading after it, where the racer reads the meter instead of counting: `passes`, `miles`, `hours`.
        #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
        meter: BTreeMap<String, Amount>,
        /// The meter was put back to nothing since it was last read, or exchanged for another.
        #[serde(default, skip_serializing_if = "std::ops::Not::not")]
        meter_was_reset: bool,
        /// What it was run in and with.
        #[serde(flatten)]
        slip: Box<Slip>,
    },
    /// Something happened that no count covers.
    Happened {
        /// over-rev, oil-pressure-lost, overheated, detonation, lean-pass, backfire, missed-gear, driveline-broken,
        /// on-the-limiter, hydraulic-lock, hard-landing, under-water, broke, rod-through-block, valve-dropped, seized.
        happening: String,
        /// The part that broke, as the services name it.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        part: Option<String>,
        /// The speed that it came to.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        speed: Option<Amount>,
        /// How long it lasted.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        time: Option<Amount>,
        /// The cylinder, or the valve or main of a part that broke, in the shop's own numbering.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        place: Option<String>,
    },
    /// What an event asked for was done, and this is what was found.
    Settled {
        /// The id of the entry that is settled.
        entry: String,
        /// What was found.
        found: String,
    },
    /// Something was read.
    Read {
        /// Which reading: one of [`crate::entry::READINGS`].
        reading: String,
        /// Its place in the shop's own numbering: a cylinder, a valve (`5E`), a main.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        place: Option<String>,
        /// The value, text with its unit.
        value: Amount,
        /// The tester or gauge: readings are compared with those of the same one.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        gauge: Option<String>,
        /// hot or cold, on-the-head or bench: readings are compared with those of the same.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        state: Option<String>,
        /// The reading that later ones are judged against.
        #[serde(default, skip_serializing_if = "std::ops::Not::not")]
        baseline: bool,
    },
    /// A service was done.
    Did {
        /// The rule of the service, as pack/rule.
        service: String,
        /// What it cost, in the shop's own money.
        #[serde(default, skip_serializing_if = "Option::is_none", serialize_with = "plain")]
        cost: Option<f64>,
        /// Hours of work.
        #[serde(default, skip_serializing_if = "Option::is_none", serialize_with = "plain")]
        hours: Option<f64>,
    },
    /// A part or a set was put in.
    Fitted {
        /// What it is, as the services name it: `valve springs`, `rod bolts`.
        part: String,
        /// Its number: the same part keeps it wherever it goes.
        serial: String,
        /// Where, when it is one of several: a cylinder, a valve.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        place: Option<String>,
        /// What it had run before this book knew it, by meter: a count, or text with its unit.
        #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
        brought: BTreeMap<String, Amount>,
        /// The day on its own stamp or certificate.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        made: Option<Date>,
        /// Who made it, as the shop calls him.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        maker: Option<String>,
    },
    /// A part or a set was taken out.
    Removed {
        /// Its number.
        serial: String,
        /// Whether it had let go, or was at its end by what was measured; a part that came out sound is censored.
        #[serde(default, skip_serializing_if = "std::ops::Not::not")]
        failed: bool,
        /// run, recondition, watch or scrap.
        disposition: String,
        /// Why, in words.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        because: Option<String>,
    },
    /// Fasteners were tightened once more.
    Tightened {
        /// The set's number.
        serial: String,
    },
    /// It was taken apart.
    TornDown {
        /// What came apart: the words of a service's `opens`.
        opens: String,
    },
    /// The engine was freshened: every meter counts from here.
    Freshened,
    /// An event is on these days; one of this name that was known is moved. What is not given stays as it was.
    Scheduled {
        /// Its first day.
        on: Date,
        /// Its last day, where it has several.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        last: Option<Date>,
        /// race, match or test: how its rounds go.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        kind: Option<String>,
        /// Passes before the rounds.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        time_trials: Option<u32>,
        /// Rounds to the end.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        rounds: Option<u32>,
        /// Where it is.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        at: Option<String>,
    },
    /// An event is not gone to.
    CalledOff,
    /// A part or a set lies on the shelf.
    Shelved {
        /// What it is, as the services name it.
        part: String,
        /// Its number.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        serial: Option<String>,
        /// What it has run, by meter.
        #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
        brought: BTreeMap<String, Amount>,
    },
    /// It lies there no more, and did not go into an engine of the book under its number.
    OffTheShelf {
        /// What it is, as the services name it.
        part: String,
        /// Its number.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        serial: Option<String>,
    },
    /// How long a part takes; without any days nobody knows.
    LeadTime {
        /// What it is, as the services name it.
        part: String,
        /// Days from the order to the bench.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        days: Option<u32>,
        /// Days away when it is sent out.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        away: Option<u32>,
        /// Who it comes from or goes to, and said so.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        from: Option<String>,
    },
    /// What a part, or an hour of the shop, costs, in the shop's own money; a part without a figure is not known.
    Priced {
        /// What it is, as the services name it.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        part: Option<String>,
        /// A planned change without the hours.
        #[serde(default, skip_serializing_if = "Option::is_none", serialize_with = "plain")]
        planned: Option<f64>,
        /// All of a failure.
        #[serde(default, skip_serializing_if = "Option::is_none", serialize_with = "plain")]
        failure: Option<f64>,
        /// An hour of work.
        #[serde(default, skip_serializing_if = "Option::is_none", serialize_with = "plain")]
        hour: Option<f64>,
        /// What the money is called.
        #[serde(default, skip_serializing_if = "Option::is_none")]
        money: Option<String>,
    },
    /// Work or parts that are no service, for the engine's account; the note says what.
    Charged {
        /// What it cost, in the shop's own money.
        #[serde(default, skip_serializing_if = "Option::is_none", serialize_with = "plain")]
        cost: Option<f64>,
        /// Hours of work.
        #[serde(default, skip_serializing_if = "Option::is_none", serialize_with = "plain")]
        hours: Option<f64>,
    },
    /// Money came in for the engine.
    Paid {
        /// So much, in the shop's own money.
        #[serde(serialize_with = "number")]
        amount: f64,
    },
    /// What may be spent on the engine in a season.
    Budgeted {
        /// The year of the season.
        season: i16,
        /// So much, in the shop's own money.
        #[serde(serialize_with = "number")]
        amount: f64,
    },
    /// Whose engine it is from this day on.
    Customer {
        /// Their name.
        name: String,
    },
    /// Words alone.
    Noted,
    /// An entry was wrong and counts no more.
    Undone {
        /// The id of the entry that is undone.
        entry: String,
    },
}

/// A whole number without its `.0`, as it was written.
fn plain<S: serde::Serializer>(number: &Option<f64>, out: S) -> Result<S::Ok, S::Error> {
    match number {
        Some(n) if n.fract() == 0.0 && n.abs() < 9e15 => out.serialize_i64(*n as i64),
        Some(n) => out.serialize_f64(*n),
        None => out.serialize_none(),
    }
}

/// The same of one that is always there.
fn number<S: serde::Serializer>(number: &f64, out: S) -> Result<S::Ok, S::Error> {
    plain(&Some(*number), out)
}

/// In whose log it stands what holds for every engine of the shop.
pub const SHOP: &str = "*";

impl What {
    /// Every name that [`Self::name`] gives.
    pub const NAMES: [&str; 22] = [
        "ran",
        "happened",
        "settled",
        "read",
        "did",
        "fitted",
        "removed",
        "tightened",
        "torn-down",
        "freshened",
        "noted",
        "undone",
        "scheduled",
        "called-off",
        "shelved",
        "off-the-shelf",
        "lead-time",
        "priced",
        "charged",
        "paid",
        "budgeted",
        "customer",
    ];
    /// Its name, as a line of JSON has it under `what`.
    #[must_use]
    pub fn name(&self) -> &'static str {
        match self {
            Self::Ran { .. } => "ran",
            Self::Happened { .. } => "happened",
            Self::Settled { .. } => "settled",
            Self::Read { .. } => "read",
            Self::Did { .. } => "did",
            Self::Fitted { .. } => "fitted",
            Self::Removed { .. } => "removed",
            Self::Tightened { .. } => "tightened",
            Self::TornDown { .. } => "torn-down",
            Self::Freshened => "freshened",
            Self::Noted => "noted",
            Self::Undone { .. } => "undone",
            Self::Scheduled { .. } => "scheduled",
            Self::CalledOff => "called-off",
            Self::Shelved { .. } => "shelved",
            Self::OffTheShelf { .. } => "off-the-shelf",
            Self::LeadTime { .. } => "lead-time",
            Self::Priced { .. } => "priced",
            Self::Charged { .. } => "charged",
            Self::Paid { .. } => "paid",
            Self::Budgeted { .. } => "budgeted",
            Self::Customer { .. } => "customer",
        }
    }
    /// Whether it is of the shop's office, dates, days and money, and not of the engine itself.
    #[must_use]
    pub fn of_the_office(&self) -> bool {
        self.for_all_engines()
            || matches!(self, Self::Charged { .. } | Self::Paid { .. } | Self::Budgeted { .. } | Self::Customer { .. })
    }
    /// Whether it can be said of the whole shop.
    #[must_use]
    pub fn for_all_engines(&self) -> bool {
        matches!(
            self,
            Self::Scheduled { .. }
                | Self::CalledOff
                | Self::Shelved { .. }
                | Self::OffTheShelf { .. }
                | Self::LeadTime { .. }
                | Self::Priced { .. }
        )
    }
    /// The number of the part that it is about, if it is about one.
    #[must_use]
    pub fn serial(&self) -> Option<&str> {
        match self {
            Self::Fitted { serial, .. } | Self::Removed { serial, .. } | Self::Tightened { serial } => Some(serial),
            _ => None,
        }
    }
}

/// A reading that a log keeps: its name, kind of quantity, axis (one, cylinder, valve, rod, main) and what it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct LogReading {
    /// Its name, as the sheet's `readings` has it where it has one.
    pub name: &'static str,
    /// Its kind of quantity.
    pub kind: &'static str,
    /// What its places run over.
    pub axis: &'static str,
    /// The field of a sheet whose band it is held to; none where no field has one.
    pub band_of: Option<&'static str>,
    /// What it is.
    pub about: &'static str,
}

const fn r(
    name: &'static str,
    kind: &'static str,
    axis: &'static str,
    band_of: Option<&'static str>,
    about: &'static str,
) -> LogReading {
    LogReading { name, kind, axis, band_of, about }
}

/// Every reading that a log keeps, in the order of the alphabet.
pub const READINGS: &[LogReading] = &[
    r("blow-by", "volume-flow", "one", Some("readings.blow-by"), "Blow-by at full load."),
    r(
        "cranking-pressure",
        "pressure",
        "cylinder",
        Some("readings.cranking-pressure"),
        "Cranking pressure, throttle open, all plugs out.",
    ),
    r(
        "lambda",
        "ratio",
        "one",
        Some("fuel.lambda"),
        "Leanest mixture of a pass at full power: air over the air that just burns the fuel.",
    ),
    r("lash", "gap", "valve", Some("readings.lash-cold"), "Lash as it was found, before it was set."),
    r("leak-down", "percent", "cylinder", Some("readings.leak-down"), "Leak-down, against this tester only."),
    r(
        "main-clearance",
        "clearance",
        "main",
        Some("readings.main-clearance"),
        "Oil clearance of a main bearing at the tear-down.",
    ),
    r("oil-aluminium", "trace", "one", None, "Aluminium in the oil."),
    r("oil-copper", "trace", "one", None, "Copper in the oil."),
    r("oil-fuel", "percent", "one", None, "Fuel in the oil."),
    r("oil-iron", "trace", "one", None, "Iron in the oil."),
    r("oil-lead", "trace", "one", None, "Lead in the oil."),
    r("oil-pressure-hot", "pressure", "one", Some("readings.oil-pressure-hot"), "Oil pressure, hot, at working speed."),
    r("oil-silicon", "trace", "one", None, "Silicon in the oil: dirt."),
    r("oil-temperature", "temperature", "one", Some("oil.temperature"), "Oil temperature, the highest of a run."),
    r(
        "peak-speed",
        "angular-speed",
        "one",
        Some("intent.limiter"),
        "Highest engine speed, as a tach or a box recalls it.",
    ),
    r("power", "power", "one", Some("intent.power"), "Peak power, at the same standard's air."),
    r(
        "rod-bolt-growth",
        "clearance",
        "rod",
        Some("readings.rod-bolt-growth"),
        "How much longer a rod bolt is than when it was new.",
    ),
    r(
        "rod-clearance",
        "clearance",
        "rod",
        Some("readings.rod-clearance"),
        "Oil clearance of a big end at the tear-down.",
    ),
    r("seat-load", "force", "valve", Some("readings.seat-load"), "Seat load of a spring."),
    r("water-temperature", "temperature", "one", Some("oil.temperature"), "Water temperature, the highest of a run."),
];

/// The ids of what somebody wrote down as settled.
#[must_use]
pub fn settled(entries: &[Entry]) -> BTreeSet<&str> {
    let ids = entries.iter().filter_map(|e| match &e.what {
        What::Settled { entry, .. } => Some(entry.as_str()),
        _ => None,
    });
    ids.collect()
}
