//! Manifold vacuum at idle, on the street.

use crate::common::{UNKNOWN_USE, Usage, usage};
use crate::facts::USE;
use thou_sdk::prelude::*;

reasons![UNKNOWN_USE, NOT_STREET = "only the street asks for it"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "idle-vacuum",
    title: "Vacuum at idle",
    operation: "hand-over",
    why: "The brakes, the crankcase valve and the carburettor's idle circuits live on it.",
    source: "common practice, no source",
    judges: &["idle.vacuum"],
    needs: &[USE],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say("Less overlap, or a vacuum pump for the brakes. As it is, it suits a bracket engine."),
        ..Text::new("street")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    match usage(f) {
        None => return CannotSay(reason::UNKNOWN_USE),
        Some(Usage::Street) => a.window(Window::at_least(inches_of_mercury(12.0)).levels(Note, Note)),
        Some(_) => return NotApplicable(reason::NOT_STREET),
    }
    Answered
}
