//! How fast an engine is run: by its own log once that has a season, else as the intent says; and the months in which
//! nothing is run, by the calendar.

use super::day::{days, later};
use jiff::civil::Date;
use jiff::{Span, ToSpan as _};
use thou_contract::Kind;
use thou_life::log::Log;
use thou_sheet::Sheet;

/// A calendar of fewer days from its first event to its last is not taken for a season. Common practice, no source.
const SHORTEST_SEASON: i32 = 90;

/// The longest time, in days, that a season is taken to stand still. Common practice, no source.
const LONGEST_REST: i64 = 182;

/// A gap of fewer days is none.
const SHORTEST_REST: i32 = 30;

/// How fast the meters of an engine go.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Pace {
    /// Passes.
    pub passes: Rate,
    /// Way on the road, m.
    pub miles: Rate,
    /// When nothing is run.
    pub rest: Option<Rest>,
}

/// How fast one meter goes in a year, SI or a count.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Rate {
    /// By the intent.
    pub intent: Option<f64>,
    /// By the log, once it has run a season.
    pub logged: Option<LoggedRate>,
}

/// What was logged in a year, or in a season that is over.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoggedRate {
    /// So much.
    pub run: f64,
    /// From this day on.
    pub first: Date,
    /// To this one.
    pub last: Date,
}

/// The time between two seasons.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rest {
    /// The last day of the season.
    pub after: Date,
    /// The day that the next one is taken to begin on: a year after the first event or outing of this one, and at most
    /// half a year after its last.
    pub until: Date,
}

impl Rate {
    /// What is counted with.
    #[must_use]
    pub fn a_year(&self) -> Option<f64> {
        self.logged.map(|l| l.run).or(self.intent)
    }
}

impl Rest {
    /// The next time between two seasons, or the one that this day is in.
    #[must_use]
    pub fn coming(self, day: Date) -> Self {
        let years = (0..100).find(|n| later(self.until, *n) > day).unwrap_or(0);
        Self { after: later(self.after, years), until: later(self.until, years) }
    }

    /// Days of the season after it, both ends included.
    fn season(self) -> i32 {
        days(self.until, later(self.after, 1)) + 1
    }

    /// The day on which so much has been run that goes at this rate a year, all of it in the season.
    pub(super) fn runs_out(self, from: Date, left: f64, a_year: f64) -> Option<Date> {
        let a_day = a_year / f64::from(self.season());
        let mut left = left.max(0.0);
        for year in 0..100 {
            let (begin, end) = (later(self.until, year), later(self.after, year + 1));
            let first = begin.max(from);
            if first > end {
                continue;
            }
            let there = a_day * f64::from(days(first, end) + 1);
            if left < there {
                // a whole day too early rather than too late
                return first.checked_add(Span::new().days((left / a_day + 1e-6).floor() as i64)).ok();
            }
            left -= there;
        }
        None
    }
}

impl Pace {
    /// By a sheet, and a log where there is one.
    #[must_use]
    pub fn of(sheet: &Sheet, log: Option<&Log<'_>>, as_of: Date) -> Self {
        let stated = |path: &str, kind: &str| {
            let (value, _) = sheet.stated(path)?;
            Kind::by_id(kind)?.parse(value.as_str()?).ok().filter(|v| *v > 0.0)
        };
        let runs: Vec<Run> = log.map(runs).unwrap_or_default();
        let season = season(sheet, &runs);
        let logged = |of: fn(&Run) -> f64| logged(&runs, of, season.map(|s| s.raced), as_of);
        Self {
            passes: Rate { intent: stated("intent.passes-a-season", "passes"), logged: logged(|r| r.passes) },
            miles: Rate { intent: stated("intent.miles-a-year", "distance"), logged: logged(|r| r.miles) },
            rest: season.and_then(|s| s.rest(&runs)),
        }
    }
}

/// What ran on a day.
struct Run {
    day: Date,
    passes: f64,
    miles: f64,
}

