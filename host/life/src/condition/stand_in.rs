//! What the last reading of a place is held against: its own fresh one, else one of the same place that was read with
//! another tester or in another state, else what the sheet has of the engine as it was handed over.

use super::limits::Watch;
use super::readings::{ConditionReader, ReadingPoint, Series, SeriesKey};
use crate::entry::Amount;

/// From this share of the working speed on, a reading is one at working speed. Common practice, no source.
const WORKING: f64 = 0.9;

/// What a reading is held against.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Fresh {
    /// The reading; none where nothing can be compared.
    pub(super) point: Option<ReadingPoint>,
    /// How it differs from the reading that is held against it, where it does: "no gauge named, compared all the same".
    pub(super) all_the_same: Option<String>,
    /// Why nothing is compared.
    pub(super) why_not: Option<String>,
}

/// The fresh reading that a series is held against; none where its last reading is itself marked as the fresh one.
pub(super) fn fresh(reader: &ConditionReader<'_>, series: &Series, all: &[Series]) -> Option<Fresh> {
    let last = series.points.last().filter(|p| !p.baseline)?;
    let own = |s: &Series| s.points.iter().find(|p| p.baseline && p.index < last.index).cloned();
    if let Some(point) = own(series) {
        return Some(Fresh { point: Some(point), ..Fresh::default() });
    }
    let key = &series.key;
    let same_place = |s: &&Series| s.key.reading == key.reading && s.key.place == key.place && s.key != *key;
    let others = all.iter().filter(same_place).filter_map(|s| Some((&s.key, own(s)?)));
    if let Some((other, point)) = others.max_by_key(|(_, p)| p.index) {
        return Some(match differs(key, other) {
            Differs::NotComparable(why) => Fresh { why_not: Some(why), ..Fresh::default() },
            Differs::AllTheSame(how) => Fresh { point: Some(point), all_the_same: Some(how), why_not: None },
        });
    }
    Some(of_sheet(reader, series).unwrap_or_default())
}

/// How two readings of one place differ.
enum Differs {
    AllTheSame(String),
    NotComparable(String),
}

fn differs(key: &SeriesKey, other: &SeriesKey) -> Differs {
    let word = |state: &Option<String>| {
        state.as_deref().map(|s| s.split(',').next().unwrap_or(s).trim().to_owned()).unwrap_or_default()
    };
    let (state, then) = (word(&key.state), word(&other.state));
    if state != then && !state.is_empty() && !then.is_empty() {
        return Differs::NotComparable(format!("read {state}, and the fresh one is read {then}: not compared"));
    }
    match (key.gauge.as_deref(), other.gauge.as_deref()) {
        (None, Some(other)) => Differs::AllTheSame(format!("no gauge named, compared with {other} all the same")),
        (Some(gauge), Some(other)) if gauge != other => Differs::NotComparable(format!(
            "read with {gauge}, fresh with {other}: not compared, read it with {other} too"
        )),
        _ => Differs::AllTheSame("its state is not the fresh one's, compared all the same".to_owned()),
    }
}

/// The sheet's, where nothing that it was read of has been renewed since.
fn of_sheet(reader: &ConditionReader<'_>, series: &Series) -> Option<Fresh> {
    let (key, last) = (&series.key, series.points.last()?);
    let there = reader.sheet.get(&(key.reading.clone(), key.place.clone()))?;
    let why_not = |why: String| Some(Fresh { why_not: Some(why), ..Fresh::default() });
    let before = reader.log.entries.get(..last.index).unwrap_or_default();
    if before.iter().any(|e| reader.services.begins_anew(e, &key.reading)) {
        return why_not(format!("{} is of a part that was renewed since: not compared", there.called));
    }
    if key.state.as_deref().is_some_and(|s| s.starts_with("cold")) {
        return why_not(format!("read cold: not compared with {}", there.called));
    }
    let said = key.state.as_deref().and_then(|s| s.split_once(',')).map(|(_, speed)| speed.trim());
    let speed = said.and_then(|s| Amount(s.to_owned()).si("angular-speed").ok());
    if speed.zip(there.speed).is_some_and(|(speed, at)| speed < WORKING * at) {
        let said = said.unwrap_or_default();
        return why_not(format!("read at {said}, under its working speed: not compared with {}", there.called));
    }
    let gauge = match (&key.gauge, &there.gauge) {
        (Some(a), Some(b)) if a == b => None,
        (None, Some(_)) => Some("no gauge named, compared all the same".to_owned()),
        (Some(_), Some(b)) => Some(format!("read there with {b}, compared all the same")),
        (_, None) => None,
    };
    let point = ReadingPoint {
        index: usize::MAX,
        entry: String::new(),
        day: last.day,
        event: Some(there.called.clone()),
        run: 0.0,
        value: there.value,
        baseline: false,
    };
    Some(Fresh { point: Some(point), all_the_same: gauge, why_not: None })
}

/// What the last reading of a series was held against, in a sentence for whoever has just written it down; nothing where
/// that was its own fresh one, by the same tester.
pub(super) fn words(series: &Series, watch: &Watch, fresh: Option<&Fresh>) -> Option<String> {
    // a reading without a line and without a step of its own is judged by the sheet's windows alone
    let (fresh, _) = fresh.zip(watch.trend)?;
    if series.points.len() > 1 && fresh.point.is_none() && fresh.why_not.is_none() {
        return None;
    }
    Some(match (&fresh.point, &fresh.all_the_same, &fresh.why_not) {
        (Some(_), None, _) if series.points.iter().any(|p| p.baseline) => return None,
        (Some(point), how, _) => {
            let of = point.event.clone().filter(|_| point.index == usize::MAX);
            let of = of.unwrap_or_else(|| format!("the fresh one of {}", point.day));
            let how = how.as_ref().map(|h| format!(": {h}")).unwrap_or_default();
            format!("held against {of}{how}")
        }
        (None, _, Some(why)) => why.clone(),
        (None, _, None) => {
            "compared with nothing: no fresh one in the log, none on the sheet. Mark one with --baseline".to_owned()
        }
    })
}

#[cfg(test)]
#[path = "stand_in_tests.rs"]
mod tests;
