//! The later turns of a service within the season: what is done at a stop starts again there, and may fall due once more
//! before the last event.

use super::calendar::Season;
use super::line::ServiceLine;
use super::stops::{Stop, same};
use jiff::civil::Date;
use std::collections::BTreeSet;

/// Turns that are followed in one season. A service that comes round oftener is no stop.
const MOST_TURNS: u32 = 60;

/// A service that falls due again.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Turn {
    /// Index of the plan's line: on the meter that brings it.
    pub line: usize,
    /// Which turn, counted from this plan's day; its stop is the first.
    pub nth: u32,
    /// The first day of the event that it comes before, else its own.
    pub date: Date,
    /// The event that it comes before.
    pub before: Option<String>,
}

/// Every turn after the first, each at its nominal, in the order of days.
pub(super) fn turns(lines: &[ServiceLine], stops: &[Stop], season: &Season) -> Vec<Turn> {
    let mut out = Vec::new();
    for stop in stops {
        let Some(date) = stop.date else { continue };
        let from = Start { date, event: stop.before.as_ref().and_then(|name| season.index(name)) };
        let mut done: Vec<&ServiceLine> = Vec::new();
        for line in stop.lines.iter().filter_map(|i| lines.get(*i)) {
            if done.iter().any(|d| same(d, line)) {
                continue;
            }
            done.push(line);
            out.extend(of(lines, line, from, season));
        }
    }
    out.sort_by(|a, b| a.date.cmp(&b.date).then(a.line.cmp(&b.line)).then(a.nth.cmp(&b.nth)));
    out
}

/// From where a count starts: the day of the work, and the event after it.
#[derive(Debug, Clone, Copy)]
struct Start {
    date: Date,
    event: Option<usize>,
}

fn of(lines: &[ServiceLine], service: &ServiceLine, mut from: Start, season: &Season) -> Vec<Turn> {
    let mut out = Vec::new();
    let meters: BTreeSet<usize> =
        lines.iter().enumerate().filter(|(_, l)| same(l, service) && l.used.is_some()).map(|(i, _)| i).collect();
    for nth in 2..=MOST_TURNS {
        let next = meters.iter().filter_map(|i| {
            let s = &lines.get(*i)?.service;
            let (date, event) = season.after_work(&s.meter, s.nominal, from.date, from.event)?;
            Some((date, *i, event))
        });
        let Some((date, line, event)) = next.min() else { break };
        // what comes round within an event is done between its rounds
        if event == from.event && event.is_some() || date <= from.date {
            break;
        }
        let before = event.and_then(|i| season.events.get(i)).map(|e| e.name.clone());
        out.push(Turn { line, nth, date, before });
        from = Start { date, event };
    }
    out
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::super::pace::Pace;
    use super::*;
    use jiff::civil::date;
    use std::path::Path;
    use thou_sheet::Sheet;

    // E1 on 4 and 5 July 10 passes, E2 on 18 July 9, T on 1 August 8, E3 on 15 August 5
    fn season() -> Season {
        let text = r#"{ "format": "thou-build-1",
            "engine": { "name": "0417", "cylinders": 8, "layout": "v", "date": "2026-06-25" },
            "intent": { "use": "bracket", "passes-a-season": "200 passes" },
            "calendar": [
              { "name": "E1", "date": "2026-07-04", "last-date": "2026-07-05", "time-trials": 3, "rounds": 7 },
              { "name": "E2", "date": "2026-07-18", "time-trials": 2, "rounds": 7 },
              { "name": "T", "date": "2026-08-01", "kind": "test", "time-trials": 8 },
              { "name": "E3", "date": "2026-08-15", "kind": "match", "time-trials": 2, "rounds": 3 }
            ] }"#;
        let sheet = Sheet::parse("0417.json", text, Path::new("")).map_err(|f| f.to_string()).unwrap();
        let day = date(2026, 6, 25);
        Season::new(&sheet, day, &Pace::of(&sheet, None, day))
    }

    #[test]
    fn what_is_done_at_a_stop_counts_from_the_event_after_it() {
        let season = season();
        let next = |meter: &str, life: f64, from: Date, event| season.after_work(meter, life, from, event);
        // fresh before E1: 10 and 9 are 19, T would make 27
        assert_eq!(next("passes", 20.0, date(2026, 7, 4), Some(0)), Some((date(2026, 8, 1), Some(2))));
        // fresh before E2: 9 and 8 are 17, E3 would make 22; and 22 last to the end
        assert_eq!(next("passes", 20.0, date(2026, 7, 18), Some(1)), Some((date(2026, 8, 15), Some(3))));
        assert_eq!(next("passes", 22.0, date(2026, 7, 18), Some(1)), None);
        assert_eq!(next("events", 2.0, date(2026, 7, 18), Some(1)), Some((date(2026, 8, 15), Some(3))));
        // a month of 30.4375 days after 4 July is 3 August, and E3 is the event after it
        let month = 365.25 * 86_400.0 / 12.0;
        assert_eq!(next("months", month, date(2026, 7, 4), Some(0)), Some((date(2026, 8, 15), Some(3))));
        assert_eq!(next("months", 2.0 * month, date(2026, 7, 4), Some(0)), None);
    }
}
