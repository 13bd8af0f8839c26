//! What it means to run one event more before a service is done: what is left after it, what is at stake, and by the
//! count what it costs.
//!
//! A planning figure. The life is the line's own ([`ServiceLine::life`]), and so is the age at which its reasons call a
//! change cheapest: one distribution and one set of costs stand behind both.

use super::calendar::Season;
use super::day::DAY;
use super::ledger::planned_cost;
use super::line::ServiceLine;
use thou_mechanics::replacement::{ChangeCosts, best_age};
use thou_mechanics::weibull::Weibull;
use thou_sheet::Sheet;

/// Going on through one event.
#[derive(Debug, Clone, PartialEq)]
pub struct Further {
    /// The event that is run first.
    pub event: String,
    /// Its passes if every round is won.
    pub passes: f64,
    /// What waits, the most at stake first.
    pub waits: Vec<Wait>,
}

/// One line that waits.
#[derive(Debug, Clone, PartialEq)]
pub struct Wait {
    /// Index of the plan's line.
    pub line: usize,
    /// Left to low, nominal and high after the event, on the line's meter; negative once past.
    pub left: [f64; 3],
    /// The chance that a part which has come so far lets go in that event.
    pub chance: Option<f64>,
    /// What going on costs more than changing now, in the shop's money; negative where it costs less.
    pub cost: Option<f64>,
}

/// What waits of a stop that comes before an event.
pub(super) fn further(
    sheet: &Sheet,
    lines: &[ServiceLine],
    members: &[usize],
    season: &Season,
    event: usize,
) -> Option<Further> {
    let the = season.events.get(event)?;
    let mut waits: Vec<(usize, Wait)> = Vec::new();
    for index in members {
        let Some(line) = lines.get(*index) else { continue };
        // what only comes along has its nominal after the event still
        let due = wait(sheet, line, *index, season, event).filter(|w| w.left[1] < 0.0);
        waits.extend(due.map(|w| (stake(line), w)));
    }
    waits.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.left[1].total_cmp(&b.1.left[1])).then(a.1.line.cmp(&b.1.line)));
    let waits: Vec<Wait> = waits.into_iter().map(|w| w.1).collect();
    (!waits.is_empty()).then(|| Further { event: the.name.clone(), passes: the.most, waits })
}

/// One line that waits until after an event.
pub(super) fn wait(sheet: &Sheet, line: &ServiceLine, index: usize, season: &Season, event: usize) -> Option<Wait> {
    let (from, until) = (season.run(&line.service.meter, event, false)?, season.run(&line.service.meter, event, true)?);
    let left = line.left()?.map(|l| l - until);
    let more = until - from;
    let chance = line.used.and_then(|used| chance(line, used + from, more));
    let cost = chance.and_then(|chance| cost(sheet, line, more, chance));
    Some(Wait { line: index, left, chance, cost })
}

fn stake(line: &ServiceLine) -> usize {
    ["engine", "money", "power"].iter().position(|l| *l == line.service.service.loses).unwrap_or(3)
}

/// The chance to let go within `more` of one that has come to `age`: 1 - R(age + more)/R(age). Barlow and Proschan,
/// Mathematical Theory of Reliability, 1965, ch. 2.
fn chance(line: &ServiceLine, age: f64, more: f64) -> Option<f64> {
    let life = line.life?;
    let hazard = |t: f64| (t.max(0.0) / life.scale).powf(life.shape);
    Some(-(hazard(age) - hazard(age + more)).exp_m1())
}

/// What it costs more to go on than to change now: the failure's extra cost times its chance, less what the part's
/// further use is worth at the least cost a pass of changing by age. Barlow and Hunter, Operations Research 8 (1960) 90:
/// at the best age the two are equal.
fn cost(sheet: &Sheet, line: &ServiceLine, more: f64, chance: f64) -> Option<f64> {
    let part = sheet.costs.parts.get(&line.service.service.part)?;
    let planned = planned_cost(sheet, &line.service)?;
    let failure = part.failure?;
    // the arithmetic is done in days where the meter is a calendar's, so that no figure gets too small or too large
    let unit = if line.service.meter == "months" { DAY } else { 1.0 };
    let life = line.life?;
    let life = Weibull { scale: life.scale / unit, ..life };
    let worth = best_age(&life, ChangeCosts { planned, failure }).ok()?.map_or(0.0, |(_, rate)| rate * more / unit);
    Some((failure - planned) * chance - worth)
}
