//! Whether two valves fit side by side over the bore.

use crate::facts::{EXHAUST_DIAMETER, INLET_DIAMETER, VALVES};
use thou_sdk::prelude::*;

reasons![NOT_TWO = "not two valves of known size to a cylinder"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "valves-in-bore",
    title: "Valves over the bore",
    operation: "heads",
    why: "Valves as wide as the bore together meet its wall when they open, and stand where no air gets by.",
    source: "common practice, no source: 0.90 to 0.96 of the bore in one line; valves that lean apart go a little past the bore",
    judges: &["valve.heads-over-bore"],
    takes: &[INLET_DIAMETER, EXHAUST_DIAMETER, VALVES],
    reasons: REASONS,
    texts: &[Text {
        high: Remedy::say(
            "Look at valves.inlet-diameter, valves.exhaust-diameter and the bore again; lay the head on and turn it by hand.",
        ),
        ..Text::new("both heads over the bore")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let known = f.get(INLET_DIAMETER).is_some() && f.get(EXHAUST_DIAMETER).is_some();
    if !known || f.get(VALVES).is_some_and(|valves| valves > 2.5) {
        return NotApplicable(reason::NOT_TWO);
    }
    a.window(Window::at_most(1.0));
    Answered
}
