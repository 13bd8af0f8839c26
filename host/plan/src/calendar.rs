//! When a life comes to its low, nominal and high: by the passes of the events ahead while there are any, then by the
//! season's mean; months and dates by the day.

use super::day::{DAY, YEAR, after, by_the_mean, days};
use super::line::{ServiceLine, When};
use super::pace::Pace;
use jiff::civil::Date;
use thou_sheet::Sheet;
use thou_sheet::model::Event;

/// An event that is still to come, with the passes that it can be.
#[derive(Debug, Clone, PartialEq)]
pub struct Ahead {
    /// What the shop calls it.
    pub name: String,
    /// Its first day.
    pub first: Date,
    /// Its last day.
    pub last: Date,
    /// Passes when the first round is lost.
    pub fewest: f64,
    /// Passes when every round is won.
    pub most: f64,
    /// Whether the sheet says how many; else they are the mean of those that it says, or the season's mean.
    pub known: bool,
    /// Where it is.
    pub at: Option<String>,
}

/// The season ahead of an engine.
#[derive(Debug, Clone)]
pub(super) struct Season {
    as_of: Date,
    /// In the order of their days.
    pub(super) events: Vec<Ahead>,
    pace: Pace,
}

impl Season {
    /// From a sheet's calendar and intent. An event is over once its last day is past, and on that day where the meters
    /// bear it: they are taken to be read in the evening.
    pub(super) fn new(sheet: &Sheet, as_of: Date, pace: &Pace) -> Self {
        let read = sheet.stated("meters.date").and_then(|(v, _)| v.as_str()?.parse::<Date>().ok()) == Some(as_of);
        let ahead: Vec<&Event> = sheet.calendar.iter().filter(|e| e.last > as_of || e.last == as_of && !read).collect();
        let said: Vec<&Event> = sheet.calendar.iter().filter(|e| e.known).collect();
        let mean = |of: fn(&Event) -> u32| {
            let sum: u32 = said.iter().map(|e| of(e)).sum();
            (!said.is_empty()).then(|| (f64::from(sum) / said.len() as f64).ceil())
        };
        let (fewest, most) = (mean(Event::fewest), mean(Event::most));
        let events = ahead
            .iter()
            .map(|e| Ahead {
                name: e.name.clone(),
                first: e.first,
                last: e.last,
                fewest: if e.known { f64::from(e.fewest()) } else { fewest.unwrap_or(0.0) },
                most: if e.known { f64::from(e.most()) } else { most.unwrap_or(0.0) },
                known: e.known,
                at: e.at.clone(),
            })
            .collect();
        Self { as_of, events, pace: pace.clone() }
    }

    /// When what is left on a meter is used up. None where nothing says how fast the meter goes.
    pub(super) fn when(&self, meter: &str, left: f64) -> Option<When> {
        let weight: fn(&Ahead, bool) -> f64 = match meter {
            "passes" if self.events.iter().any(|e| e.most > 0.0) => |e, won| if won { e.most } else { e.fewest },
            "events" if !self.events.is_empty() => |_, _| 1.0,
            _ => return self.by_the_day(meter, left),
        };
        let soonest = self.walk(meter, left, |e| weight(e, true))?;
        let late = self.walk(meter, left, |e| weight(e, false)).filter(|late| late.date > soonest.date);
        Some(When { latest: late.map(|l| (l.date, l.before)), ..soonest })
    }

    /// When a life that starts fresh with work on this day, before this event, is used up: the first day of the event that
    /// it has to be done before, else its own day. None where that is after the last event.
    pub(super) fn after_work(
        &self,
        meter: &str,
        life: f64,
        from: Date,
        event: Option<usize>,
    ) -> Option<(Date, Option<usize>)> {
        let last = self.events.last()?.last;
        let next = event.or_else(|| self.events.iter().position(|e| e.first >= from));
        let weight: fn(&Ahead) -> f64 = match meter {
            "passes" if self.events.iter().any(|e| e.most > 0.0) => |e| e.most,
            "events" => |_| 1.0,
            _ => {
                let date = self.runs_out(meter, from, life)?;
                let event = self.events.iter().position(|e| e.last >= date)?;
                let first = self.events.get(event)?.first;
                // work in the middle of an event is done before it
                return (date <= last).then_some((first.max(from), Some(event)));
            }
        };
        let mut run = 0.0;
        for (index, event) in self.events.iter().enumerate().skip(next?) {
            run += weight(event);
            if run > life + 1e-6 {
                return Some((event.first, Some(index)));
            }
        }
        None
    }

