//! Roundness and taper of the rod housings.

use crate::common::{ROLLER, by_use, roller};
use crate::facts::{BEARING, USE};
use thou_sdk::prelude::*;

judges![ROUND = "rod-housing.out-of-round", TAPER = "rod-housing.taper"];

reasons![ROLLER];

texts![
    ROUND = Text {
        high: Remedy::say(
            "Resize {place} with its bolts at final stretch; never sand a parting line that is dowelled or \
                 cracked.",
        ),
        ..Text::new("over the directions, bolts at final stretch")
    },
    TAPER = Text { high: Remedy::say("Hone {place} straight."), ..Text::new("from end to end") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "rod-housing-roundness",
    title: "Rod housing roundness",
    operation: "rods-and-pistons",
    why: "The big end is pulled long at every exhaust stroke: one that starts out of round pinches the journal at the \
          parting line.",
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
    let round = Window::at_most(by_use(f, thou(0.5), thou(0.3), thou(0.3)));
    a.window(round.never_above(thou(1.5)).judging(judged::ROUND).text(text::ROUND));
    a.window(Window::at_most(thou(0.2)).judging(judged::TAPER).text(text::TAPER));
    Answered
}
