//! Shifting before the limiter does.

use crate::facts::LIMITER;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "shift-and-limiter",
    title: "Shift under the limiter",
    operation: "combination",
    why: "An engine that sits on its limiter at each shift is hit by it, cylinder by cylinder.",
    basis: Physics,
    source: "a speed past the limiter is never reached",
    judges: &["shift-speed"],
    needs: &[LIMITER],
    texts: &[Text {
        high: Remedy::say("Shift under {high}, or a later limiter if rods and springs stand it."),
        ..Text::new("the limiter")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::at_most(f.of(LIMITER)));
    Answered
}
