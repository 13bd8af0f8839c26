//! The power that the rods' maker sells them for.

use crate::facts::ROD_RATING;
use thou_sdk::prelude::*;

reasons![NO_RATING = "the rods' card gives no power"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "rod-rating",
    title: "Power against the rods' rating",
    operation: "combination",
    why: "The maker has seen which power bends his rods.",
    basis: Maker,
    source: "the rods' card",
    judges: &["target.power"],
    takes: &[ROD_RATING],
    reasons: REASONS,
    texts: &[Text {
        high: Remedy::say("Rods rated for this power; these suit up to {high}."),
        ..Text::card("the rods' rating", "rod card")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(rating) = f.get(ROD_RATING) else { return NotApplicable(reason::NO_RATING) };
    a.window(Window::at_most(rating).never_above(rating));
    Answered
}