    /// Adds up the events until one goes past what is left.
    fn walk(&self, meter: &str, left: f64, weight: impl Fn(&Ahead) -> f64) -> Option<When> {
        let mut run = 0.0;
        let mut through = None;
        for event in &self.events {
            if run + weight(event) > left + 1e-6 || left <= 1e-6 {
                let date = if left <= 1e-6 { self.as_of } else { event.first.max(self.as_of) };
                return Some(When { date, before: Some(event.name.clone()), through, within: false, latest: None });
            }
            run += weight(event);
            through = Some(event.name.clone());
        }
        let from = self.events.last().map_or(self.as_of, |e| e.last.max(self.as_of));
        let date = self.runs_out(meter, from, left - run)?;
        Some(When { date, before: None, through: None, within: false, latest: None })
    }

    /// By the calendar alone, or the mean of a year; tied to the first event that is not over by then.
    fn by_the_day(&self, meter: &str, left: f64) -> Option<When> {
        let date = self.runs_out(meter, self.as_of, left.max(0.0))?;
        let at = self.events.iter().position(|e| e.last >= date);
        let before = at.and_then(|at| self.events.get(at)).map(|e| e.name.clone());
        let through = at.and_then(|at| self.events.get(at.checked_sub(1)?)).map(|e| e.name.clone());
        Some(When { date, before, through, within: false, latest: None })
    }

    /// The day on which so much has gone by, from a day on. Between two seasons no pass is run.
    fn runs_out(&self, meter: &str, from: Date, left: f64) -> Option<Date> {
        let a_year = self.a_year(meter)?;
        match self.pace.rest.filter(|_| meter == "passes" && left > 0.0) {
            Some(rest) => rest.runs_out(from, left, a_year),
            None => after(from, left / a_year),
        }
    }

    /// How much of a meter goes by in a year, SI or a count.
    fn a_year(&self, meter: &str) -> Option<f64> {
        match meter {
            "months" => Some(YEAR * DAY),
            "passes" => self.pace.passes.a_year(),
            "miles" => self.pace.miles.a_year(),
            _ => None,
        }
    }

    /// How much a meter goes on to the end of an event, or to its start, with every round won.
    pub(super) fn run(&self, meter: &str, event: usize, with_it: bool) -> Option<f64> {
        let the = self.events.get(event)?;
        let upto = if with_it { event + 1 } else { event };
        match meter {
            "passes" if self.events.iter().any(|e| e.most > 0.0) => {
                Some(self.events.iter().take(upto).map(|e| e.most).sum())
            }
            "events" => Some(upto as f64),
            _ => {
                let day = if with_it { the.last } else { the.first };
                Some(by_the_mean(self.a_year(meter)?, days(self.as_of, day)))
            }
        }
    }

    /// Days between the end of the event before and an event, or from the plan's day on: neither event's own.
    pub(super) fn free_before(&self, event: usize) -> Option<i64> {
        let the = self.events.get(event)?;
        let before = event.checked_sub(1).and_then(|i| self.events.get(i)).filter(|e| e.last >= self.as_of);
        let free = match before {
            Some(e) => days(e.last, the.first) - 1,
            None => days(self.as_of, the.first),
        };
        Some(i64::from(free.max(0)))
    }

    /// Which event has this name.
    pub(super) fn index(&self, name: &str) -> Option<usize> {
        self.events.iter().position(|e| e.name == name)
    }
}

