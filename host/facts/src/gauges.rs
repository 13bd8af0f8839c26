//! What a gauge is good for, and which one is usual for a reading.
//!
//! Figures: standard uncertainty (k = 1) that a careful hand gets; common practice, no source. A shop that states its
//! own figures, or its gauges' certificates, beats them.

use thou_sheet::model::{Gauge, ReadingSet, Sheet};

const THOU: f64 = 2.54e-5;
const LBF: f64 = 4.448_221_615_260_5;
const INHG: f64 = 3_386.389;

/// How well one reading by a gauge is known.
#[derive(Debug, Clone, Copy, PartialEq)]
enum GaugeSpread {
    /// SI.
    Of(f64),
    /// A share of what is read.
    Share(f64),
}

/// Gauge, its smallest step in SI, one reading's uncertainty.
const USUAL: &[(&str, f64, GaugeSpread)] = &[
    ("outside-micrometer", 0.1 * THOU, GaugeSpread::Of(0.05 * THOU)),
    ("bore-gauge", 0.1 * THOU, GaugeSpread::Of(0.05 * THOU)),
    ("air-gauge", 0.01 * THOU, GaugeSpread::Of(0.02 * THOU)),
    ("small-hole-gauge", 0.1 * THOU, GaugeSpread::Of(0.15 * THOU)),
    ("guide-gauge", 0.1 * THOU, GaugeSpread::Of(0.07 * THOU)),
    ("plastic-strip", 0.25 * THOU, GaugeSpread::Of(0.3 * THOU)),
    ("depth-micrometer", 0.5 * THOU, GaugeSpread::Of(0.3 * THOU)),
    ("bridge", 0.5 * THOU, GaugeSpread::Of(0.3 * THOU)),
    ("dial-indicator", 0.1 * THOU, GaugeSpread::Of(0.1 * THOU)),
    ("feeler", THOU, GaugeSpread::Of(0.4 * THOU)),
    ("height-micrometer", THOU, GaugeSpread::Of(THOU)),
    ("spring-tester", LBF, GaugeSpread::Share(0.02)),
    ("burette", 0.1e-6, GaugeSpread::Of(0.25e-6)),
    ("balance", 0.1e-3, GaugeSpread::Of(0.2e-3)),
    ("torque-wrench", LBF * 0.3048, GaugeSpread::Share(0.025)),
    ("stretch-gauge", 0.1 * THOU, GaugeSpread::Of(0.2 * THOU)),
    ("ultrasonic", THOU, GaugeSpread::Of(7.0 * THOU)),
    ("profilometer", 1e-8, GaugeSpread::Share(0.07)),
    ("leak-down-tester", 0.01, GaugeSpread::Of(0.015)),
    ("pressure-gauge", 6_894.757_293_168, GaugeSpread::Share(0.03)),
    ("vacuum-gauge", 0.5 * INHG, GaugeSpread::Of(0.5 * INHG)),
    ("degree-wheel", 0.5 * std::f64::consts::PI / 180.0, GaugeSpread::Of(0.5 * std::f64::consts::PI / 180.0)),
    ("straightedge", THOU, GaugeSpread::Of(0.5 * THOU)),
    ("balancing-machine", 7.2e-6, GaugeSpread::Of(36e-6)),
];

/// The bias of a master, such as a setting ring or the micrometer that a bore gauge was set on: that of an outside
/// micrometer in a careful hand.
const MASTER: f64 = 0.05 * THOU;

/// Gauges that only compare: what they are set on is part of every reading.
const COMPARE: &[&str] = &["bore-gauge", "air-gauge"];

/// The usual gauge for a reading, by the key of the sheet.
const USED_FOR: &[(&str, &[&str])] = &[
    (
        // a clearance read directly: the gauge is set to the journal or the piston
        "bore-gauge",
        &[
            "bore",
            "main-housing",
            "main-inside",
            "rod-housing",
            "rod-inside",
            "lifter-bore",
            "main-clearance",
            "rod-clearance",
            "cam-clearance",
            "piston-to-wall",
        ],
    ),
    (
        "outside-micrometer",
        &[
            "piston",
            "main-journal",
            "rod-journal",
            "main-shell",
            "rod-shell",
            "pin",
            "stem",
            "lifter",
            "rod-bolt-growth",
            "damper-interference",
        ],
    ),
    ("small-hole-gauge", &["pin-bore", "rod-bush", "pin-to-piston", "pin-to-rod", "lifter-to-bore"]),
    ("guide-gauge", &["guide-bore", "stem-to-guide"]),
    ("bridge", &["deck-clearance", "piston-to-head", "liner-protrusion", "wire-protrusion"]),
    (
        "dial-indicator",
        &[
            "crank-straightness",
            "end-play",
            "seat-runout",
            "valve-lift",
            "rocker-ratio",
            "cam-end-play",
            "main-alignment-adjacent",
            "main-alignment-overall",
            "preload",
            "main-crush",
            "rod-crush",
        ],
    ),
    ("height-micrometer", &["installed-height", "bind-height"]),
    ("spring-tester", &["seat-load", "open-load", "seat-load-run-in"]),
    ("burette", &["chamber-volume"]),
    ("balance", &["piston-mass", "rod-small-end", "rod-big-end"]),
    ("torque-wrench", &["turning-torque"]),
    ("stretch-gauge", &["rod-bolt-stretch"]),
    ("ultrasonic", &["wall-thickness"]),
    ("profilometer", &["bore-rpk", "bore-rk", "bore-rvk", "deck-roughness", "head-roughness", "journal-roughness"]),
    ("leak-down-tester", &["leak-down"]),
    ("pressure-gauge", &["cranking-pressure", "oil-pressure-hot"]),
    ("vacuum-gauge", &["seat-vacuum", "idle-vacuum"]),
    ("degree-wheel", &["crosshatch"]),
    ("straightedge", &["deck-flatness", "head-flatness"]),
    ("balancing-machine", &["balance-front", "balance-rear"]),
];

