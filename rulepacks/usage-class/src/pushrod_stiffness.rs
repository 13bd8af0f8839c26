//! The pushrod against the spring.

use crate::facts::{PUSHROD, VALVETRAIN};
use thou_sdk::prelude::*;

reasons![
    THICK_ENOUGH = "thick enough for any spring we know",
    NO_PUSHRODS = "no pushrods",
    NO_SIZE = "write valvetrain.pushrod-diameter",
];

texts![
    FIVE_SIXTEENTHS = Text {
        high: Remedy::say("Pushrods of 3/8 in. 5/16 suits a street engine."),
        ..Text::new("pushrods of 5/16 in")
    },
    BETWEEN = Text {
        high: Remedy::say("Pushrods of 7/16 in."),
        ..Text::new("pushrods between 5/16 and 3/8 in: no more than 3/8 stands")
    },
    THREE_EIGHTHS = Text {
        high: Remedy::say("Pushrods of 7/16 in. 3/8 suits a street or bracket engine."),
        ..Text::new("pushrods of 3/8 in")
    },
];

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
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(VALVETRAIN, &["pushrod"]) {
        return NotApplicable(reason::NO_PUSHRODS);
    }
    let Some(size) = f.get(PUSHROD) else { return CannotSay(reason::NO_SIZE) };
    if size < inches(0.32) {
        a.window(Window::at_most(pounds(400.0)).text(text::FIVE_SIXTEENTHS));
    } else if size < inches(0.37) {
        // no school's figure is known: it stands no more than the next size
        a.window(Window::at_most(pounds(700.0)).text(text::BETWEEN));
    } else if size < inches(0.38) {
        a.window(Window::at_most(pounds(700.0)).text(text::THREE_EIGHTHS));
    } else {
        return NotApplicable(reason::THICK_ENOUGH);
    }
    Answered
}
