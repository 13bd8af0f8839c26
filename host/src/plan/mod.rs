//! The plan: services against what the engine has run, merged into stops by what comes apart.

use crate::sheet::Sheet;
use crate::sheet::model::Serviced;
use crate::verdict::{ServiceItem, Verdict};
use jiff::civil::Date;
use jiff::{Span, Unit};
use std::collections::BTreeMap;

/// Seconds of a month of the mean year.
const MONTH: f64 = 365.25 * 86_400.0 / 12.0;

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

/// What a life rests on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub enum Basis {
    /// The pack's own range.
    #[default]
    Pack,
    /// The shop's own parts, that failed and that did not.
    Learned,
    /// How its readings go.
    Condition,
    /// Something happened that no count covers.
    Event,
}

impl Basis {
    /// The word in a file.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Pack => "pack",
            Self::Learned => "learned",
            Self::Condition => "condition",
            Self::Event => "event",
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
    /// Used on its meter since it was last done, SI or a count.
    pub used: Option<f64>,
    /// How near it is.
    pub due: Due,
    /// About when low, nominal and high come, at the use that the intent states.
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

/// Services that are done while the same things are apart.
#[derive(Debug, Clone, PartialEq)]
pub struct Stop {
    /// What comes apart.
    pub opens: String,
    /// The meter that it comes on.
    pub meter: String,
    /// At this reading of the meter, SI or a count.
    pub at: f64,
    /// About this day.
    pub date: Option<Date>,
    /// Indices of the plan's lines.
    pub lines: Vec<usize>,
    /// Hours of work in all.
    pub hours: f64,
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
}

/// The plan from a verdict's services and the sheet's meters. `today` stands in for a sheet that has no day.
#[must_use]
pub fn plan(sheet: &Sheet, verdict: &Verdict, today: Option<Date>) -> Plan {
    let as_of = sheet.as_of.or(today);
    let mut lines: Vec<Line> = verdict.services.iter().map(|s| line(sheet, s, as_of)).collect();
    lines.sort_by(|a, b| {
        rank(a)
            .total_cmp(&rank(b))
            .then_with(|| a.service.rule.cmp(&b.service.rule))
            .then_with(|| a.service.meter.cmp(&b.service.meter))
    });
    let stops = stops(sheet, &lines);
    Plan { as_of, lines, stops }
}

/// How much of its nominal life is gone, most first; uncounted last.
fn rank(line: &Line) -> f64 {
    match line.used {
        Some(used) if line.service.nominal > 0.0 => -used / line.service.nominal + line.service.nominal * 1e-12,
        _ => f64::INFINITY,
    }
}

fn line(sheet: &Sheet, service: &ServiceItem, as_of: Option<Date>) -> Line {
    let done = last_done(sheet, &service.rule);
    let used = used(sheet, service, done, as_of);
    let due = match used {
        None => Due::Uncounted,
        Some(used) if used >= service.high => Due::Past,
        Some(used) if used >= service.nominal => Due::Now,
        Some(used) if used >= service.low => Due::Soon,
        Some(_) => Due::Later,
    };
    let mut line = Line {
        service: service.clone(),
        pack: [service.low, service.nominal, service.high],
        basis: Basis::Pack,
        why: Vec::new(),
        serial: None,
        used,
        due,
        dates: None,
    };
    line.dates = dates(sheet, &line, as_of);
    line
}

/// The last time that a service was done, or another that settles it.
fn last_done<'a>(sheet: &'a Sheet, rule: &str) -> Option<&'a Serviced> {
    sheet.serviced.iter().filter(|s| s.rule == rule).max_by_key(|s| s.date)
}

/// What the meter has run since, with what a used part brought along.
fn used(sheet: &Sheet, service: &ServiceItem, done: Option<&Serviced>, as_of: Option<Date>) -> Option<f64> {
    if service.meter == "months" {
        let engine = sheet.stated("engine.date").and_then(|(v, _)| v.as_str()?.parse::<Date>().ok());
        let from = done.and_then(|d| d.date).or(engine)?;
        let days = from.until((Unit::Day, as_of?)).ok()?.get_days();
        return Some(f64::from(days) * 86_400.0);
    }
    let fresh = sheet.meters.is_empty();
    let run = sheet.meters.get(&service.meter).copied().or(fresh.then_some(0.0))?;
    match done {
        Some(done) => Some(run - done.at.get(&service.meter).copied().unwrap_or(0.0)),
        None => Some(run + brought(sheet, service)),
    }
}

