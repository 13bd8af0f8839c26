//! The damper's hub on the crank's snout.

use crate::facts::DAMPER;
use thou_sdk::prelude::*;

reasons![NO_DAMPER = "no damper"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "damper-fit",
    title: "Damper on the snout",
    operation: "crank",
    why: "A hub that can move on the snout does not damp, frets it, and works its key and bolt loose.",
    source: "common practice, no source; a damper maker as quoted on a list: 0.7 to 0.9 thou for steel hubs",
    hold_basis: Some(Physics),
    hold_source: Some("a hub without interference is not held by the snout"),
    judges: &["damper.interference"],
    takes: &[DAMPER],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say("Swap the hub, or have the snout plated and ground."),
        high: Remedy::say("Hone the hub."),
        ..Text::new("interference, hub in hand against snout")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(DAMPER, &["none"]) {
        return NotApplicable(reason::NO_DAMPER);
    }
    a.window(Window::between(thou(0.5), thou(1.2)).aim(thou(0.8)).never_below(0.0));
    Answered
}