fn runs(log: &Log<'_>) -> Vec<Run> {
    let all = log.entries.iter().zip(&log.steps).map(|(entry, step)| Run {
        day: entry.day,
        passes: step.passes,
        miles: step.miles,
    });
    all.filter(|r| r.passes > 0.0 || r.miles > 0.0).collect()
}

/// A season by its calendar.
#[derive(Clone, Copy)]
struct RaceSeason {
    /// First and last day of its events.
    raced: [Date; 2],
    /// The first day of these and of what was run before them in the same year.
    first: Date,
}

fn season(sheet: &Sheet, runs: &[Run]) -> Option<RaceSeason> {
    let last = sheet.calendar.iter().map(|e| e.last).max()?;
    let year_before = later(last, -1);
    let first = sheet.calendar.iter().map(|e| e.first).filter(|d| *d > year_before).min()?;
    let ran = runs.iter().map(|r| r.day).filter(|d| *d > year_before && *d < first).min();
    (days(first, last) >= SHORTEST_SEASON).then_some(RaceSeason { raced: [first, last], first: ran.unwrap_or(first) })
}

impl RaceSeason {
    fn rest(self, runs: &[Run]) -> Option<Rest> {
        let [_, after] = self.raced;
        let half = after.checked_add(Span::new().days(LONGEST_REST)).ok()?;
        // what was run soon after the last event says that the calendar is not all there is; what was run later, that the
        // next season began
        let next = runs.iter().map(|r| r.day).filter(|d| *d > after).min();
        let until = later(self.first, 1).min(half).min(next.unwrap_or(half));
        (days(after, until) > SHORTEST_REST).then_some(Rest { after, until })
    }
}

