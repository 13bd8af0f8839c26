//! Shifting before the limiter does, and a redline under it.

use crate::facts::{REDLINE, SHIFT_SPEED};
use thou_sdk::prelude::*;

judges![LIMITER = "limiter", OVER_REDLINE = "limiter.margin"];

reasons![NO_SHIFT_SPEED = "neither a shift speed nor a redline on the sheet"];

texts![
    SHIFT = Text {
        low: Remedy::say("Shift under the limiter, or set it to {low} or more if rods and springs stand it."),
        ..Text::new("the shift speed")
    },
    REDLINE = Text {
        low: Remedy::say("Redline under the limiter, or the limiter over it if rods and springs stand it."),
        ..Text::new("limiter less redline: what the driver sees comes first")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "shift-and-limiter",
    title: "Limiter over the shift",
    operation: "combination",
    why: "An engine that sits on its limiter at each shift is hit by it, cylinder by cylinder.",
    basis: Physics,
    source: "a speed past the limiter is never reached",
    judges: JUDGES,
    takes: &[SHIFT_SPEED, REDLINE],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let mut outcome = NotApplicable(reason::NO_SHIFT_SPEED);
    if let Some(shift) = f.get(SHIFT_SPEED) {
        a.window(Window::at_least(shift).judging(judged::LIMITER).text(text::SHIFT));
        outcome = Answered;
    }
    if f.get(REDLINE).is_some() {
        a.window(Window::at_least(0.0).judging(judged::OVER_REDLINE).text(text::REDLINE));
        outcome = Answered;
    }
    outcome
}
