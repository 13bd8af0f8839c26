//! A floating pin between its locks.

use crate::facts::{PIN_FIT, PIN_LOCK};
use thou_sdk::prelude::*;

reasons![PRESSED = "the pin is pressed in the rod"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "pin-end-play",
    title: "Pin end play",
    operation: "rods-and-pistons",
    why: "A pin with room to swing knocks its locks out; one with none pushes them out.",
    hold_basis: Some(Physics),
    hold_source: Some("geometry: a pin longer than its place pushes on the locks"),
    judges: &["pin.end-play"],
    needs: &[PIN_FIT],
    takes: &[PIN_LOCK],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say("Grind the end of the pin of {place}, or swap it; look that the locks are the groove's size."),
        high: Remedy::say("Swap in a longer pin or thicker locks at {place}."),
        ..Text::new("between these locks, their gaps up or down")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(PIN_FIT, &["floating"]) {
        return NotApplicable(reason::PRESSED);
    }
    let (low, high) = match f.choice(PIN_LOCK) {
        Some("round-wire") => (0.0, 5.0),
        Some("spiral") => (0.0, 8.0),
        Some("button") => (2.0, 10.0),
        _ => (0.0, 10.0),
    };
    a.window(Window::between(thou(low), thou(high)).never_below(0.0));
    Answered
}
