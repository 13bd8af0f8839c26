//! The block and its main caps against the power.

use crate::common::for_eight;
use crate::facts::{BLOCK_CAPS, BLOCK_FILL, BLOCK_MATERIAL, BLOCK_ORIGIN, CYLINDERS, LAYOUT};
use thou_sdk::prelude::*;

reasons![
    NO_FIGURE = "no school's figure is known for this block",
    CAPS_NOT_STATED = "write block.caps: a production block is judged by them",
];

texts![
    TWO_BOLT = Text {
        high: Remedy::say("Four-bolt caps, or an aftermarket block. This one suits a street engine up to {high}."),
        ..Text::new("production block, two-bolt caps, the looser school")
    },
    FOUR_BOLT = Text {
        high: Remedy::say("An aftermarket block. This one suits a street or bracket engine up to {high}."),
        ..Text::new("production block, four bolts or better, the looser school")
    },
    AFTERMARKET_IRON = Text {
        high: Remedy::say("Fill it, for drag racing alone, or a billet block."),
        ..Text::new("aftermarket iron block, the looser school")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "block-and-caps",
    title: "Block and caps for the power",
    operation: "block",
    why: "Caps walk and webs crack long before a block looks tired; the fretting under the caps tells it first.",
    source: "common practice, no source: it differs from one family of castings to the next; quoted for eight cylinders \
             and counted by cylinder here, and by 1.6 in line",
    judges: &["target.power"],
    needs: &[BLOCK_ORIGIN, CYLINDERS],
    takes: &[BLOCK_CAPS, BLOCK_MATERIAL, BLOCK_FILL, LAYOUT],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// The most power for this block, and the text that says so; or why none is known.
pub(crate) fn limit(f: &Facts<'_>) -> Result<(f64, TextNumber), Outcome> {
    let (power, text) = match (f.choice(BLOCK_ORIGIN), f.choice(BLOCK_CAPS)) {
        (Some("production"), Some("two-bolt")) => (500.0, text::TWO_BOLT),
        (Some("production"), Some(_)) => (650.0, text::FOUR_BOLT),
        (Some("production"), None) => return Err(CannotSay(reason::CAPS_NOT_STATED)),
        (Some("aftermarket"), _)
            if f.is(BLOCK_MATERIAL, &["grey-iron", "compacted-iron"]) && !f.is(BLOCK_FILL, &["half", "full"]) =>
        {
            (1_500.0, text::AFTERMARKET_IRON)
        }
        _ => return Err(NotApplicable(reason::NO_FIGURE)),
    };
    // a main between every two cylinders carries one throw, not two
    let mains = if f.is(LAYOUT, &["inline"]) { 1.6 } else { 1.0 };
    Ok((mains * for_eight(hp(power), f), text))
}

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    match limit(f) {
        Ok((power, text)) => a.window(Window::at_most(power).text(text)),
        Err(outcome) => return outcome,
    }
    Answered
}
