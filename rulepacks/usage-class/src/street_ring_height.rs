//! The top ring of an engine that counts miles.

use crate::common::{UNKNOWN_USE, Usage, usage};
use crate::facts::USE;
use thou_sdk::prelude::*;

reasons![UNKNOWN_USE, NOT_STREET = "only an engine that counts miles"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "street-ring-height",
    title: "Top ring for street miles",
    operation: "rings",
    why: "A ring thinner than this is worn out in race passes, not in street miles.",
    source: "common practice, no source",
    judges: &["ring.top.height"],
    needs: &[USE],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say("Pistons and rings of {low} or more. These suit a bracket or all-out engine."),
        ..Text::new("street")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    match usage(f) {
        None => return CannotSay(reason::UNKNOWN_USE),
        Some(Usage::Street) => a.window(Window::at_least(mm(1.2))),
        Some(_) => return NotApplicable(reason::NOT_STREET),
    }
    Answered
}
