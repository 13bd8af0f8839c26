//! Piston to valve.

use crate::common::{CONTACT, by_use, contact, touches, valves};
use crate::facts::{IS_INLET, ROD, STROKE, TAKEN_UP, USE, VALVETRAIN};
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
    CONTACT =
        Text { low: POCKET, ..contact("contact: what the parts take up hot at the over-rev, with nothing to spare") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "piston-to-valve",
    title: "Piston to valve",
    operation: "mock-up",
    why: "Round the overlap the piston chases the exhaust valve and the inlet valve chases the piston: stretch, a \
          late valve or a stretched chain takes what is left, and they meet.",
    source: "common practice, no source: unsigned trade articles have inlet 80 thou, exhaust 100, one 100 for both; a known \
             combination, aluminium rods, overhead cams and strokes under 2.80 in",
    hold_source: Some(
        "common practice, no source: inlet 40 thou, exhaust 60, aluminium rods 20 more; overhead cams and short strokes 25 \
         and 40; contact: the sum of what the parts take up, thou facts piston-to-head.taken-up, lofting valves not \
         counted",
    ),
    judges: &["piston-to-valve"],
    needs: &[USE, ROD, IS_INLET],
    takes: &[TAKEN_UP, STROKE, VALVETRAIN],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let light = f.is(VALVETRAIN, &["bucket", "finger"]) || f.get(STROKE).is_some_and(|stroke| stroke < inches(2.8));
    let (low, never) = if light {
        ((50.0, 70.0), (25.0, 40.0))
    } else {
        (by_use(f, (80.0, 100.0), (80.0, 100.0), (60.0, 80.0)), (40.0, 60.0))
    };
    // Aluminium rods grow and stretch more: 20 to 30 thou.
    let rod = if f.is(ROD, &["aluminium"]) { 20.0 } else { 0.0 };
    let taken = f.get(TAKEN_UP).unwrap_or(0.0).max(CONTACT);
    for (place, is_inlet) in valves(f) {
        let (low, never, text) = if is_inlet { (low.0, never.0, text::INLET) } else { (low.1, never.1, text::EXHAUST) };
        let low = thou(low + rod).max(taken);
        a.window(Window::at_least(low).never_below(thou(never + rod)).at(place).text(text));
    }
    a.window(touches(taken).text(text::CONTACT));
    Answered
}
