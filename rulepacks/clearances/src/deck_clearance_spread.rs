//! How far the pistons at the top lie apart.

use crate::common::{ONE_CYLINDER, by_use, single};
use crate::facts::{CYLINDERS, USE};
use thou_sdk::prelude::*;

reasons![ONE_CYLINDER];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "deck-clearance-spread",
    title: "Deck clearances against each other",
    operation: "block",
    why: "The highest piston sets the gasket, and every other then runs with less squish and less compression.",
    judges: &["deck-clearance.spread"],
    needs: &[USE],
    takes: &[CYLINDERS],
    reasons: REASONS,
    texts: &[Text {
        high: Remedy::say(
            "Swap rods and pistons first: their lengths may add up the wrong way. What is left is the deck: cut it \
             equal, and read piston-to-head and both valves again.",
        ),
        ..Text::new("highest piston to lowest")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if single(f) {
        return NotApplicable(reason::ONE_CYLINDER);
    }
    a.window(Window::at_most(by_use(f, thou(4.0), thou(2.0), thou(1.0))));
    Answered
}
