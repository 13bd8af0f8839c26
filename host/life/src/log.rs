//! The log of one engine laid out for counting: what every entry put on the meters, and what it counts for a part.

use crate::duty::{Intent, Outing};
use crate::entry::{Amount, Entry, What};
use crate::meter::Counter;
use std::collections::BTreeMap;
use thou_contract::wear::Stress;

/// Readings of meters by name, SI or a count: passes, pulls, miles (m), hours (s), events.
pub type Meters = BTreeMap<String, f64>;

/// What one entry put on the meters.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct MeterStep {
    /// Passes.
    pub passes: f64,
    /// Pulls on the dyno.
    pub pulls: f64,
    /// Way on the road, m.
    pub miles: f64,
    /// Time run, s.
    pub hours: f64,
    /// One where it was the first outing of an event, or of a day that belongs to none.
    pub events: f64,
    /// How the pass went, where the entry says.
    pub outing: Outing,
}

/// Entries of one engine with what they put on the meters.
#[derive(Debug)]
pub struct Log<'a> {
    /// The entries, in the order of their days and of writing.
    pub entries: &'a [Entry],
    /// One for each of them.
    pub steps: Vec<MeterStep>,
}

/// What a stretch of the log counts for one part on one meter.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Counted {
    /// What counts, in the meter's own measure.
    pub counts: f64,
    /// What the meter ran.
    pub run: f64,
    /// Passes of which something was logged that makes them count for more than they are.
    pub harder: f64,
    /// What those came to.
    pub harder_counts: f64,
    /// The most that one of them counts for.
    pub hardest: f64,
    /// Passes with the adder on.
    pub adder: f64,
    /// What those came to.
    pub adder_counts: f64,
    /// Outings of other kinds that were counted in, in the meter's measure.
    pub others: f64,
    /// Pulls that were not counted, since the sheet does not say enough.
    pub pulls_left_out: f64,
    /// Metres of road that were not counted, for the same reason.
    pub road_left_out: f64,
    /// Passes that were not counted on a meter of the road, for the same reason.
    pub passes_left_out: f64,
    /// Passes that were said to be with the adder on, where the sheet does not say what it adds.
    pub adder_unknown: f64,
}

fn count(amount: Option<&Amount>, kind: &str) -> f64 {
    let value = amount.and_then(|a| a.0.trim().parse::<f64>().ok().or_else(|| a.si(kind).ok()));
    value.filter(|v| v.is_finite() && *v > 0.0).unwrap_or(0.0)
}

/// The kind of quantity of a meter.
#[must_use]
pub fn meter_kind(meter: &str) -> &'static str {
    match meter {
        "passes" => "passes",
        "miles" => "distance",
        "hours" => "time",
        "months" => "span",
        _ => "count",
    }
}

/// A reading of a meter in SI, from its text; nothing where it is none.
#[must_use]
pub fn meter_si(meter: &str, amount: &Amount) -> f64 {
    count(Some(amount), meter_kind(meter))
}

impl<'a> Log<'a> {
    /// Lays out entries that are sorted by day and order of writing. `start` is what the meters had before the first.
    #[must_use]
    pub fn new(entries: &'a [Entry], start: &Meters) -> Self {
        let mut steps = Vec::with_capacity(entries.len());
        let mut counter = Counter::new(start);
        for entry in entries {
            let more = counter.step(entry);
            let of = |meter| more.get(meter).copied().unwrap_or(0.0);
            let mut step = MeterStep {
                passes: of("passes"),
                pulls: of("pulls"),
                miles: of("miles"),
                hours: of("hours"),
                events: of("events"),
                outing: Outing::default(),
            };
            if let What::Ran { peak_speed, elapsed, adder, .. } = &entry.what {
                let of = |a: &Option<Amount>, kind| Some(count(a.as_ref(), kind)).filter(|v| *v > 0.0);
                step.outing =
                    Outing { peak: of(peak_speed, "angular-speed"), elapsed: of(elapsed, "time"), adder: *adder };
            }
            steps.push(step);
        }
        Self { entries, steps }
    }

