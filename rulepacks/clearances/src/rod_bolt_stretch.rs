//! Stretch of the rod bolts when they are set.

use crate::common::roller;
use crate::facts::{BEARING, CARD_STRETCH_HIGH, CARD_STRETCH_LOW, ROD_BOLT_METHOD};
use thou_sdk::prelude::*;

judges![SHORTER = "rod-bolt.stretch", LONGER = "rod-bolt.stretch.max"];

reasons![
    ONE_PIECE_ROD = "the big end runs in rollers: the rod is in one piece and has no bolts",
    BY_TORQUE = "tightened by torque or angle, and no card has their stretch",
    NO_CARD = "the sheet has no stretch from the bolts' card (fasteners.rod-bolts.card.stretch-low and -high)",
];

texts![
    SHORTER = Text {
        low: Remedy::say("Bring the short bolt of {place} up to its card's stretch; read it again from loose."),
        ..Text::card("the shorter of this rod's bolts", "rod-bolt card")
    },
    LONGER = Text {
        high: Remedy::say("Take the bolt of {place} out and swap it: it may have yielded."),
        ..Text::card("the longer of this rod's bolts", "rod-bolt card")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "rod-bolt-stretch",
    title: "Rod bolt stretch",
    operation: "rods-and-pistons",
    why: "Stretch is the clamp itself, where a torque is mostly friction. A bolt set short works loose and breaks; \
          one set long has yielded. Either puts the rod through the block.",
    basis: Maker,
    source: "the bolt's card",
    judges: JUDGES,
    takes: &[BEARING, CARD_STRETCH_LOW, CARD_STRETCH_HIGH, ROD_BOLT_METHOD],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if roller(f) {
        return NotApplicable(reason::ONE_PIECE_ROD);
    }
    let (Some(low), Some(high)) = (f.get(CARD_STRETCH_LOW), f.get(CARD_STRETCH_HIGH)) else {
        return if f.is(ROD_BOLT_METHOD, &["torque", "angle", "yield"]) {
            NotApplicable(reason::BY_TORQUE)
        } else {
            CannotSay(reason::NO_CARD)
        };
    };
    a.window(Window::at_least(low).never_below(low).judging(judged::SHORTER).text(text::SHORTER));
    a.window(Window::at_most(high).never_above(high).judging(judged::LONGER).text(text::LONGER));
    Answered
}