/// What was run in the year before this day, where the log has one; else in a season that is over and was logged from
/// its first event on.
fn logged(runs: &[Run], of: fn(&Run) -> f64, raced: Option<[Date; 2]>, as_of: Date) -> Option<LoggedRate> {
    let begun = runs.iter().filter(|r| of(r) > 0.0).map(|r| r.day).min()?;
    let since = later(as_of, -1).checked_add(1.day()).ok()?;
    let over = raced.filter(|[first, last]| begun <= *first && *last < as_of);
    let [first, last] = match over {
        _ if begun <= since => [since, as_of],
        // all of it: what was run before the first event was run in this season, too
        Some([_, last]) => [begun, last.max(runs.iter().map(|r| r.day).max()?)],
        None => return None,
    };
    let run: f64 = runs.iter().filter(|r| r.day >= first && r.day <= last).map(of).sum();
    (run > 0.0).then_some(LoggedRate { run, first, last })
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use jiff::civil::date;
    use std::path::Path;
    use thou_life::entry::Entry;
    use thou_life::log::Meters;

    fn sheet(days: &[&str]) -> Sheet {
        let event = |(n, day): (usize, &&str)| format!(r#"{{ "name": "E{n}", "date": "{day}", "rounds": 7 }}"#);
        let events: Vec<String> = days.iter().enumerate().map(event).collect();
        let text = format!(
            r#"{{ "format": "thou-build-1", "engine": {{ "name": "0417", "cylinders": 8, "layout": "v" }},
            "intent": {{ "use": "bracket", "passes-a-season": "200 passes" }}, "calendar": [{}] }}"#,
            events.join(",")
        );
        Sheet::parse("0417.json", &text, Path::new("")).map_err(|f| f.to_string()).unwrap()
    }

    fn ran(days: &[(Date, u32)]) -> Vec<Entry> {
        let line = |(day, passes): &(Date, u32)| {
            let id = format!("x{day}");
            serde_json::json!({ "id": id, "engine": "0417", "day": day.to_string(), "what": "ran", "passes": passes })
        };
        days.iter().map(|run| serde_json::from_value(line(run)).unwrap()).collect()
    }

    fn pace(days: &[&str], runs: &[(Date, u32)], as_of: Date) -> Pace {
        let entries = ran(runs);
        Pace::of(&sheet(days), Some(&Log::new(&entries, &Meters::new())), as_of)
    }

    const SEASON: [&str; 3] = ["2026-03-07", "2026-06-06", "2026-10-17"];

    // 7 March to 17 October has 225 days, both counted: 200 passes are 0.889 a day, 50 of them 56 whole days
    #[test]
    fn nothing_is_run_between_two_seasons() {
        let rest = pace(&SEASON, &[], date(2026, 10, 20)).rest.unwrap();
        assert_eq!(rest, Rest { after: date(2026, 10, 17), until: date(2027, 3, 7) });
        let out = |from: Date, left: f64| rest.runs_out(from, left, 200.0).unwrap();
        assert_eq!(out(date(2026, 10, 20), 50.0), date(2027, 5, 2));
        // 200 of them are the whole season, and 50 are left for the one after it
        assert_eq!(out(date(2026, 10, 20), 250.0), date(2028, 5, 2));
        // in the middle of the next one it goes on from the day
        assert_eq!(out(date(2027, 6, 1), 8.0), date(2027, 6, 10));
        assert_eq!(out(date(2027, 11, 5), 50.0), date(2028, 5, 2));
    }

    #[test]
    fn a_season_that_began_late_rests_half_a_year_and_a_short_calendar_is_none() {
        let until = |days: &[&str]| pace(days, &[], date(2026, 6, 1)).rest.map(|r| r.until);
        // 182 days after 1 November
        assert_eq!(until(&["2026-07-04", "2026-11-01"]), Some(date(2027, 5, 2)));
        assert_eq!(until(&["2026-07-04", "2026-08-15"]), None);
        // races all the year round
        assert_eq!(until(&["2026-01-10", "2026-12-20"]), None);
        // what was run before the first event of the calendar was run in that season
        let runs = [(date(2026, 4, 11), 4)];
        let rest = pace(&["2026-07-04", "2026-11-01"], &runs, date(2026, 11, 5)).rest.unwrap();
        assert_eq!(rest.until, date(2027, 4, 11));
        // and what is run after the last one says that the calendar is not all
        assert_eq!(pace(&SEASON, &[(date(2026, 11, 7), 4)], date(2026, 11, 8)).rest, None);
        // a next season that began sooner than the last one did
        let rest = pace(&SEASON, &[(date(2027, 2, 20), 4)], date(2027, 6, 1)).rest.unwrap();
        assert_eq!(rest, Rest { after: date(2026, 10, 17), until: date(2027, 2, 20) });
        assert_eq!(rest.coming(date(2027, 6, 1)), Rest { after: date(2027, 10, 17), until: date(2028, 2, 20) });
    }

    #[test]
    fn the_rate_is_the_logs_own_once_it_has_run_a_season() {
        let runs = [(date(2026, 3, 7), 40), (date(2026, 6, 6), 33), (date(2026, 10, 17), 30)];
        let passes = |as_of: Date| pace(&SEASON, &runs, as_of).passes;
        let over = passes(date(2026, 10, 20));
        let whole = LoggedRate { run: 103.0, first: date(2026, 3, 7), last: date(2026, 10, 17) };
        assert_eq!((over.logged, over.a_year()), (Some(whole), Some(103.0)));
        let before = passes(date(2026, 9, 1));
        assert_eq!((before.logged, before.a_year()), (None, Some(200.0)));
        // begun after the first event: not a whole season
        assert_eq!(pace(&SEASON, &[(date(2026, 4, 1), 60)], date(2026, 10, 20)).passes.logged, None);
        // a year of it: from 21 October 2026 on, in which nothing was run but the 12 in April
        let more = [(date(2026, 3, 7), 40), (date(2026, 10, 17), 63), (date(2027, 4, 3), 12)];
        let year = pace(&SEASON, &more, date(2027, 10, 20)).passes.logged.unwrap();
        assert_eq!((year.run, year.first, year.last), (12.0, date(2026, 10, 21), date(2027, 10, 20)));
    }
}
