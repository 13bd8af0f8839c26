//! Where the skirt was read, beside where its maker reads it.

use crate::facts::{CARD_GAUGE_POINT, GAUGE_POINT};
use thou_sdk::prelude::*;

reasons![NOT_STATED = "where the skirt was read, or where its card says, is not stated"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "gauge-point",
    title: "Gauge point of the piston",
    operation: "rods-and-pistons",
    why: "A skirt is a barrel: read at another height it is another size, and the fit on its card is for one height alone.",
    source: "common practice, no source: at the card's height, to some 50 thou",
    judges: &["piston.gauge-point.off"],
    takes: &[GAUGE_POINT, CARD_GAUGE_POINT],
    reasons: REASONS,
    texts: &[Text {
        high: Remedy::say("Read the pistons again at the height that their card says; the bores follow from it."),
        ..Text::new("read where its card reads it")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.get(GAUGE_POINT).is_none() || f.get(CARD_GAUGE_POINT).is_none() {
        return NotApplicable(reason::NOT_STATED);
    }
    a.window(Window::at_most(inches(0.050)));
    Answered
}
