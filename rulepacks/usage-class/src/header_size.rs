//! Primary pipes against the cylinder.

use crate::facts::PRIMARY;
use thou_sdk::prelude::*;

reasons![NOT_STATED = "no primary pipes on the sheet"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "header-size",
    title: "Primary pipes for the cylinder",
    operation: "combination",
    why: "A pipe too small chokes at speed and heats the valve; one too large lets the pulse die before it helps.",
    source: "common practice, from memory: a square inch of pipe for each 88,200 of cubic inches a cylinder by rpm at the torque peak",
    judges: &["exhaust.primary-share"],
    takes: &[PRIMARY],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say("Pipes of the next size or two: these suit a smaller or slower engine."),
        high: Remedy::say("Pipes of the next size down: these suit a larger or faster engine."),
        ..Text::new("section over the usual for this cylinder at its torque peak")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.get(PRIMARY).is_none() {
        return NotApplicable(reason::NOT_STATED);
    }
    a.window(Window::between(0.65, 1.6).levels(Warn, Note));
    Answered
}