/// Everything else is a gap that a feeler goes into.
const USUALLY: &str = "feeler";

/// The gauge of one set of readings.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct GaugeUse {
    /// The shop's name for it, or the kind of gauge taken.
    pub(crate) name: String,
    /// None was named.
    pub(crate) assumed: bool,
    step: f64,
    own: GaugeSpread,
    /// The master it shares a bias with, by name, and that bias.
    pub(crate) master: Option<(String, f64)>,
}

impl GaugeUse {
    /// Standard uncertainty of one reading's own: its smallest step spread evenly (JCGM 100:2008, F.2.2.1), with what
    /// the hand adds.
    pub(crate) fn own(&self, value: f64) -> f64 {
        let hand = match self.own {
            GaugeSpread::Of(u) => u,
            GaugeSpread::Share(share) => share * value.abs(),
        };
        (self.step * self.step / 12.0).sqrt().hypot(hand)
    }

    /// The gauge of a set; the usual one where it names none that the sheet knows.
    pub(crate) fn of(sheet: &Sheet, key: &str, set: &ReadingSet) -> Self {
        let named = set.gauge.as_ref().and_then(|name| sheet.gauges.get(name).map(|g| (name, g)));
        let Some((name, gauge)) = named else {
            let kind = usual_for(key);
            let (step, own) = usual(kind);
            // nobody says what it was set on: a master of the set's own, shared by its readings only
            let master = COMPARE.contains(&kind).then(|| (format!("the master of {key}"), MASTER));
            return Self { name: kind.to_owned(), assumed: true, step, own, master };
        };
        let (step, own) = figures(gauge, key);
        let set_on = gauge.set_on.clone().map(|master| {
            let bias = sheet.gauges.get(&master).map_or(MASTER, |g| absolute(figures(g, key).1));
            (master, bias)
        });
        let is_master = sheet.gauges.values().any(|g| g.set_on.as_ref() == Some(name));
        let master = set_on.or_else(|| {
            if is_master {
                Some((name.clone(), absolute(own)))
            } else if COMPARE.contains(&gauge.kind.as_str()) && gauge.uncertainty.is_none() {
                Some((name.clone(), MASTER))
            } else {
                None
            }
        });
        Self { name: name.clone(), assumed: false, step, own, master }
    }
}

fn absolute(u: GaugeSpread) -> f64 {
    match u {
        GaugeSpread::Of(u) => u,
        GaugeSpread::Share(_) => MASTER,
    }
}

fn usual_for(key: &str) -> &'static str {
    USED_FOR.iter().find(|(_, keys)| keys.contains(&key)).map_or(USUALLY, |(kind, _)| *kind)
}

fn usual(kind: &str) -> (f64, GaugeSpread) {
    USUAL.iter().find(|(k, ..)| *k == kind).map_or((0.0, GaugeSpread::Of(0.0)), |(_, step, own)| (*step, *own))
}

/// What the shop says of its gauge, else what is usual for its kind, else what is usual for the reading.
fn figures(gauge: &Gauge, key: &str) -> (f64, GaugeSpread) {
    let known = USUAL.iter().any(|(k, ..)| *k == gauge.kind);
    let (step, own) = usual(if known { &gauge.kind } else { usual_for(key) });
    let own = match gauge.uncertainty {
        Some(share) if gauge.relative => GaugeSpread::Share(share),
        Some(u) => GaugeSpread::Of(u),
        None => own,
    };
    (gauge.resolution.unwrap_or(step), own)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_usual_gauge_has_figures_and_no_reading_two_gauges() {
        let mut seen = Vec::new();
        for (kind, keys) in USED_FOR {
            assert!(USUAL.iter().any(|(k, ..)| k == kind), "{kind}");
            for key in *keys {
                assert!(!seen.contains(key), "{key}");
                seen.push(key);
            }
        }
        assert!(USUAL.iter().any(|(k, ..)| *k == USUALLY));
    }

    #[test]
    fn a_tenth_micrometer_is_good_for_six_hundredths_of_a_thou() {
        let set = ReadingSet::default();
        let used = GaugeUse::of(&Sheet::default(), "piston", &set);
        assert!(used.assumed);
        assert_eq!(used.name, "outside-micrometer");
        // sqrt(0.1^2/12 + 0.05^2) thou
        assert!((used.own(0.1) / THOU - 0.057_735).abs() < 1e-6);
    }
}
