//! Weight hung outside the crank, against speed.

use crate::common::by_stroke;
use crate::facts::{BALANCE, STROKE};
use thou_sdk::prelude::*;

reasons![INTERNAL = "balanced internally"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "external-balance",
    title: "External balance and speed",
    operation: "crank",
    why: "Weights on the damper and the flexplate bend the crank between them, more with the square of speed.",
    source: "common practice, no source; for a stroke of 3.75 in, by its root elsewhere",
    judges: &["top-speed"],
    needs: &[BALANCE],
    takes: &[STROKE],
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
    a.window(Window::at_most(rpm(7_000.0) * by_stroke(f)));
    Answered
}
