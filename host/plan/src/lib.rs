//! The plan: services against what the engine has run, merged into stops by what comes apart, tied to the events ahead,
//! with what has to be ordered for them.

mod again;
mod brought;
mod by_sheet;
mod calendar;
mod day;
pub mod findings;
pub mod fleet;
pub mod kept;
pub mod ledger;
mod line;
pub mod money;
mod orders;
mod pace;
mod stops;
mod waiting;

pub use again::Turn;
pub use calendar::Ahead;
pub use line::{Due, ServiceLine, When};
pub use orders::{Away, Chain, Order, Supply};
pub use pace::{LoggedRate, Pace, Rate, Rest};
pub use stops::{HOURS_A_DAY, Stop, deeper, reaches};
pub use waiting::{Further, Wait};

use jiff::civil::Date;
use std::collections::BTreeMap;
use thou_facts::SheetFacts;
pub use thou_life::item::LifeBasis;
use thou_sheet::Sheet;
use thou_verdict::Verdict;

/// The plan of one engine.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Plan {
    /// As of this day.
    pub as_of: Option<Date>,
    /// Every service, the most pressing first.
    pub lines: Vec<ServiceLine>,
    /// What makes sense together, the first first.
    pub stops: Vec<Stop>,
    /// What falls due once more within the season, after its stop.
    pub again: Vec<Turn>,
    /// The events ahead, the next first.
    pub events: Vec<Ahead>,
    /// What has to be ordered or sent out, the first first.
    pub orders: Vec<Order>,
    /// What the next big stop waits for.
    pub chain: Option<Chain>,
    /// How fast it is run, by its log and by the intent; none where the plan has no day.
    pub pace: Option<Pace>,
    /// What is on the shelf, by part: the numbers, with what they have run; an empty text for one without a number.
    pub shelf: BTreeMap<String, Vec<String>>,
    /// What the engine's log says beside the services; none without one.
    pub log: Option<ledger::LogFindings>,
    /// What the shop's book keeps over what the sheet says.
    pub kept: kept::Kept,
}

/// The plan from a verdict's services and the sheet's meters. `today` stands in for a sheet that has no day.
#[must_use]
pub fn plan(sheet: &Sheet, verdict: &Verdict, today: Option<Date>) -> Plan {
    let as_of = sheet.as_of.or(today);
    let lines = ledger::lines_by_sheet(sheet, verdict, as_of);
    from_lines(sheet, lines, as_of, as_of.map(|day| Pace::of(sheet, None, day)))
}

/// The plan of an engine whose log is in a book: the sheet has its meters by [`ledger::set`].
#[must_use]
pub fn plan_by_log(sheet: &Sheet, facts: &SheetFacts<'_>, verdict: &Verdict, ledger: &ledger::Ledger<'_>) -> Plan {
    let (lines, findings) = ledger::lines(sheet, facts, verdict, ledger);
    let pace = sheet.as_of.map(|day| ledger::pace(sheet, ledger.history, day));
    Plan { log: Some(findings), ..from_lines(sheet, lines, sheet.as_of, pace) }
}

/// Lays lines out: their days, the stops, what has to be ordered.
fn from_lines(sheet: &Sheet, mut lines: Vec<ServiceLine>, as_of: Option<Date>, pace: Option<Pace>) -> Plan {
    let season = as_of.zip(pace.as_ref()).map(|(day, pace)| calendar::Season::new(sheet, day, pace));
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
    let orders = orders::orders(sheet, &lines, &stops, season.as_ref(), as_of);
    let chain = orders::chain(&lines, &stops, &orders, season.as_ref(), as_of);
    let shelf = orders::shelf(sheet);
    let again = season.as_ref().map(|season| again::turns(&lines, &stops, season)).unwrap_or_default();
    let events = season.map(|s| s.events).unwrap_or_default();
    Plan { as_of, lines, stops, again, shelf, events, orders, chain, pace, log: None, kept: kept::Kept::default() }
}

/// What it means to leave a line until after an event: the indices of one of the plan's lines and of one of its events.
#[must_use]
pub fn waits(sheet: &Sheet, plan: &Plan, line: usize, event: usize) -> Option<Wait> {
    let season = calendar::Season::new(sheet, plan.as_of?, plan.pace.as_ref()?);
    waiting::wait(sheet, plan.lines.get(line)?, line, &season, event)
}

/// How much of its nominal life is gone, most first; uncounted last.
fn rank(line: &ServiceLine) -> f64 {
    match line.used {
        Some(used) if line.service.nominal > 0.0 => -used / line.service.nominal + line.service.nominal * 1e-12,
        _ => f64::INFINITY,
    }
}
