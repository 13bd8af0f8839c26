//! What turns, clear of what stands.

use crate::common::CONTACT;
use crate::facts::{ROD, VALVETRAIN};
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "moving-parts",
    title: "Rods and weights clear of the block",
    operation: "mock-up",
    why: "A crank whips and a rod grows: what clears by a hair on the stand strikes on the first hard pull.",
    hold_basis: Some(Physics),
    hold_source: Some("the parts touch"),
    judges: &["rod-to-block", "rod-to-cam", "counterweight-to-block"],
    needs: &[ROD],
    takes: &[VALVETRAIN],
    texts: &[
        Text {
            low: Remedy::say("Relieve the block and pan rail where the bolts pass, and wash it again."),
            ..Text::new("rod and bolts to the block, at the closest of a whole turn")
        },
        Text {
            low: Remedy::say("Swap in a cam with a smaller base circle, or relieve the rod where its maker allows it."),
            ..Text::new("rod and bolts to the cam, at the closest of two turns")
        },
        Text {
            low: Remedy::say("Turn the counterweights down, or relieve the block; then balance again."),
            ..Text::new("counterweights to block and pistons")
        },
    ],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let rod = if f.is(ROD, &["aluminium"]) { thou(80.0) } else { thou(50.0) };
    let overhead = f.is(VALVETRAIN, &["bucket", "finger"]);
    for (index, low) in [(0, rod), (1, rod), (2, thou(50.0))] {
        if index == 1 && overhead {
            continue;
        }
        a.window(Window::at_least(low).never_below(CONTACT).judging(index).text(index));
    }
    Answered
}
