//! Roundness and taper of the main housings.

use crate::common::{ROLLER, by_use, roller};
use crate::facts::{BEARING, USE};
use thou_sdk::prelude::*;

judges![ROUND = "main-housing.out-of-round", TAPER = "main-housing.taper"];

reasons![ROLLER];

texts![
    ROUND = Text {
        high: Remedy::say(
            "Line hone with the studs, torque and lubricant that stay; the narrow way must not be up and down.",
        ),
        ..Text::new("over the directions, caps at final torque")
    },
    TAPER = Text { high: Remedy::say("Line hone {place} straight."), ..Text::new("from end to end") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "main-housing-roundness",
    title: "Main housing roundness",
    operation: "block",
    why: "The shell takes the housing's shape: what the housing is out, the oil film is out.",
    source: "trade articles on bearings: round within 0.5 thou for performance, 1.0 stock; common practice for taper; \
             service manual of an iron V6: 2.0 allowed",
    judges: JUDGES,
    needs: &[USE],
    takes: &[BEARING],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if roller(f) {
        return NotApplicable(reason::ROLLER);
    }
    let round = Window::at_most(by_use(f, thou(1.0), thou(0.5), thou(0.3)));
    a.window(round.never_above(by_use(f, thou(2.5), thou(1.5), thou(1.5))).judging(judged::ROUND).text(text::ROUND));
    a.window(Window::at_most(thou(0.3)).judging(judged::TAPER).text(text::TAPER));
    Answered
}
