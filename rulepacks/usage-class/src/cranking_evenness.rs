//! Cranking pressure among the holes.

use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "cranking-evenness",
    title: "Evenness of cranking pressure",
    operation: "hand-over",
    why: "Holes of one engine crank alike; one that does not has a ring, a valve, a lobe or a chamber unlike the others.",
    source: "common practice, no source: within a tenth; service manuals let the weakest come to three quarters of the strongest, \
             from memory",
    hold_source: Some("common practice, no source: well under what service manuals let go"),
    judges: &["cranking-pressure.evenness"],
    texts: &[Text {
        low: Remedy::say("Read the weakest hole again wet: if it rises, rings; if not, valves, lobe or gasket."),
        ..Text::new("the weakest hole over the strongest")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(_: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::at_least(0.85).aim(0.9).never_below(0.6));
    Answered
}
