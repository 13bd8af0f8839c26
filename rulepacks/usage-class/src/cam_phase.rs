//! How a cam with both its lobes on one shaft stands to the crank.

use crate::facts::{CENTRE_EXHAUST, CENTRE_INLET, VALVETRAIN};
use thou_sdk::prelude::*;

reasons![
    TWO_SHAFTS = "inlet and exhaust may stand on shafts of their own",
    NOT_STATED = "no centre lines on the sheet"
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "cam-phase",
    title: "Cam early or late",
    operation: "mock-up",
    why: "A tooth, a keyway or a misread wheel puts the cam in late: the inlet shuts late and the exhaust valve hangs after the piston.",
    source: "common practice, no source: cams are ground to stand 0 to 6 degrees early, and degreed within two of that",
    judges: &["cam.advance"],
    takes: &[VALVETRAIN, CENTRE_INLET, CENTRE_EXHAUST],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say(
            "Degree it again from true top dead centre; late on purpose, accept it by name as this engine's plan.",
        ),
        high: Remedy::say("Degree it again from true top dead centre, and read both valves' clearance to the piston."),
        ..Text::new("one camshaft, crank degrees early")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(VALVETRAIN, &["pushrod"]) {
        return NotApplicable(reason::TWO_SHAFTS);
    }
    if f.get(CENTRE_INLET).is_none() || f.get(CENTRE_EXHAUST).is_none() {
        return NotApplicable(reason::NOT_STATED);
    }
    a.window(Window::between(degrees(-1.0), degrees(8.0)));
    Answered
}
