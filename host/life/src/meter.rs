//! The meters that an engine is counted on, and how an entry moves them.

use crate::entry::{Amount, Entry, What};
use std::collections::{BTreeMap, BTreeSet};

/// A meter: its name, and the kind of quantity that its readings are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct MeterKind {
    /// Its name in a log, in a sheet and in a rule pack.
    pub name: &'static str,
    /// Its kind of quantity; a `count` and `passes` may be written as a bare number.
    pub kind: &'static str,
}

/// Every meter, in the order of the alphabet. Months go by themselves and are no meter here.
pub const METERS: &[MeterKind] = &[
    MeterKind { name: "events", kind: "count" },
    MeterKind { name: "hours", kind: "time" },
    MeterKind { name: "miles", kind: "distance" },
    MeterKind { name: "passes", kind: "passes" },
    MeterKind { name: "pulls", kind: "count" },
];

/// Why a reading of a meter does not count.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum MeterError {
    /// There is no such meter.
    #[error("there is no meter \"{0}\": the meters are events, hours, miles, passes, pulls")]
    Unknown(String),
    /// Its text is no such quantity.
    #[error("{meter}: {why}")]
    Quantity {
        /// The meter.
        meter: String,
        /// What is wrong with it.
        why: String,
    },
    /// Less than nothing, or no number.
    #[error("{meter} is {value}: write a number that is not less than nothing")]
    Negative {
        /// The meter.
        meter: String,
        /// As it was written.
        value: String,
    },
}

/// A meter's reading: SI (m, s) or a count.
///
/// # Errors
/// [`MeterError`], with what to write instead.
pub fn reading(meter: &str, amount: &Amount) -> Result<f64, MeterError> {
    let known = METERS.iter().find(|m| m.name == meter).ok_or_else(|| MeterError::Unknown(meter.to_owned()))?;
    let bare = matches!(known.kind, "count" | "passes").then(|| amount.0.trim().parse::<f64>().ok()).flatten();
    let value = match bare {
        Some(value) => value,
        None => amount
            .si(known.kind)
            .map_err(|why| MeterError::Quantity { meter: meter.to_owned(), why: why.to_string() })?,
    };
    if value.is_finite() && value >= 0.0 {
        Ok(value)
    } else {
        Err(MeterError::Negative { meter: meter.to_owned(), value: amount.0.clone() })
    }
}

/// What an entry counts on each meter, SI or a count, without what a meter's own reading adds.
///
/// # Errors
/// [`MeterError`] where a count is no count.
pub fn counted(what: &What) -> Result<BTreeMap<&'static str, f64>, MeterError> {
    let mut out = BTreeMap::new();
    let What::Ran { passes, pulls, miles, hours, .. } = what else { return Ok(out) };
    for (name, number) in [("passes", passes), ("pulls", pulls)] {
        if let Some(number) = number {
            if !number.is_finite() || *number < 0.0 {
                return Err(MeterError::Negative { meter: name.to_owned(), value: number.to_string() });
            }
            out.insert(name, *number);
        }
    }
    for (name, amount) in [("miles", miles), ("hours", hours)] {
        if let Some(amount) = amount {
            out.insert(name, reading(name, amount)?);
        }
    }
    Ok(out)
}

/// One meter of an engine as it is counted: SI or a count.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Count {
    /// All that it ran.
    pub total: f64,
    /// The total at which the meter itself showed nothing.
    pub zero: f64,
    /// The total when the meter itself was read last.
    pub read_at: f64,
    /// The total when the engine was freshened last.
    pub freshened: f64,
}

/// Whether two names are of one event.
#[must_use]
pub fn same_event(a: &str, b: &str) -> bool {
    thou_text::same_name(a) == thou_text::same_name(b)
}

/// The event that an entry counts for, as names are compared; a day stands for an event without a name.
#[must_use]
pub fn event_of(entry: &Entry) -> String {
    entry.event.as_deref().map_or_else(|| entry.day.to_string(), thou_text::same_name)
}

