//! Size of the main housings.

use crate::common::{ROLLER, roller, work};
use crate::facts::{BEARING, MAIN_HOUSING_HIGH, MAIN_HOUSING_LOW};
use thou_sdk::prelude::*;

reasons![ROLLER, NO_CARD = "the sheet has no card limits (block.card.main-housing-low and -high)"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "main-housing-size",
    title: "Main housing size",
    operation: "block",
    why: "The housing's size is the shell's crush. Half a thou too large on diameter loosens each half shell by 0.8 \
          along its length, which is most of the crush it had; a loose shell turns.",
    basis: Maker,
    source: "the block's card",
    hold_source: Some("the card's largest size and half a thou: each half shell then loses pi/4 of a thou of crush"),
    judges: &["main-housing.diameter"],
    takes: &[BEARING, MAIN_HOUSING_LOW, MAIN_HOUSING_HIGH],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::solve("Line hone {place} to {solve}.", "main-housing.diameter", "up"),
        high: Remedy::say("Cut the cap of {place} and line hone it back to the middle of the band."),
        ..Text::card("with the studs, torque and lubricant that stay", "block card")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if roller(f) {
        return NotApplicable(reason::ROLLER);
    }
    let (Some(low), Some(high)) = (f.get(MAIN_HOUSING_LOW), f.get(MAIN_HOUSING_HIGH)) else {
        return CannotSay(reason::NO_CARD);
    };
    a.window(work(low, high).never_above(high + thou(0.5)));
    Answered
}
