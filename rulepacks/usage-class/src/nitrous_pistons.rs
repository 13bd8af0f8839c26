//! Nitrous against what the pistons are made of.

use crate::common::for_eight;
use crate::facts::{ADDER, CYLINDERS, PISTON_ALLOY};
use thou_sdk::prelude::*;

reasons![NO_NITROUS = "no nitrous"];

texts![
    CAST = Text {
        high: Remedy::say("Jet it down to {high}, or forged pistons. This much suits a bracket or all-out engine."),
        ..Text::new("cast pistons, hypereutectic ones too")
    },
    ALLOY_4032 = Text {
        high: Remedy::say("Jet it down to {high}, or 2618 pistons. This much suits an all-out engine."),
        ..Text::new("4032 pistons")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "nitrous-pistons",
    title: "Nitrous for these pistons",
    operation: "combination",
    why: "A cast land breaks where a forged one bends: one knocking pass on nitrous takes the top off it.",
    source: "common practice, no source; quoted for eight cylinders and counted by cylinder here",
    hold_source: Some("common practice, no source: as piston makers' instructions have it, from memory"),
    judges: &["adder.power"],
    needs: &[ADDER, PISTON_ALLOY, CYLINDERS],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(ADDER, &["nitrous"]) {
        return NotApplicable(reason::NO_NITROUS);
    }
    match f.choice(PISTON_ALLOY) {
        Some("cast" | "hypereutectic") => {
            let (high, never) = (for_eight(hp(125.0), f), for_eight(hp(150.0), f));
            a.window(Window::at_most(high).never_above(never).text(text::CAST));
        }
        Some("4032") => a.window(Window::at_most(for_eight(hp(200.0), f)).text(text::ALLOY_4032)),
        _ => return Clear,
    }
    Answered
}
