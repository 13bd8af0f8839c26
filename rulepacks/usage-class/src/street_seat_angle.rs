//! Steep seats on the street.

use crate::common::{UNKNOWN_USE, Usage, usage};
use crate::facts::USE;
use thou_sdk::prelude::*;

reasons![UNKNOWN_USE, NOT_STREET = "only the street counts miles"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "street-seat-angle",
    title: "Steep seats on the street",
    operation: "heads",
    why: "A steep seat wedges the valve: it pounds out in street miles.",
    source: "common practice, no source",
    judges: &["seat.angle"],
    needs: &[USE],
    reasons: REASONS,
    texts: &[Text {
        high: Remedy::say("Seats of 45 degrees. Steeper than {high} suits a bracket or all-out engine."),
        ..Text::new("street")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    match usage(f) {
        None => return CannotSay(reason::UNKNOWN_USE),
        Some(Usage::Street) => a.window(Window::at_most(degrees(50.0))),
        Some(_) => return NotApplicable(reason::NOT_STREET),
    }
    Answered
}