/// The use that a part came with: its age goes where it goes.
fn brought(sheet: &Sheet, service: &ServiceItem) -> f64 {
    let path = format!("{}.used.{}", service.service.part, service.meter);
    if sheet.state(&service.service.part) == "new" {
        return 0.0;
    }
    let Some((value, _)) = sheet.stated(&path) else { return 0.0 };
    let kind = match service.meter.as_str() {
        "miles" => "distance",
        "hours" => "time",
        "passes" => "passes",
        _ => "count",
    };
    let parse = |text: &str| thou_contract::Kind::by_id(kind)?.parse(text).ok();
    value.as_f64().or_else(|| parse(value.as_str()?)).unwrap_or(0.0)
}

/// When low, nominal and high come, at the passes a season or the miles a year that the intent states.
fn dates(sheet: &Sheet, line: &Line, as_of: Option<Date>) -> Option<[Date; 3]> {
    let [low, nominal, high] = line.left()?;
    let a_year = a_year(sheet, &line.service.meter)?;
    let from = as_of?;
    let day = |left: f64| {
        let days = (left.max(0.0) / a_year * 365.25).min(36_500.0);
        from.checked_add(Span::new().days(days.floor() as i64)).ok()
    };
    Some([day(low)?, day(nominal)?, day(high)?])
}

/// How much of a meter goes by in a year.
fn a_year(sheet: &Sheet, meter: &str) -> Option<f64> {
    let stated = |path: &str, kind: &str| {
        let (value, _) = sheet.stated(path)?;
        thou_contract::Kind::by_id(kind)?.parse(value.as_str()?).ok().filter(|v| *v > 0.0)
    };
    match meter {
        "months" => Some(12.0 * MONTH),
        "passes" => stated("intent.passes-a-season", "passes"),
        "miles" => stated("intent.miles-a-year", "distance"),
        _ => None,
    }
}

/// Merges services: the most pressing opens the engine that far, and what a careful shop would have apart by then, and
/// is reached anyway, comes along.
fn stops(sheet: &Sheet, lines: &[Line]) -> Vec<Stop> {
    let mut by_meter: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    for (index, line) in lines.iter().enumerate() {
        if line.used.is_some() {
            by_meter.entry(&line.service.meter).or_default().push(index);
        }
    }
    let mut stops = Vec::new();
    for (meter, mut open) in by_meter {
        let left = |i: &usize, which: usize| {
            lines.get(*i).and_then(Line::left).and_then(|l| l.get(which).copied()).unwrap_or(f64::INFINITY)
        };
        open.sort_by(|a, b| left(a, 1).total_cmp(&left(b, 1)));
        while let Some(&first) = open.first() {
            let at = left(&first, 1).max(0.0);
            // everything that falls due then decides how far the engine comes apart
            let opens = open
                .iter()
                .filter(|i| left(i, 1).max(0.0) <= at)
                .filter_map(|i| lines.get(*i))
                .map(|l| l.service.service.opens.as_str())
                .max_by_key(|o| depth(o))
                .unwrap_or("nothing")
                .to_owned();
            let (mut now, later): (Vec<usize>, Vec<usize>) = open.iter().partition(|i| {
                let reached = lines.get(**i).is_some_and(|l| reaches(&opens, &l.service.service.opens));
                left(i, 1).max(0.0) <= at || reached && left(i, 0) <= at
            });
            now.sort_unstable();
            let hours = now.iter().filter_map(|i| lines.get(*i)).map(|l| l.service.service.hours).sum();
            let run = sheet.meters.get(meter).copied().unwrap_or(0.0);
            let date = lines.get(first).and_then(|l| l.dates).and_then(|d| d.get(1).copied());
            stops.push(Stop { opens, meter: meter.to_owned(), at: run + at, date, lines: now, hours });
            open = later;
        }
    }
    stops.sort_by(|a, b| (a.date.is_none(), a.date).cmp(&(b.date.is_none(), b.date)).then(a.at.total_cmp(&b.at)));
    stops
}

/// What comes apart, from least to most.
const DEPTH: [&str; 8] = ["nothing", "plugs", "valve-covers", "valvetrain", "intake", "pan", "heads", "engine-out"];

fn depth(opens: &str) -> usize {
    DEPTH.iter().position(|d| *d == opens).unwrap_or(DEPTH.len())
}

/// Whether opening this far reaches that too.
#[must_use]
pub fn reaches(opens: &str, wanted: &str) -> bool {
    match opens {
        _ if opens == wanted || wanted == "nothing" => true,
        "engine-out" => true,
        "heads" => matches!(wanted, "plugs" | "valve-covers" | "valvetrain" | "intake"),
        "valvetrain" => matches!(wanted, "plugs" | "valve-covers"),
        "intake" | "valve-covers" => wanted == "plugs",
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::reaches;

    #[test]
    fn taking_the_heads_off_reaches_the_springs_but_not_the_bearings() {
        assert!(reaches("heads", "valvetrain") && reaches("engine-out", "pan") && reaches("plugs", "nothing"));
        assert!(!reaches("heads", "pan") && !reaches("pan", "valve-covers") && !reaches("plugs", "valve-covers"));
    }
}
