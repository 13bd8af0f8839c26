//! End clearance of the oil pump.

use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "oil-pump",
    title: "Oil pump end clearance",
    operation: "assembly",
    why: "The pump leaks over the ends of its gears first: every thou there is oil that goes round instead of up.",
    judges: &["oil-pump.end-clearance"],
    texts: &[Text {
        low: Remedy::say("Lap the gears, or shim the cover."),
        high: Remedy::say("Lap the body down to the gears, or swap the pump."),
        ..Text::new("gears below the body")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(_: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::between(thou(1.0), thou(3.0)).aim(thou(2.0)));
    Answered
}
