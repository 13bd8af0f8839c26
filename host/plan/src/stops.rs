//! Services that are done together: the most pressing opens the engine that far, before one event, and what a careful
//! shop would have apart by then, and is reached anyway, comes along.

use super::calendar::Season;
use super::day::days;
use super::line::{Due, ServiceLine};
use super::waiting::{Further, further};
use jiff::civil::Date;
use std::collections::BTreeMap;
use thou_contract::ServiceInfo;
use thou_sheet::Sheet;

/// Hours of work in a day of the shop. Common practice, no source.
pub const HOURS_A_DAY: f64 = 8.0;

/// Services that are done while the same things are apart.
#[derive(Debug, Clone, PartialEq)]
pub struct Stop {
    /// What comes apart.
    pub opens: String,
    /// The meter that it comes on.
    pub meter: String,
    /// At this reading of the meter, SI or a count.
    pub at: f64,
    /// About this day; with an event, its first day.
    pub date: Option<Date>,
    /// The event that it comes before.
    pub before: Option<String>,
    /// Days free for it from the end of the event before, or from the plan's day.
    pub free: Option<i64>,
    /// Index of the line that sets it.
    pub lead: usize,
    /// Whether something of it is due already.
    pub now: bool,
    /// Indices of the plan's lines, one a service: on the meter that brings it here.
    pub lines: Vec<usize>,
    /// Hours of work in all.
    pub hours: f64,
    /// What it means to run the event first.
    pub further: Option<Further>,
}

impl Stop {
    /// Whole days of work.
    #[must_use]
    pub fn days(&self) -> i64 {
        (self.hours / HOURS_A_DAY - 1e-9).ceil().max(1.0) as i64
    }

    /// Whether it does the service of a line, on whichever of its meters.
    #[must_use]
    pub fn does(&self, lines: &[ServiceLine], line: &ServiceLine) -> bool {
        self.lines.iter().filter_map(|i| lines.get(*i)).any(|l| same(l, line))
    }
}

/// Stops, the first first. `season` is absent where the plan has no day.
pub(super) fn stops(sheet: &Sheet, lines: &[ServiceLine], season: Option<&Season>, as_of: Option<Date>) -> Vec<Stop> {
    // what has days goes together over all meters, the rest by its meter
    let mut groups: BTreeMap<&str, Vec<usize>> = BTreeMap::new();
    // what comes round within an event is done between its rounds, and is no stop
    let within = |l: &ServiceLine| l.due > Due::Now && l.when.as_ref().is_some_and(|w| w[1].within);
    // what is done between rounds starts again on all its meters
    let stays = |l: &ServiceLine| {
        l.used.is_some() && !within(l) && (l.due <= Due::Now || !lines.iter().any(|o| same(o, l) && within(o)))
    };
    for (index, line) in lines.iter().enumerate().filter(|(_, l)| stays(l)) {
        let group = if line.when.is_some() { "" } else { line.service.meter.as_str() };
        groups.entry(group).or_default().push(index);
    }
    let key = |i: &usize, which: usize| lines.get(*i).map_or(f64::INFINITY, |l| key(l, which, season, as_of));
    let mut stops = Vec::new();
    for mut open in groups.into_values() {
        open.sort_by(|a, b| key(a, 1).total_cmp(&key(b, 1)).then(a.cmp(b)));
        while let Some(&first) = open.first() {
            let at = key(&first, 1);
            // everything that falls due then decides how far the engine comes apart
            let opens = open
                .iter()
                .filter(|i| key(i, 1) <= at)
                .filter_map(|i| lines.get(*i))
                .map(|l| l.service.service.opens.as_str())
                .max_by_key(|o| depth(o))
                .unwrap_or("nothing")
                .to_owned();
            let (all, mut later): (Vec<usize>, Vec<usize>) = open.iter().partition(|i| {
                let reached = lines.get(**i).is_some_and(|l| reaches(&opens, &l.service.service.opens));
                key(i, 1) <= at || reached && key(i, 0) <= at
            });
            // done once it is done on all its meters
            let alike = |a: usize, b: usize| lines.get(a).zip(lines.get(b)).is_some_and(|(a, b)| same(a, b));
            later.retain(|i| !all.iter().any(|done| alike(*i, *done)));
            let mut now: Vec<usize> = Vec::new();
            for i in all {
                if !now.iter().any(|done| alike(i, *done)) {
                    now.push(i);
                }
            }
            now.sort_unstable();
            stops.extend(stop(sheet, lines, season, opens, first, now));
            open = later;
        }
    }
    stops.sort_by(|a, b| {
        (a.date.is_none(), a.date)
            .cmp(&(b.date.is_none(), b.date))
            .then(a.at.total_cmp(&b.at))
            .then(a.lead.cmp(&b.lead))
    });
    stops
}

fn stop(
    sheet: &Sheet,
    lines: &[ServiceLine],
    season: Option<&Season>,
    opens: String,
    lead: usize,
    members: Vec<usize>,
) -> Option<Stop> {
    let line = lines.get(lead)?;
    let meter = line.service.meter.clone();
    let nominal = line.when.as_ref().map(|w| &w[1]);
    let before = nominal.and_then(|w| w.before.clone());
    let index = before.as_ref().and_then(|name| season?.index(name));
    let event = index.and_then(|i| season?.events.get(i));
    let of = || members.iter().filter_map(|i| lines.get(*i));
    let now = of().any(|l| l.due <= Due::Now);
    let left = line.left().map_or(0.0, |l| l[1].max(0.0));
    Some(Stop {
        opens,
        at: sheet.meters.get(&meter).copied().unwrap_or(0.0) + left,
        date: event.map(|e| e.first).or(nominal.map(|w| w.date)),
        free: index.and_then(|i| season?.free_before(i)),
        hours: of().map(|l| l.service.service.hours).sum(),
        further: index.and_then(|i| further(sheet, lines, &members, season?, i)),
        meter,
        before,
        lead,
        now,
        lines: members,
    })
}

/// Whether two lines are one service on two meters.
pub(super) fn same(a: &ServiceLine, b: &ServiceLine) -> bool {
    a.service.rule == b.service.rule && a.service.place == b.service.place
}

/// Where a figure of a line stands among the others: by its event where it has one, by its day, or by what is left.
fn key(line: &ServiceLine, which: usize, season: Option<&Season>, as_of: Option<Date>) -> f64 {
    let when = line.when.as_ref().and_then(|w| w.get(which));
    match (when, as_of) {
        (Some(when), Some(as_of)) => {
            let event = when.before.as_ref().and_then(|name| season?.events.get(season?.index(name)?));
            f64::from(days(as_of, event.map_or(when.date, |e| e.first)).max(0))
        }
        _ => line.left().and_then(|l| l.get(which).copied()).map_or(f64::INFINITY, |l| l.max(0.0)),
    }
}

/// How far the engine comes apart, for comparing.
pub(super) fn depth(opens: &str) -> usize {
    ServiceInfo::OPENS.iter().position(|d| *d == opens).unwrap_or(ServiceInfo::OPENS.len())
}

/// The one of two that comes apart further.
#[must_use]
pub fn deeper<'a>(one: &'a str, other: &'a str) -> &'a str {
    if depth(other) > depth(one) { other } else { one }
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
