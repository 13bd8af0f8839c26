//! The torque that the plate was honed with, beside the heads' own.

use crate::facts::{HEAD_TORQUE, PLATE_HONED, PLATE_TORQUE};
use thou_sdk::prelude::*;

reasons![
    NO_PLATE = "it was not honed with a plate",
    NOT_STATED = "the torque of the plate or of the heads is not stated"
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "plate-torque",
    title: "Plate torque over the heads'",
    operation: "block",
    why: "The plate is there to pull the bore as its head will: with another torque it is honed round for another shape.",
    source: "common practice, no source: the plate is tightened as the head is, with its own fasteners and lubricant",
    judges: &["block.plate-torque.share"],
    takes: &[PLATE_HONED, PLATE_TORQUE, HEAD_TORQUE],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say(
            "Find which torque the plate had: with less than the heads', read the bores again under the plate at theirs.",
        ),
        high: Remedy::say(
            "Find which torque the plate had: with more than the heads', read the bores again under the plate at theirs.",
        ),
        ..Text::new("the plate tightened as the heads are")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.flag(PLATE_HONED) != Some(true) {
        return NotApplicable(reason::NO_PLATE);
    }
    if f.get(PLATE_TORQUE).is_none() || f.get(HEAD_TORQUE).is_none() {
        return NotApplicable(reason::NOT_STATED);
    }
    a.window(Window::between(0.85, 1.15));
    Answered
}
