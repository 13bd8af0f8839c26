//! How far the squish of the cylinders lies apart.

use crate::common::{ONE_CYLINDER, single};
use crate::facts::CYLINDERS;
use thou_sdk::prelude::*;

reasons![ONE_CYLINDER];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "piston-to-head-spread",
    title: "Squish against each other",
    operation: "mock-up",
    why: "The tightest cylinder sets the gasket for all; the widest one knocks first.",
    judges: &["piston-to-head.spread"],
    takes: &[CYLINDERS],
    reasons: REASONS,
    texts: &[Text {
        high: Remedy::say("Swap rods and pistons until the heights agree, or cut the deck equal."),
        ..Text::new("tightest cylinder to widest")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if single(f) {
        return NotApplicable(reason::ONE_CYLINDER);
    }
    a.window(Window::at_most(thou(3.0)).levels(Note, Note));
    Answered
}
