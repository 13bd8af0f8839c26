//! A ring card that asks for less than any ring's maker does.

use crate::common::raced;
use crate::facts::{CARD_TOP_GAP, USE};
use thou_sdk::prelude::*;

reasons![NO_CARD = "no factor of the top ring's card on the sheet"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "ring-card",
    title: "Ring card",
    operation: "rings",
    why: "A card's figure goes before every table: a digit lost from it closes every gap in the engine.",
    source: "common practice, no source: makers ask for 1.5 thou an inch of bore and more on the street, 3.5 and more where it is raced",
    needs: &[USE],
    takes: &[CARD_TOP_GAP],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say("Read the card again, and whether it is for this use and this bore."),
        points_at: &["ring.card.top-gap-factor"],
        ..Text::new("the card's factor is less than any maker's for this use")
    }],
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(factor) = f.get(CARD_TOP_GAP) else { return NotApplicable(reason::NO_CARD) };
    if factor >= if raced(f) { 3.3e-3 } else { 1.4e-3 } {
        return Clear;
    }
    a.finding(Warn, TextNumber(0), &[]);
    Answered
}
