//! The top ring of an engine that counts miles.

use crate::common::{UNKNOWN_USE, Usage, usage};
use crate::facts::{BORE, USE};
use thou_sdk::prelude::*;

reasons![UNKNOWN_USE, NOT_STREET = "only an engine that counts miles"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "street-ring-height",
    title: "Top ring for street miles",
    operation: "rings",
    why: "A ring thinner than this is worn out in race passes, not in street miles.",
    source: "common practice, no source: car makers fit 1.0 and 1.2 mm, motorcycle makers 0.8",
    judges: &["ring.top.height"],
    needs: &[USE],
    takes: &[BORE],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say("Pistons and rings of {low} or more. These suit a bracket or all-out engine."),
        ..Text::new("street")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    // a motorcycle's
    let small = f.get(BORE).is_some_and(|bore| bore < mm(82.0));
    match usage(f) {
        None => return CannotSay(reason::UNKNOWN_USE),
        Some(Usage::Street) => a.window(Window::at_least(if small { mm(0.8) } else { mm(1.0) })),
        Some(_) => return NotApplicable(reason::NOT_STREET),
    }
    Answered
}