    /// What a meter ran from an entry on, that one included, up to another, that one not.
    #[must_use]
    pub fn run(&self, meter: &str, from: usize, to: usize) -> f64 {
        let steps = self.steps.get(from..to.min(self.steps.len())).unwrap_or_default();
        steps.iter().map(|s| s.of(meter)).sum()
    }

    /// What a stretch counts for a part that these stresses hurt, on the meters that outings of several kinds share
    /// (passes, miles); the others are only read.
    #[must_use]
    pub fn counted(
        &self,
        meter: &str,
        from: usize,
        to: usize,
        intent: &Intent,
        wears: Option<&[Vec<Stress>]>,
    ) -> Counted {
        let mut all = Counted { hardest: 1.0, ..Counted::default() };
        let mut known: Vec<(Outing, f64)> = Vec::new();
        let pull = wears.and_then(|w| match meter {
            "passes" => intent.pull_counts(w),
            "miles" => intent.pull_in_metres(w),
            _ => None,
        });
        let metre = wears.filter(|_| meter == "passes").and_then(|w| intent.metre_counts(w));
        for step in self.steps.get(from..to.min(self.steps.len())).unwrap_or_default() {
            all.run += step.of(meter);
            let Some(wears) = wears.filter(|_| matches!(meter, "passes" | "miles")) else {
                all.counts += step.of(meter);
                continue;
            };
            match pull {
                Some(each) => all.others += each * step.pulls,
                None => all.pulls_left_out += step.pulls,
            }
            if meter == "miles" {
                all.counts += step.miles;
                match (step.passes > 0.0).then(|| intent.pass_in_metres(wears, step.outing)) {
                    Some(Some(each)) => all.others += each * step.passes,
                    Some(None) => all.passes_left_out += step.passes,
                    None => {}
                }
                continue;
            }
            match metre {
                Some(each) => all.others += each * step.miles,
                None => all.road_left_out += step.miles,
            }
            if step.passes > 0.0 {
                let each = match known.iter().find(|(outing, _)| *outing == step.outing) {
                    Some((_, each)) => *each,
                    None => {
                        let each = intent.pass_counts(wears, step.outing).unwrap_or(1.0);
                        known.push((step.outing, each));
                        each
                    }
                };
                all.counts += each * step.passes;
                if step.outing.adder {
                    all.adder += step.passes;
                    all.adder_counts += each * step.passes;
                    if intent.adder_on.is_none() {
                        all.adder_unknown += step.passes;
                    }
                } else if each > 1.0 + 1e-9 {
                    all.harder += step.passes;
                    all.harder_counts += each * step.passes;
                    all.hardest = all.hardest.max(each);
                }
            }
        }
        all.counts += all.others;
        all
    }

    /// The first entry of the present freshen: after the last `freshened`, or the first of all.
    #[must_use]
    pub fn freshened(&self) -> usize {
        self.entries.iter().rposition(|e| matches!(e.what, What::Freshened)).map_or(0, |n| n + 1)
    }

    /// The last entry that says that a service was done.
    #[must_use]
    pub fn last_did(&self, rule: &str) -> Option<usize> {
        self.entries.iter().rposition(|e| matches!(&e.what, What::Did { service, .. } if service == rule))
    }
}

impl MeterStep {
    /// What it put on one meter.
    #[must_use]
    pub fn of(&self, meter: &str) -> f64 {
        match meter {
            "passes" => self.passes,
            "pulls" => self.pulls,
            "miles" => self.miles,
            "hours" => self.hours,
            "events" => self.events,
            _ => 0.0,
        }
    }
}

