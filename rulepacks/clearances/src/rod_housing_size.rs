//! Size of the rod housings.

use crate::common::{ROLLER, roller, work};
use crate::facts::{BEARING, ROD_HOUSING_HIGH, ROD_HOUSING_LOW};
use thou_sdk::prelude::*;

reasons![ROLLER, NO_CARD = "the sheet has no card limits (rods.card.housing-low and -high)"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "rod-housing-size",
    title: "Rod housing size",
    operation: "rods-and-pistons",
    why: "The housing's size is the shell's crush. Half a thou too large on diameter loosens each half shell by 0.8 \
          along its length, which is most of the crush it had; a loose shell turns.",
    basis: Maker,
    source: "the rod's card",
    hold_source: Some("the card's largest size and half a thou: each half shell then loses pi/4 of a thou of crush"),
    judges: &["rod-housing.diameter"],
    takes: &[BEARING, ROD_HOUSING_LOW, ROD_HOUSING_HIGH],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::solve("Hone {place} to {solve}.", "rod-housing.diameter", "up"),
        high: Remedy::say(
            "Resize {place}: cut the cap and hone it back; a cap that is dowelled or cracked apart cannot be cut, \
             swap the rod.",
        ),
        ..Text::card("bolts at their final stretch", "rod card")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if roller(f) {
        return NotApplicable(reason::ROLLER);
    }
    let (Some(low), Some(high)) = (f.get(ROD_HOUSING_LOW), f.get(ROD_HOUSING_HIGH)) else {
        return CannotSay(reason::NO_CARD);
    };
    a.window(work(low, high).never_above(high + thou(0.5)));
    Answered
}