/// Gives every line its days. What has no meter, or no pace, keeps none.
pub(super) fn date(lines: &mut [ServiceLine], season: &Season) {
    for line in lines {
        let Some([low, nominal, high]) = line.left() else { continue };
        let s = &line.service;
        let of = |left: f64, life: f64| {
            let when = season.when(&s.meter, left)?;
            let event = when.before.as_ref().and_then(|name| season.events.get(season.index(name)?));
            let within = s.meter == "passes" && left > 0.0 && event.is_some_and(|e| life < e.most);
            Some(When { within, ..when })
        };
        let when = of(low, s.low).and_then(|low| Some([low, of(nominal, s.nominal)?, of(high, s.high)?]));
        line.when = when;
        line.dates = line.when.as_ref().map(|w| w.each_ref().map(|w| w.date));
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use jiff::civil::date;
    use std::path::Path;

    fn sheet(meters: &str) -> Sheet {
        let text = format!(
            r#"{{ "format": "thou-build-1",
            "engine": {{ "name": "0417", "cylinders": 8, "layout": "v", "date": "2026-06-25" }},
            "intent": {{ "use": "bracket", "passes-a-season": "200 passes" }},
            "calendar": [
              {{ "name": "E2", "date": "2026-07-18", "time-trials": 2, "rounds": 7 }},
              {{ "name": "E1", "date": "2026-07-04", "last-date": "2026-07-05", "time-trials": 3, "rounds": 7 }},
              {{ "name": "T", "date": "2026-08-01", "kind": "test", "time-trials": 8 }},
              {{ "name": "E3", "date": "2026-08-15", "kind": "match", "time-trials": 2, "rounds": 3 }}
            ] {meters} }}"#
        );
        Sheet::parse("0417.json", &text, Path::new("")).map_err(|f| f.to_string()).unwrap()
    }

    fn season(sheet: &Sheet, as_of: Date) -> Season {
        Season::new(sheet, as_of, &Pace::of(sheet, None, as_of))
    }

    fn told(when: &When) -> (String, Option<&str>, Option<&str>) {
        (when.date.to_string(), when.before.as_deref(), when.through.as_deref())
    }

    // E1 4 to 10, E2 3 to 9, T 8, E3 5: all won 10, 19, 27, 32; first rounds lost 4, 7, 15, 20
    #[test]
    fn passes_are_counted_event_by_event_as_if_every_round_was_won() {
        let season = season(&sheet(""), date(2026, 6, 25));
        let at = |left: f64| season.when("passes", left).unwrap();
        assert_eq!(told(&at(9.0)), ("2026-07-04".to_owned(), Some("E1"), None));
        assert_eq!(told(&at(10.0)), ("2026-07-18".to_owned(), Some("E2"), Some("E1")));
        assert_eq!(told(&at(26.0)), ("2026-08-01".to_owned(), Some("T"), Some("E2")));
        assert_eq!(told(&at(27.0)), ("2026-08-15".to_owned(), Some("E3"), Some("T")));
        // with the first rounds lost 9 are not passed before the test day: 4 + 3 + 8
        assert_eq!(at(9.0).latest, Some((date(2026, 8, 1), Some("T".to_owned()))));
        // nothing left: now, before the next one
        assert_eq!(told(&at(0.0)), ("2026-06-25".to_owned(), Some("E1"), None));
        assert_eq!(told(&at(-3.0)), ("2026-06-25".to_owned(), Some("E1"), None));
    }

    #[test]
    fn after_the_last_event_the_seasons_mean_counts() {
        let season = season(&sheet(""), date(2026, 6, 25));
        // 82 - 32 = 50 passes at 200 a year: 91.3 days after 15 August
        let when = season.when("passes", 82.0).unwrap();
        assert_eq!(told(&when), ("2026-11-14".to_owned(), None, None));
        // with the first rounds lost 62 are left then: 113.2 days
        assert_eq!(when.latest, Some((date(2026, 12, 6), None)));
    }

    #[test]
    fn events_count_one_each_and_months_go_by_the_day() {
        let season = season(&sheet(""), date(2026, 6, 25));
        assert_eq!(told(&season.when("events", 1.0).unwrap()), ("2026-07-18".to_owned(), Some("E2"), Some("E1")));
        assert!(season.when("events", 9.0).is_none(), "nothing says how many events a year has");
        let month = 365.25 * DAY / 12.0;
        // a month is 30.4 days: 25 July; the test day is the next event
        assert_eq!(told(&season.when("months", month).unwrap()), ("2026-07-25".to_owned(), Some("T"), Some("E2")));
        assert_eq!(told(&season.when("months", 6.0 * month).unwrap()), ("2026-12-24".to_owned(), None, None));
        assert!(season.when("hours", 10.0).is_none());
    }

    #[test]
    fn an_event_is_over_when_its_last_day_is_on_the_meters() {
        let names = |s: &Season| s.events.iter().map(|e| e.name.clone()).collect::<Vec<_>>();
        let fresh = sheet("");
        assert_eq!(names(&season(&fresh, date(2026, 7, 5))), ["E1", "E2", "T", "E3"]);
        let read = sheet(r#", "meters": { "date": "2026-07-05", "passes": "6 passes" }"#);
        assert_eq!(names(&season(&read, date(2026, 7, 5))), ["E2", "T", "E3"]);
        assert_eq!(names(&season(&read, date(2026, 8, 16))), Vec::<String>::new());
    }
}
