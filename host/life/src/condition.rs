//! Condition: readings against this engine's own fresh ones, sudden steps, and lines that run towards a limit.
//!
//! Readings are compared with those of the same place, the same tester and the same state only. A step asks for a look
//! before any line is drawn; a line wants four readings and a fresh one of its own to start from. Limits are common
//! practice, no source, unless a finding says whose they are; own trend comes first.

mod limits;
mod readings;
mod stand_in;
mod steps;

use crate::entry::{READINGS, What, settled};
use crate::trend::{Trend, theil_sen};
pub use limits::Watch;
pub use readings::{
    ConditionReader, ReadingAlert, ReadingPoint, Series, SeriesKey, SheetReading, SheetReadings, Urgency,
};
use std::collections::BTreeMap;

/// A line that runs towards a limit.
#[derive(Debug, Clone, PartialEq)]
pub struct Outlook {
    /// Which readings.
    pub key: SeriesKey,
    /// The line, against what the engine ran.
    pub trend: Trend,
    /// The limit, SI.
    pub limit: f64,
    /// What is left from now to the limit at the fast, the middle and the slow slope; none: not at that slope.
    pub left: [Option<f64>; 3],
    /// "seat load of valve 3E falls 1.1 lbf each 10 passes (6 readings since 2 May), 226 lbf is the limit".
    pub words: String,
}

/// What the readings say.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Condition {
    /// Steps, the weightiest first.
    pub findings: Vec<ReadingAlert>,
    /// Lines that go somewhere.
    pub outlooks: Vec<Outlook>,
    /// Readings without a fresh one of their own: no line is drawn through them. By reading, how many places.
    pub no_baseline: BTreeMap<String, usize>,
    /// The last reading of each, for those that have a limit.
    pub series: Vec<Series>,
    /// What a last reading was held against where it has no fresh one of its own, or why it was held against nothing: by the
    /// entry that shows it.
    pub against: BTreeMap<String, String>,
}

/// "leak-down cylinder 5 (tester 2, hot)".
#[must_use]
pub fn about(key: &SeriesKey) -> String {
    limits::watch(&key.reading).map_or_else(|| key.reading.clone(), |watch| watch.about_in_full(key))
}

impl<'a> ConditionReader<'a> {
    /// What the readings say.
    #[must_use]
    pub fn read(&self) -> Condition {
        let series = self.series();
        let mut condition = Condition::default();
        for one in &series {
            let Some(watch) = limits::watch(&one.key.reading) else { continue };
            let fresh = stand_in::fresh(self, one, &series);
            if let Some(finding) = steps::find(self, one, watch, &series, fresh.as_ref()) {
                condition.findings.push(finding);
            }
            if let Some((last, words)) = one.points.last().zip(stand_in::words(one, watch, fresh.as_ref())) {
                condition.against.insert(last.entry.clone(), words);
            }
            let fresh = one.points.iter().position(|p| p.baseline);
            match fresh {
                None if watch.trend.is_some() && one.points.len() > 1 => {
                    *condition.no_baseline.entry(one.key.reading.clone()).or_default() += 1;
                }
                Some(first) => condition.outlooks.extend(self.outlook(one, first, watch)),
                None => {}
            }
        }
        let settled = settled(self.log.entries);
        condition.findings.retain(|f| !settled.contains(f.entry.as_str()));
        condition
            .findings
            .sort_by(|a, b| a.weight.cmp(&b.weight).then(b.day.cmp(&a.day)).then_with(|| a.title.cmp(&b.title)));
        condition.outlooks.sort_by(|a, b| a.key.cmp(&b.key));
        condition.series = series;
        condition
    }

    /// All readings by what makes them comparable, cut where a part that they speak of was renewed.
    fn series(&self) -> Vec<Series> {
        let mut all: BTreeMap<SeriesKey, Vec<ReadingPoint>> = BTreeMap::new();
        let mut run = 0.0;
        for (index, (entry, step)) in self.log.entries.iter().zip(&self.log.steps).enumerate() {
            run += step.of(self.meter);
            let What::Read { reading, place, value, gauge, state, baseline } = &entry.what else {
                all.retain(|key, _| !self.services.begins_anew(entry, &key.reading));
                continue;
            };
            let known = READINGS.iter().find(|r| r.name == reading);
            let Some(value) = known.and_then(|r| value.si(r.kind).ok()).filter(|v| v.is_finite()) else { continue };
            let key = SeriesKey {
                reading: reading.clone(),
                place: place.clone(),
                gauge: gauge.clone(),
                state: state.clone(),
            };
            all.entry(key).or_default().push(ReadingPoint {
                index,
                entry: entry.id.clone(),
                day: entry.day,
                event: entry.event.clone(),
                run,
                value,
                baseline: *baseline,
            });
        }
        all.into_iter().map(|(key, points)| Series { key, points }).collect()
    }

    fn outlook(&self, series: &Series, first: usize, watch: &Watch) -> Option<Outlook> {
        let limit_of = watch.trend.as_ref()?;
        let points = series.points.get(first..)?;
        let fresh = points.first()?;
        let line: Vec<[f64; 2]> = points.iter().map(|p| [p.run, p.value]).collect();
        let trend = theil_sen(&line, 0.95)?;
        let rising = limit_of.rising();
        let certain = if rising { trend.low > 0.0 } else { trend.high < 0.0 };
        if !certain {
            return None;
        }
        let limit = limit_of.from(fresh.value);
        let now = self.log.run(self.meter, 0, self.log.steps.len());
        let left = trend.to_limit(now, limit, rising);
        let kind = watch.kind()?;
        let each = self.each();
        let a_step = kind.number_with((trend.slope * each.0).abs(), self.system, 1);
        let words = format!(
            "{} {} {} {} each {} ({} readings since {}, {} then); {} is the limit, {}",
            watch.about(&series.key),
            if rising { "rises" } else { "falls" },
            a_step,
            kind.print(self.system).unit,
            each.1,
            trend.count,
            fresh.day,
            kind.text(fresh.value, self.system),
            kind.text(limit, self.system),
            limit_of.whose(),
        );
        Some(Outlook { key: series.key.clone(), trend, limit, left, words })
    }
}

#[cfg(test)]
#[path = "condition_tests.rs"]
mod tests;
