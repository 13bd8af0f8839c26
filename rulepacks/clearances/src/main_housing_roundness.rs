//! Roundness and taper of the main housings.

use crate::common::{ROLLER, by_use, roller};
use crate::facts::{BEARING, USE};
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "main-housing-roundness",
    title: "Main housing roundness",
    operation: "block",
    why: "The shell takes the housing's shape: what the housing is out, the oil film is out.",
    source: "trade articles on bearings: round within 0.5 thou for performance, 1.0 stock; common practice for taper",
    judges: &["main-housing.out-of-round", "main-housing.taper"],
    needs: &[USE],
    takes: &[BEARING],
    reasons: &[ROLLER],
    texts: &[
        Text {
            high: Remedy::say(
                "Line hone with the studs, torque and lubricant that stay; the narrow way must not be up and down.",
            ),
            ..Text::new("over the directions, caps at final torque")
        },
        Text { high: Remedy::say("Line hone {place} straight."), ..Text::new("from end to end") },
    ],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if roller(f) {
        return NotApplicable(0);
    }
    a.window(Window::at_most(by_use(f, thou(1.0), thou(0.5), thou(0.3))));
    a.window(Window::at_most(thou(0.3)).judging(1).text(1));
    Answered
}
