//! The age of the cam's belt.

use crate::facts::CAM_DRIVE;
use thou_sdk::prelude::*;

reasons![NO_BELT = "no belt drives the cam"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "belt-age",
    title: "Age of the cam belt",
    operation: "assembly",
    why: "Rubber and cord age on the shelf and on the engine alike, and where the belt lets go the pistons find the valves.",
    source: "common practice, no source: a new one at each build, and none over five years",
    judges: &["cam.belt-age"],
    needs: &[CAM_DRIVE],
    reasons: REASONS,
    texts: &[Text {
        high: Remedy::say("A new belt now, while the front is off; write its day in cam.belt-date."),
        ..Text::new("from the day the belt went on to the assembly")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(CAM_DRIVE, &["belt"]) {
        return NotApplicable(reason::NO_BELT);
    }
    a.window(Window::at_most(months(60.0)));
    Answered
}
