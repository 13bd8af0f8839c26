//! Inlet valve to exhaust valve.

use crate::common::CONTACT;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "valve-to-valve",
    title: "Valve to valve",
    operation: "mock-up",
    why: "Large valves close together pass each other in the overlap: a little more advance or ratio and they touch.",
    hold_basis: Some(Physics),
    hold_source: Some("the parts touch"),
    judges: &["valve-to-valve"],
    texts: &[Text {
        low: Remedy::say("Swap in smaller valves, sink the seats of {place}, or spread the lobes."),
        ..Text::new("at their closest in the overlap; no one we know runs under 40 thou")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(_: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::at_least(thou(60.0)).never_below(CONTACT));
    Answered
}
