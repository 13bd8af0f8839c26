//! What each reading speaks of, where its line ends, and whose figure that is.

use super::readings::SeriesKey;
use crate::entry::READINGS;
use crate::parts::{
    BORES, CAMSHAFT, ENGINE_OIL, HEAD_GASKET, MAIN_BEARINGS, PISTONS, RINGS, ROCKERS, ROD_BEARINGS, ROD_BOLTS,
    ROLLER_LIFTERS, VALVE_SPRINGS, VALVES,
};
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
    /// The parts that it speaks of: new ones start it afresh.
    pub parts: &'static [&'static str],
    /// The part whose end its line tells.
    pub ends: &'static str,
    /// Where its line ends; none where no line is drawn.
    pub(super) trend: Option<Limit>,
}

const fn w(
    reading: &'static str,
    called: &'static str,
    parts: &'static [&'static str],
    ends: &'static str,
    trend: Option<Limit>,
) -> Watch {
    Watch { reading, called, parts, ends, trend }
}

const SEALING: &[&str] = &[RINGS, PISTONS, VALVES, HEAD_GASKET, BORES];
const OILED: &[&str] = &[ROD_BEARINGS, MAIN_BEARINGS];

/// Every reading that says something, in the order of the alphabet. All limits common practice, no source.
const WATCHES: &[Watch] = &[
    w("blow-by", "blow-by", SEALING, RINGS, Some(Limit::Share(1.30))),
    w("cranking-pressure", "cranking pressure", SEALING, RINGS, Some(Limit::Share(0.90))),
    w("lash", "lash", &[CAMSHAFT, ROLLER_LIFTERS, ROCKERS, VALVES], ROLLER_LIFTERS, Some(Limit::Over(4.0 * THOU))),
    w("leak-down", "leak-down", SEALING, RINGS, Some(Limit::Over(0.04))),
    w("main-clearance", "main clearance", &[MAIN_BEARINGS], MAIN_BEARINGS, Some(Limit::Over(0.5 * THOU))),
    w("oil-aluminium", "aluminium in the oil", &[PISTONS], PISTONS, None),
    w("oil-copper", "copper in the oil", OILED, ROD_BEARINGS, None),
    w("oil-fuel", "fuel in the oil", &[ENGINE_OIL], ENGINE_OIL, None),
    w("oil-iron", "iron in the oil", &[CAMSHAFT, RINGS], CAMSHAFT, None),
    w("oil-lead", "lead in the oil", OILED, ROD_BEARINGS, None),
    w("oil-pressure-hot", "hot oil pressure", OILED, ROD_BEARINGS, Some(Limit::Under(10.0 * PSI))),
    w("oil-silicon", "silicon in the oil", &[], RINGS, None),
    w("power", "power", SEALING, RINGS, Some(Limit::Share(0.98))),
    w("rod-bolt-growth", "rod-bolt growth", &[ROD_BOLTS], ROD_BOLTS, Some(Limit::At(0.5 * THOU))),
    w("rod-clearance", "big-end clearance", &[ROD_BEARINGS], ROD_BEARINGS, Some(Limit::Over(0.5 * THOU))),
    w("seat-load", "seat load", &[VALVE_SPRINGS], VALVE_SPRINGS, Some(Limit::Share(0.90))),
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

    #[test]
    fn every_reading_that_a_log_keeps_is_known_here() {
        let ours: Vec<&str> = WATCHES.iter().map(|w| w.reading).collect();
        let logs: Vec<&str> = READINGS.iter().map(|r| r.name).collect();
        assert_eq!(ours, logs);
        assert!(WATCHES.iter().all(|w| w.kind().is_some()));
    }
}
