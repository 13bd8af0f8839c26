//! What turns, clear of what stands.

use crate::common::{CONTACT, contact, touches};
use crate::facts::{MAIN_MAX, ROD, ROD_MAX, VALVETRAIN};
use thou_sdk::prelude::*;

judges![ROD_TO_BLOCK = "rod-to-block", ROD_TO_CAM = "rod-to-cam", COUNTERWEIGHT = "counterweight-to-block"];

texts![
    ROD_TO_BLOCK = Text {
        low: Remedy::say("Relieve the block and pan rail where the bolts pass, and wash it again."),
        ..Text::new("rod and bolts to the block, at the closest of a whole turn")
    },
    ROD_TO_CAM = Text {
        low: Remedy::say("Swap in a cam with a smaller base circle, or relieve the rod where its maker allows it."),
        ..Text::new("rod and bolts to the cam, at the closest of two turns")
    },
    COUNTERWEIGHT = Text {
        low: Remedy::say("Turn the counterweights down, or relieve the block; then balance again."),
        ..Text::new("counterweights to block and pistons")
    },
    CONTACT = contact("contact: the crank moves over by its bearings' clearance"),
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "moving-parts",
    title: "Rods and weights clear of the block",
    operation: "mock-up",
    why: "A crank whips and a rod grows: what clears by a hair on the stand strikes on the first hard pull.",
    hold_basis: Some(Practice),
    hold_source: Some(
        "common practice, no source: steel rods 25 thou, aluminium rods 50, counterweights 20; contact: the oil clearance \
         of the mains, and of the rods for a rod, each at its greatest",
    ),
    judges: JUDGES,
    needs: &[ROD],
    takes: &[VALVETRAIN, MAIN_MAX, ROD_MAX],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let (rod, never) = if f.is(ROD, &["aluminium"]) { (80.0, 50.0) } else { (50.0, 25.0) };
    let overhead = f.is(VALVETRAIN, &["bucket", "finger"]);
    let mains = f.get(MAIN_MAX).unwrap_or(0.0).max(0.0);
    let rods = f.get(ROD_MAX).unwrap_or(0.0).max(0.0);
    let clear = |low: f64, never: f64| Window::at_least(thou(low)).never_below(thou(never));
    let touch = |by: f64| touches(by.max(CONTACT)).text(text::CONTACT);
    a.window(clear(rod, never).judging(judged::ROD_TO_BLOCK).text(text::ROD_TO_BLOCK));
    a.window(touch(mains + rods).judging(judged::ROD_TO_BLOCK));
    if !overhead {
        a.window(clear(rod, never).judging(judged::ROD_TO_CAM).text(text::ROD_TO_CAM));
        a.window(touch(mains + rods).judging(judged::ROD_TO_CAM));
    }
    a.window(clear(40.0, 20.0).judging(judged::COUNTERWEIGHT).text(text::COUNTERWEIGHT));
    a.window(touch(mains).judging(judged::COUNTERWEIGHT));
    Answered
}
