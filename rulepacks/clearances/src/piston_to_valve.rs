//! Piston to valve.

use crate::common::{by_use, valves};
use crate::facts::{IS_INLET, ROD, TAKEN_UP, USE};
use thou_sdk::prelude::*;

const POCKET: Option<Remedy> = Remedy::say(
    "Cut the pocket of {place} deeper after reading the crown, or move the cam; a thicker gasket costs squish.",
);

texts![
    INLET = Text {
        low: POCKET,
        ..Text::new("inlet, closest 10 to 15 degrees after the top, with the gasket and lash it was read with")
    },
    EXHAUST = Text {
        low: POCKET,
        ..Text::new("exhaust, closest 10 to 15 degrees before the top, with the gasket and lash it was read with")
    },
    INLET_BY_PARTS = Text {
        low: POCKET,
        hold_basis: Some(Physics),
        ..Text::new("inlet; the hold is what the parts take up at the over-rev, times 1.5")
    },
    EXHAUST_BY_PARTS = Text {
        low: POCKET,
        hold_basis: Some(Physics),
        ..Text::new("exhaust; the hold is what the parts take up at the over-rev, times 1.5")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "piston-to-valve",
    title: "Piston to valve",
    operation: "mock-up",
    why: "Round the overlap the piston chases the exhaust valve and the inlet valve chases the piston: stretch, a \
          late valve or a stretched chain takes what is left, and they meet.",
    basis: Published,
    source: "trade articles: inlet 80 thou, exhaust 100, one says 100 for both; common practice for a known \
             combination and aluminium rods",
    hold_basis: Some(Practice),
    hold_source: Some(
        "common practice, no source: inlet 50 thou, exhaust 60; or what the parts take up at the over-rev (stretch, \
         oil clearances, rock) times 1.5, a factor of our own, where that is more",
    ),
    judges: &["piston-to-valve"],
    needs: &[USE, ROD, IS_INLET],
    takes: &[TAKEN_UP],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// What an engine is left beside what its parts take up; ours, no source.
const FACTOR: f64 = 1.5;

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let (inlet, exhaust) = by_use(f, (80.0, 100.0), (80.0, 100.0), (60.0, 80.0));
    // Aluminium rods grow and stretch more: 20 to 30 thou.
    let rod = if f.is(ROD, &["aluminium"]) { 20.0 } else { 0.0 };
    let parts = f.get(TAKEN_UP).map(|taken| FACTOR * taken);
    for (place, is_inlet) in valves(f) {
        let (low, floor) = if is_inlet { (inlet, 50.0) } else { (exhaust, 60.0) };
        let (low, floor) = (thou(low + rod), thou(floor + rod));
        let (never, text) = match parts {
            Some(parts) if parts > floor && is_inlet => (parts, text::INLET_BY_PARTS),
            Some(parts) if parts > floor => (parts, text::EXHAUST_BY_PARTS),
            _ if is_inlet => (floor, text::INLET),
            _ => (floor, text::EXHAUST),
        };
        a.window(Window::at_least(low.max(never)).never_below(never).at(place).text(text));
    }
    Answered
}
