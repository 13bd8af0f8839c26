//! Stretch of the rod bolts when they are set.

use crate::common::roller;
use crate::facts::{BEARING, CARD_STRETCH_HIGH, CARD_STRETCH_LOW};
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "rod-bolt-stretch",
    title: "Rod bolt stretch",
    operation: "rods-and-pistons",
    why: "Stretch is the clamp itself, where a torque is mostly friction. A bolt set short works loose and breaks; \
          one set long has yielded. Either puts the rod through the block.",
    basis: Maker,
    source: "the bolt's card",
    judges: &["rod-bolt.stretch", "rod-bolt.stretch.max"],
    takes: &[BEARING, CARD_STRETCH_LOW, CARD_STRETCH_HIGH],
    reasons: &[
        "the big end runs in rollers: the rod is in one piece and has no bolts",
        "the sheet has no stretch from the bolts' card (fasteners.rod-bolts.card.stretch-low and -high)",
    ],
    texts: &[
        Text {
            low: Remedy::say("Bring the short bolt of {place} up to its card's stretch; read it again from loose."),
            ..Text::card("the shorter of this rod's bolts", "rod-bolt card")
        },
        Text {
            high: Remedy::say("Take the bolt of {place} out and swap it: it may have yielded."),
            ..Text::card("the longer of this rod's bolts", "rod-bolt card")
        },
    ],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if roller(f) {
        return NotApplicable(0);
    }
    let (Some(low), Some(high)) = (f.get(CARD_STRETCH_LOW), f.get(CARD_STRETCH_HIGH)) else { return CannotSay(1) };
    a.window(Window::at_least(low).never_below(low));
    a.window(Window::at_most(high).never_above(high).judging(1).text(1));
    Answered
}
