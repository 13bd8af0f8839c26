//! What turns, clear of what stands.

use crate::common::CONTACT;
use crate::facts::{ROD, VALVETRAIN};
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
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "moving-parts",
    title: "Rods and weights clear of the block",
    operation: "mock-up",
    why: "A crank whips and a rod grows: what clears by a hair on the stand strikes on the first hard pull.",
    hold_basis: Some(Physics),
    hold_source: Some("the parts touch"),
    judges: JUDGES,
    needs: &[ROD],
    takes: &[VALVETRAIN],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let rod = if f.is(ROD, &["aluminium"]) { thou(80.0) } else { thou(50.0) };
    let overhead = f.is(VALVETRAIN, &["bucket", "finger"]);
    let clear = |low: f64| Window::at_least(low).never_below(CONTACT);
    a.window(clear(rod).judging(judged::ROD_TO_BLOCK).text(text::ROD_TO_BLOCK));
    if !overhead {
        a.window(clear(rod).judging(judged::ROD_TO_CAM).text(text::ROD_TO_CAM));
    }
    a.window(clear(thou(50.0)).judging(judged::COUNTERWEIGHT).text(text::COUNTERWEIGHT));
    Answered
}
