//! Production rods against the power.

use crate::common::for_eight;
use crate::facts::{CYLINDERS, ROD_MATERIAL};
use thou_sdk::prelude::*;

reasons![NOT_POWDERED = "the rods are not of powdered metal"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "powdered-rods",
    title: "Power for powdered-metal rods",
    operation: "combination",
    why: "A cracked-cap powdered rod is straight and cheap, and gives no warning before it goes.",
    source: "common practice, no source; quoted for eight cylinders and counted by cylinder here",
    judges: &["target.power"],
    needs: &[ROD_MATERIAL, CYLINDERS],
    reasons: REASONS,
    texts: &[Text {
        high: Remedy::say("Forged steel rods; these suit a street engine up to {high}."),
        ..Text::new("powdered-metal rods")
    }],
    assess,
    ..Rule::WINDOW
};

/// The most for rods of powdered metal.
pub(crate) fn limit(f: &Facts<'_>) -> f64 {
    for_eight(hp(450.0), f)
}

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(ROD_MATERIAL, &["powdered"]) {
        return NotApplicable(reason::NOT_POWDERED);
    }
    a.window(Window::at_most(limit(f)));
    Answered
}
