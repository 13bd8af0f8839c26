//! The throat under the inlet seat.

use crate::facts::{INLET_DIAMETER, THROAT};
use thou_sdk::prelude::*;

reasons![NOT_STATED = "no throat on the sheet"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "throat",
    title: "Throat of the inlet port",
    operation: "heads",
    why: "A throat that is too wide leaves no seat to carry the valve and no wall to turn the air; one as it was cast chokes it.",
    source: "common practice, no source: 0.85 to 0.92 of the valve's head",
    judges: &["throat.share"],
    takes: &[THROAT, INLET_DIAMETER],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say(
            "Blend the bowl out to the throat that the valve wants; or correct throat or valve on the sheet.",
        ),
        high: Remedy::say("Look how much seat is left and read the throat again: a wider valve, or a new seat ring."),
        ..Text::new("throat over the inlet valve's head")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.get(THROAT).is_none() || f.get(INLET_DIAMETER).is_none() {
        return NotApplicable(reason::NOT_STATED);
    }
    a.window(Window::between(0.78, 0.94));
    Answered
}
