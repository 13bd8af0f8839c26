//! Weight hung outside the crank, against speed.

use crate::facts::BALANCE;
use thou_sdk::prelude::*;

reasons![INTERNAL = "balanced internally"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "external-balance",
    title: "External balance and speed",
    operation: "crank",
    why: "Weights on the damper and the flexplate bend the crank between them, more with the square of speed.",
    source: "common practice, no source",
    judges: &["top-speed"],
    needs: &[BALANCE],
    reasons: REASONS,
    texts: &[Text {
        high: Remedy::solve(
            "Limiter to {solve}, or heavy metal in the crank. External balance suits the street or a slow bracket engine.",
            "limiter",
            "down",
        ),
        ..Text::new("external balance")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(BALANCE, &["external"]) {
        return NotApplicable(reason::INTERNAL);
    }
    a.window(Window::at_most(rpm(7_000.0)));
    Answered
}
