//! What each reading is called, where its line ends, and whose figure that is. What it says of parts stands with their
//! services.

use super::readings::SeriesKey;
use crate::entry::READINGS;
use thou_contract::Kind;
use thou_contract::factor::{PSI, THOU};

/// Where a line ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Limit {
    /// So much over its own fresh reading, SI.
    Over(f64),
    /// So much under it.
    Under(f64),
    /// That share of it.
    Share(f64),
    /// At that figure, whatever it was.
    At(f64),
}

impl Limit {
    pub(super) fn from(self, fresh: f64) -> f64 {
        match self {
            Self::Over(by) => fresh + by,
            Self::Under(by) => fresh - by,
            Self::Share(share) => fresh * share,
            Self::At(limit) => limit,
        }
    }
    pub(super) fn rising(self) -> bool {
        match self {
            Self::Over(_) | Self::At(_) => true,
            Self::Under(_) => false,
            Self::Share(share) => share > 1.0,
        }
    }
    /// Whose it is.
    pub(super) fn whose(self) -> &'static str {
        "common practice"
    }
}

/// What is known of one reading.
#[derive(Debug)]
pub struct Watch {
    /// Its name.
    pub reading: &'static str,
    /// As a sentence has it.
    pub(super) called: &'static str,
    /// Where its line ends; none where no line is drawn.
    pub(super) trend: Option<Limit>,
}

const fn w(reading: &'static str, called: &'static str, trend: Option<Limit>) -> Watch {
    Watch { reading, called, trend }
}

/// Every reading that says something, in the order of the alphabet. All limits common practice, no source.
const WATCHES: &[Watch] = &[
    w("blow-by", "blow-by", Some(Limit::Share(1.30))),
    w("cranking-pressure", "cranking pressure", Some(Limit::Share(0.90))),
    w("lambda", "lambda", None),
    w("lash", "lash", Some(Limit::Over(4.0 * THOU))),
    w("leak-down", "leak-down", Some(Limit::Over(0.04))),
    w("main-clearance", "main clearance", Some(Limit::Over(0.5 * THOU))),
    w("oil-aluminium", "aluminium in the oil", None),
    w("oil-copper", "copper in the oil", None),
    w("oil-fuel", "fuel in the oil", None),
    w("oil-iron", "iron in the oil", None),
    w("oil-lead", "lead in the oil", None),
    w("oil-pressure-hot", "hot oil pressure", Some(Limit::Under(10.0 * PSI))),
    w("oil-silicon", "silicon in the oil", None),
    w("oil-temperature", "oil temperature", None),
    w("peak-speed", "peak speed", None),
    w("power", "power", Some(Limit::Share(0.98))),
    w("rod-bolt-growth", "rod-bolt growth", Some(Limit::At(0.5 * THOU))),
    w("rod-clearance", "big-end clearance", Some(Limit::Over(0.5 * THOU))),
    w("seat-load", "seat load", Some(Limit::Share(0.90))),
    w("water-temperature", "water temperature", None),
];

/// What is known of a reading.
pub(super) fn watch(reading: &str) -> Option<&'static Watch> {
    WATCHES.iter().find(|w| w.reading == reading)
}

impl Watch {
    /// Its kind of quantity. A lash is printed as what it moved by.
    pub(super) fn kind(&self) -> Option<Kind> {
        let kind = READINGS.iter().find(|r| r.name == self.reading)?.kind;
        Kind::by_id(if kind == "gap" { "clearance" } else { kind })
    }

    /// "leak-down cylinder 5", "seat load valve 3E".
    pub(super) fn about(&self, key: &SeriesKey) -> String {
        let axis = READINGS.iter().find(|r| r.name == self.reading).map_or("", |r| r.axis);
        match key.place.as_deref() {
            Some(place) if axis != "one" => format!("{} {axis} {place}", self.called),
            _ => self.called.to_owned(),
        }
    }

    /// With the tester and the state: "leak-down cylinder 5 (tester 2, hot)".
    pub(super) fn about_in_full(&self, key: &SeriesKey) -> String {
        let with: Vec<&str> = [key.gauge.as_deref(), key.state.as_deref()].into_iter().flatten().collect();
        match with.as_slice() {
            [] => self.about(key),
            with => format!("{} ({})", self.about(key), with.join(", ")),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use thou_contract::logged::LOG_READINGS;

    #[test]
    fn every_reading_that_a_log_keeps_is_known_here() {
        let ours: Vec<&str> = WATCHES.iter().map(|w| w.reading).collect();
        let logs: Vec<&str> = READINGS.iter().map(|r| r.name).collect();
        assert_eq!(ours, logs);
        // and by what a service can say of it
        assert_eq!(logs, LOG_READINGS);
        assert!(WATCHES.iter().all(|w| w.kind().is_some()));
    }
}
