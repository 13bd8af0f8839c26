//! Pushrods in their holes.

use crate::common::CONTACT;
use crate::facts::VALVETRAIN;
use thou_sdk::prelude::*;

reasons![NO_PUSHRODS = "no pushrods"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "pushrod-to-head",
    title: "Pushrod to head",
    operation: "mock-up",
    why: "A pushrod that rubs bends, throws metal into the oil, and leans its lifter on one side.",
    hold_basis: Some(Physics),
    hold_source: Some("the parts touch"),
    judges: &["pushrod-to-head"],
    needs: &[VALVETRAIN],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say("Relieve the hole of {place}, or swap in a thinner pushrod or an offset rocker."),
        ..Text::new("all round, through the whole lift")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(VALVETRAIN, &["pushrod"]) {
        return NotApplicable(reason::NO_PUSHRODS);
    }
    a.window(Window::at_least(thou(30.0)).never_below(CONTACT));
    Answered
}
