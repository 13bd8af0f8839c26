//! The block and its main caps against the power.

use crate::common::for_eight;
use crate::facts::{BLOCK_CAPS, BLOCK_FILL, BLOCK_MATERIAL, BLOCK_ORIGIN, CYLINDERS};
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "block-and-caps",
    title: "Block and caps for the power",
    operation: "block",
    why: "Caps walk and webs crack long before a block looks tired; the fretting under the caps tells it first.",
    source: "common practice, no source: it differs from one family of castings to the next; quoted for eight cylinders \
             and counted by cylinder here",
    judges: &["target.power"],
    needs: &[BLOCK_ORIGIN, CYLINDERS],
    takes: &[BLOCK_CAPS, BLOCK_MATERIAL, BLOCK_FILL],
    reasons: &["no school's figure is known for this block", "write block.caps: a production block is judged by them"],
    texts: &[
        Text {
            high: Remedy::say("Four-bolt caps, or an aftermarket block. This one suits a street engine up to {high}."),
            ..Text::new("production block, two-bolt caps, the looser school")
        },
        Text {
            high: Remedy::say("An aftermarket block. This one suits a street or bracket engine up to {high}."),
            ..Text::new("production block, four bolts or better, the looser school")
        },
        Text {
            high: Remedy::say("Fill it, for drag racing alone, or a billet block."),
            ..Text::new("aftermarket iron block, the looser school")
        },
    ],
    assess,
    ..Rule::WINDOW
};

/// The most power for this block, and the text that says so.
pub(crate) fn limit(f: &Facts<'_>) -> Result<(f64, u32), u32> {
    let (power, text) = match (f.choice(BLOCK_ORIGIN), f.choice(BLOCK_CAPS)) {
        (Some("production"), Some("two-bolt")) => (500.0, 0),
        (Some("production"), Some(_)) => (650.0, 1),
        (Some("production"), None) => return Err(1),
        (Some("aftermarket"), _)
            if f.is(BLOCK_MATERIAL, &["grey-iron", "compacted-iron"]) && !f.is(BLOCK_FILL, &["half", "full"]) =>
        {
            (1_500.0, 2)
        }
        _ => return Err(0),
    };
    Ok((for_eight(hp(power), f), text))
}

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    match limit(f) {
        Ok((power, text)) => a.window(Window::at_most(power).text(text)),
        Err(1) => return CannotSay(1),
        Err(reason) => return NotApplicable(reason),
    }
    Answered
}
