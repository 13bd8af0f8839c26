//! The power that the rods' maker sells them for.

use crate::facts::ROD_RATING;
use thou_sdk::prelude::*;

reasons![NO_RATING = "the rods' card gives no power"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "rod-rating",
    title: "Power against the rods' rating",
    operation: "combination",
    why: "The maker has seen which power bends his rods; a power says nothing of speed and piston mass, which the rod bolts are \
          judged by.",
    basis: Maker,
    source: "the rods' card",
    hold_basis: Some(Practice),
    hold_source: Some("common practice, no source: three tenths past the rating"),
    judges: &["target.power"],
    takes: &[ROD_RATING],
    reasons: REASONS,
    texts: &[Text {
        high: Remedy::say("Rods rated for this power; these suit up to {high}."),
        hold_basis: Some(Practice),
        ..Text::card("the rods' rating", "rod card")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(rating) = f.get(ROD_RATING) else { return NotApplicable(reason::NO_RATING) };
    a.window(Window::at_most(rating).never_above(1.3 * rating));
    Answered
}