#[cfg(test)]
pub(crate) mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing, clippy::panic)]
    use super::*;
    use jiff::civil::{Date, date};
    use thou_contract::slopes::{STEEL, WEAR};
    use thou_contract::wear::Cause;

    fn bolts() -> Vec<Vec<Stress>> {
        vec![vec![Stress::of(Cause::Inertia, STEEL)]]
    }

    pub(crate) fn line(day: Date, json: &str) -> Entry {
        let text = format!(r#"{{"id":"{day}-{}","engine":"0417","day":"{day}",{json}}}"#, json.len());
        serde_json::from_str(&text).unwrap_or_else(|e| panic!("{text}: {e}"))
    }

    #[test]
    fn a_meter_that_is_read_counts_what_nobody_wrote_down() {
        let entries = [
            line(date(2026, 5, 1), r#""event":"E1","what":"ran","passes":4"#),
            line(date(2026, 5, 2), r#""event":"E1","what":"ran","meter":{"passes":"9"}"#),
            line(date(2026, 5, 3), r#""what":"ran","passes":2,"meter":{"passes":"11 passes"}"#),
            line(date(2026, 5, 9), r#""what":"freshened""#),
            line(date(2026, 5, 10), r#""event":"E1","what":"ran","meter":{"passes":"3"}"#),
        ];
        let log = Log::new(&entries, &Meters::new());
        let passes: Vec<f64> = log.steps.iter().map(|s| s.passes).collect();
        assert_eq!(passes, [4.0, 5.0, 2.0, 0.0, 3.0]);
        let events: Vec<f64> = log.steps.iter().map(|s| s.events).collect();
        assert_eq!(events, [1.0, 0.0, 1.0, 0.0, 0.0]);
        assert_eq!(log.freshened(), 4);
        assert_eq!((log.run("passes", 0, 4), log.run("passes", 4, 9)), (11.0, 3.0));
    }

    #[test]
    fn what_the_sheet_cannot_weigh_is_told_and_not_counted() {
        let entries = [
            line(date(2026, 5, 1), r#""what":"ran","passes":4,"pulls":6"#),
            line(date(2026, 5, 2), r#""what":"ran","miles":"20 miles""#),
            line(date(2026, 5, 3), r#""what":"ran","passes":1,"adder":true"#),
        ];
        let log = Log::new(&entries, &Meters::new());
        let all = log.counted("passes", 0, 3, &Intent::default(), Some(&bolts()));
        assert_eq!((all.counts, all.run, all.pulls_left_out), (5.0, 5.0, 6.0));
        assert!((all.road_left_out - 20.0 * 1_609.344).abs() < 1e-6 && (all.adder_unknown - 1.0).abs() < 1e-12);
        let oil = log.counted("passes", 0, 3, &Intent::default(), None);
        assert_eq!((oil.counts, oil.pulls_left_out), (5.0, 0.0));
        let road = log.counted("miles", 0, 3, &Intent::default(), Some(&[vec![Stress::of(Cause::Sliding, WEAR)]]));
        assert_eq!(road.passes_left_out, 5.0);
    }

    #[test]
    fn a_hard_pass_counts_for_more_and_says_so() {
        let entries = [
            line(date(2026, 5, 1), r#""what":"ran","passes":10"#),
            line(date(2026, 5, 2), r#""what":"ran","passes":1,"peak-speed":"7600 rpm""#),
        ];
        let rpm = std::f64::consts::PI / 30.0;
        let intent = Intent { run: Some([9.2, 6_700.0 * rpm]), peak: Some(7_200.0 * rpm), ..Intent::default() };
        let log = Log::new(&entries, &Meters::new());
        let all = log.counted("passes", 0, 2, &intent, Some(&bolts()));
        let hard = (7_600.0_f64 / 7_200.0).powi(18);
        assert!((all.counts - 10.0 - hard).abs() < 1e-9 && (all.harder - 1.0).abs() < 1e-12, "{all:?}");
        assert!((all.hardest - hard).abs() < 1e-9);
    }
}
