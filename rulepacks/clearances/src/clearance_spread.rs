//! How far the bearing clearances lie apart.

use crate::common::{ROLLER, roller};
use crate::facts::BEARING;
use thou_sdk::prelude::*;

const SWAP: Option<Remedy> = Remedy::say("Read the odd one again, then swap shells between the places.");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "clearance-spread",
    title: "Bearing clearances against each other",
    operation: "crank",
    why: "Oil goes where it is easiest: the loosest bearing takes it from the tightest. One that stands apart is more \
          often a wrong shell, dirt behind it, or a cap turned round.",
    judges: &["main-bearing.clearance.spread", "rod-bearing.clearance.spread"],
    takes: &[BEARING],
    reasons: &[ROLLER],
    texts: &[
        Text { high: SWAP, ..Text::new("tightest main to loosest") },
        Text { high: SWAP, ..Text::new("tightest rod to loosest") },
    ],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if roller(f) {
        return NotApplicable(0);
    }
    a.window(Window::at_most(thou(0.5)));
    a.window(Window::at_most(thou(0.4)).judging(1).text(1));
    Answered
}
