//! One service on one meter: how near it is, and when its figures come.

use jiff::civil::Date;
use thou_life::item::LifeBasis;
use thou_mechanics::weibull::Weibull;
use thou_verdict::ServiceItem;

/// How near a service is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Due {
    /// Past its high: not another pass unmeasured.
    Past,
    /// Past its nominal.
    Now,
    /// A careful shop would have it apart.
    Soon,
    /// Not yet.
    Later,
    /// The sheet has no such meter, or no day to count from.
    Uncounted,
}

impl Due {
    /// By what is used, and low, nominal and high.
    pub(crate) fn by(used: Option<f64>, [low, nominal, high]: [f64; 3]) -> Self {
        match used {
            None => Self::Uncounted,
            Some(used) if used >= high => Self::Past,
            Some(used) if used >= nominal => Self::Now,
            Some(used) if used >= low => Self::Soon,
            Some(_) => Self::Later,
        }
    }
}

/// One service on one meter.
#[derive(Debug, Clone, PartialEq)]
pub struct ServiceLine {
    /// The service; its low, nominal and high are those that count, whatever they rest on.
    pub service: ServiceItem,
    /// The pack's own low, nominal and high, SI or a count.
    pub pack: [f64; 3],
    /// What low, nominal and high rest on.
    pub basis: LifeBasis,
    /// How lives spread behind the range that counts; none for what only looks.
    pub life: Option<Weibull>,
    /// Why it is counted so, a sentence each, with the numbers; nothing where only the pack's range and the meter count.
    pub why: Vec<String>,
    /// What its pack leaves unsaid, and so is not counted; it stands in `why` too.
    pub unsaid: Vec<String>,
    /// The number of the part or set that it counts for, where the log has one.
    pub serial: Option<String>,
    /// What its count starts from, the same on every day until the service is done again: the meter at the last time,
    /// else its day, else the build.
    pub since: String,
    /// Used on its meter since it was last done, SI or a count.
    pub used: Option<f64>,
    /// How near it is.
    pub due: Due,
    /// When low, nominal and high come: by the events ahead, then at the use that the intent states.
    pub when: Option<[When; 3]>,
    /// The days of those.
    pub dates: Option<[Date; 3]>,
}

impl ServiceLine {
    /// What is left to low, nominal and high; negative once past.
    #[must_use]
    pub fn left(&self) -> Option<[f64; 3]> {
        let used = self.used?;
        Some([self.service.low - used, self.service.nominal - used, self.service.high - used])
    }

    /// Whether it only looks, measures or sets, and replaces nothing.
    #[must_use]
    pub fn looks(&self) -> bool {
        let service = &self.service.service;
        match service.action.as_str() {
            "inspect" | "measure" | "adjust" => true,
            // counted from when it was done last and not from a stamp: the stamps are read, nothing is replaced
            "replace-by-date" => service.since == "last-done",
            _ => false,
        }
    }
}

/// When one figure of a life comes. Events are counted as if every round was won: a part that goes into a final has to
/// last it.
#[derive(Debug, Clone, PartialEq)]
pub struct When {
    /// The first day of the event in which it would be passed; past the events, the day by the season's mean. Never
    /// before the plan's day.
    pub date: Date,
    /// The event before which the work is done.
    pub before: Option<String>,
    /// The last event that may be run before it; none when not even the next one may, or when it comes after all events.
    pub through: Option<String>,
    /// Whether it comes round within that event, however fresh it goes in: it is done between the rounds.
    pub within: bool,
    /// The same with every first round lost: as late as it can come, where that is later.
    pub latest: Option<(Date, Option<String>)>,
}

impl When {
    /// The event by name, else the day.
    #[must_use]
    pub fn words(&self) -> String {
        self.before.as_ref().map_or_else(|| self.date.to_string(), |name| format!("before {name}"))
    }
}
