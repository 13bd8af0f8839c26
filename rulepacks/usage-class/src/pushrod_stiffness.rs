//! The pushrod against the spring.

use crate::facts::{PUSHROD, VALVETRAIN};
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "pushrod-stiffness",
    title: "Pushrods for the spring",
    operation: "heads",
    why: "A pushrod that bows stores the lift and throws the valve open: it floats well before the spring is out of force.",
    source: "common practice, no source; for walls of 0.080 in and more",
    judges: &["spring.open-load.max"],
    needs: &[VALVETRAIN],
    takes: &[PUSHROD],
    reasons: &[
        "no school's figure is known for this size",
        "thick enough for any spring we know",
        "no pushrods",
        "write valvetrain.pushrod-diameter",
    ],
    texts: &[
        Text {
            high: Remedy::say("Pushrods of 3/8 in. 5/16 suits a street engine."),
            ..Text::new("pushrods of 5/16 in")
        },
        Text {
            high: Remedy::say("Pushrods of 7/16 in. 3/8 suits a street or bracket engine."),
            ..Text::new("pushrods of 3/8 in")
        },
    ],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(VALVETRAIN, &["pushrod"]) {
        return NotApplicable(2);
    }
    let Some(size) = f.get(PUSHROD) else { return CannotSay(3) };
    if size < inches(0.32) {
        a.window(Window::at_most(pounds(400.0)));
    } else if size < inches(0.37) {
        return CannotSay(0);
    } else if size < inches(0.38) {
        a.window(Window::at_most(pounds(700.0)).text(1));
    } else {
        return NotApplicable(1);
    }
    Answered
}
