//! The plan: services against what the engine has run, merged into stops by what comes apart, tied to the events ahead,
//! with what has to be ordered for them.

mod brought;
mod by_sheet;
mod calendar;
pub mod ledger;
mod orders;
mod stops;
mod waiting;

pub use calendar::{Ahead, When};
pub use orders::{Away, Chain, How, Order};
pub use stops::{HOURS_A_DAY, Stop, reaches};
pub use waiting::{Further, Wait};

use jiff::civil::Date;
use std::collections::BTreeMap;
use thou_facts::Facts;
pub use thou_life::item::Basis;
use thou_sheet::Sheet;
use thou_verdict::{ServiceItem, Verdict};

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
    fn by(used: Option<f64>, [low, nominal, high]: [f64; 3]) -> Self {
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
pub struct Line {
    /// The service; its low, nominal and high are those that count, whatever they rest on.
    pub service: ServiceItem,
    /// The pack's own low, nominal and high, SI or a count.
    pub pack: [f64; 3],
    /// What low, nominal and high rest on.
    pub basis: Basis,
    /// Why it is counted so, a sentence each, with the numbers; nothing where only the pack's range and the meter count.
    pub why: Vec<String>,
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

impl Line {
    /// What is left to low, nominal and high; negative once past.
    #[must_use]
    pub fn left(&self) -> Option<[f64; 3]> {
        let used = self.used?;
        Some([self.service.low - used, self.service.nominal - used, self.service.high - used])
    }
}

/// The plan of one engine.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Plan {
    /// As of this day.
    pub as_of: Option<Date>,
    /// Every service, the most pressing first.
    pub lines: Vec<Line>,
    /// What makes sense together, the first first.
    pub stops: Vec<Stop>,
    /// The events ahead, the next first.
    pub events: Vec<Ahead>,
    /// What has to be ordered or sent out, the first first.
    pub orders: Vec<Order>,
    /// What the next big stop waits for.
    pub chain: Option<Chain>,
    /// What is on the shelf, by part: the numbers, with what they have run; an empty text for one without a number.
    pub shelf: BTreeMap<String, Vec<String>>,
    /// What the engine's log says beside the services; none without one.
    pub told: Option<ledger::Told>,
}

/// The plan from a verdict's services and the sheet's meters. `today` stands in for a sheet that has no day.
#[must_use]
pub fn plan(sheet: &Sheet, verdict: &Verdict, today: Option<Date>) -> Plan {
    let as_of = sheet.as_of.or(today);
    let lines = ledger::lines_by_sheet(sheet, verdict, as_of);
    laid_out(sheet, lines, as_of)
}

/// The plan of an engine whose log is in a book: the sheet has its meters by [`ledger::set`].
#[must_use]
pub fn plan_by_log(sheet: &Sheet, facts: &Facts<'_>, verdict: &Verdict, ledger: &ledger::Ledger<'_>) -> Plan {
    let (lines, told) = ledger::lines(sheet, facts, verdict, ledger);
    Plan { told: Some(told), ..laid_out(sheet, lines, sheet.as_of) }
}

/// Lays lines out: their days, the stops, what has to be ordered.
fn laid_out(sheet: &Sheet, mut lines: Vec<Line>, as_of: Option<Date>) -> Plan {
    let season = as_of.map(|day| calendar::Season::new(sheet, day));
    if let Some(season) = &season {
        calendar::date(&mut lines, season);
    }
    lines.sort_by(|a, b| {
        rank(a)
            .total_cmp(&rank(b))
            .then_with(|| a.service.rule.cmp(&b.service.rule))
            .then_with(|| a.service.meter.cmp(&b.service.meter))
    });
    let stops = stops::stops(sheet, &lines, season.as_ref(), as_of);
    let orders = orders::orders(sheet, &lines, season.as_ref(), as_of);
    let chain = orders::chain(&lines, &stops, &orders, season.as_ref(), as_of);
    let shelf = orders::shelf(sheet);
    let events = season.map(|s| s.events).unwrap_or_default();
    Plan { as_of, lines, stops, shelf, events, orders, chain, told: None }
}

/// What it means to leave a line until after an event: the indices of one of the plan's lines and of one of its events.
#[must_use]
pub fn waits(sheet: &Sheet, plan: &Plan, line: usize, event: usize) -> Option<Wait> {
    let season = calendar::Season::new(sheet, plan.as_of?);
    waiting::wait(sheet, plan.lines.get(line)?, line, &season, event)
}

/// How much of its nominal life is gone, most first; uncounted last.
fn rank(line: &Line) -> f64 {
    match line.used {
        Some(used) if line.service.nominal > 0.0 => -used / line.service.nominal + line.service.nominal * 1e-12,
        _ => f64::INFINITY,
    }
}