/// Counts an engine's entries, one after the other.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Counter {
    /// Its meters.
    pub meters: BTreeMap<String, Count>,
    /// The events that it ran at, each in its own year; a day stands for an event without a name.
    pub events: BTreeSet<(i16, String)>,
}

impl Counter {
    /// Before the first entry, at what the engine had run by then: SI or a count.
    #[must_use]
    pub fn new(start: &BTreeMap<String, f64>) -> Self {
        let meters = start.iter().map(|(name, total)| (name.clone(), Count { total: *total, ..Count::default() }));
        Self { meters: meters.collect(), events: BTreeSet::new() }
    }

    /// All that ran so far, by meter.
    #[must_use]
    pub fn totals(&self) -> BTreeMap<String, f64> {
        self.meters.iter().map(|(name, count)| (name.clone(), count.total)).collect()
    }

    /// What a meter itself would show now.
    #[must_use]
    pub fn shows(&self, name: &str) -> f64 {
        self.meters.get(name).map_or(0.0, |count| count.total - count.zero)
    }

    /// Counts an entry, and says what it put on the meters. What cannot be read counts for nothing.
    pub fn step(&mut self, entry: &Entry) -> BTreeMap<&'static str, f64> {
        let mut more: BTreeMap<&'static str, f64> = BTreeMap::new();
        match &entry.what {
            What::Ran { meter, meter_was_reset, .. } => {
                more = counted(&entry.what).unwrap_or_default();
                for (name, run) in &more {
                    self.meters.entry((*name).to_owned()).or_default().total += run;
                }
                for (name, amount) in meter {
                    let known = METERS.iter().find(|m| m.name == name).map(|m| m.name);
                    let (Some(known), Ok(shown)) = (known, reading(name, amount)) else { continue };
                    let count = self.meters.entry(name.clone()).or_default();
                    if *meter_was_reset {
                        count.zero = count.read_at.max(count.total - shown);
                    }
                    // the meter counts what nobody wrote down; one that shows less than the count is not believed
                    let ahead = (count.zero + shown - count.total).max(0.0);
                    count.total += ahead;
                    count.read_at = count.total;
                    *more.entry(known).or_default() += ahead;
                }
                let ran = ["passes", "miles"].iter().any(|name| more.get(name).is_some_and(|run| *run > 0.0));
                if ran && self.events.insert((entry.day.year(), event_of(entry))) {
                    self.meters.entry("events".to_owned()).or_default().total += 1.0;
                    more.insert("events", 1.0);
                }
            }
            // every meter counts from here, and is read from here
            What::Freshened => self.meters.values_mut().for_each(|count| {
                (count.freshened, count.zero, count.read_at) = (count.total, count.total, count.total);
            }),
            _ => {}
        }
        more
    }
}

#[cfg(test)]
#[allow(clippy::unwrap_used)]
mod tests {
    use super::*;

    #[test]
    fn a_meter_takes_a_bare_count_and_a_quantity_with_its_unit() {
        let read = |meter, text: &str| reading(meter, &Amount(text.to_owned())).map_err(|e| e.to_string());
        assert_eq!(read("passes", "118"), Ok(118.0));
        assert_eq!(read("passes", "118 passes"), Ok(118.0));
        assert_eq!(read("hours", "2 h"), Ok(7_200.0));
        assert_eq!(read("miles", "10 km"), Ok(10_000.0));
        assert_eq!(
            read("miles", "10").unwrap_err(),
            "miles: \"10\" has no unit: this is a distance, write it like \"1 miles\""
        );
        assert_eq!(
            read("laps", "10").unwrap_err(),
            "there is no meter \"laps\": the meters are events, hours, miles, passes, pulls"
        );
        assert_eq!(read("pulls", "-1").unwrap_err(), "pulls is -1: write a number that is not less than nothing");
    }
}
