//! Shifting before the limiter does.

use crate::facts::SHIFT_SPEED;
use thou_sdk::prelude::*;

reasons![NO_SHIFT_SPEED = "no shift speed on the sheet"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "shift-and-limiter",
    title: "Limiter over the shift",
    operation: "combination",
    why: "An engine that sits on its limiter at each shift is hit by it, cylinder by cylinder.",
    basis: Physics,
    source: "a speed past the limiter is never reached",
    judges: &["limiter"],
    takes: &[SHIFT_SPEED],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say("Shift under the limiter, or set it to {low} or more if rods and springs stand it."),
        ..Text::new("the shift speed")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(shift) = f.get(SHIFT_SPEED) else { return NotApplicable(reason::NO_SHIFT_SPEED) };
    a.window(Window::at_least(shift));
    Answered
}
