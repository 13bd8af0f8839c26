//! What the crank is made of against power and speed.

use crate::common::{by_stroke, for_eight};
use crate::facts::{CRANK_MATERIAL, CYLINDERS, STROKE};
use thou_sdk::prelude::*;

judges![POWER = "target.power", SPEED = "top-speed"];

reasons![NO_FIGURE = "no school's figure is known for this kind of crank"];

texts![
    CAST = Text {
        high: Remedy::say("A forged crank; a cast one suits a street engine up to {high}."),
        ..Text::new("cast crank, the looser school")
    },
    CAST_SPEED = Text {
        high: Remedy::solve(
            "Limiter to {solve}, or a forged crank. A cast one suits a street engine.",
            "limiter",
            "down",
        ),
        ..Text::new("cast crank, speed")
    },
    FORGED = Text {
        high: Remedy::say("A billet crank; a forged one suits a bracket engine, or an all-out one up to {high}."),
        ..Text::new("forged crank, and no nodular one past it")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "crank-material",
    title: "Crank for power and speed",
    operation: "crank",
    why: "A crank is wound up by every stroke: a cast one cracks at the fillet where a forged one only flexes.",
    source: "common practice, no source; quoted for eight cylinders and counted by cylinder here; the speed \
             for a stroke of 3.75 in, by its root elsewhere",
    judges: JUDGES,
    needs: &[CRANK_MATERIAL, CYLINDERS],
    takes: &[STROKE],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// The most power for a crank of this kind, where anybody has a figure.
pub(crate) fn limit(f: &Facts<'_>) -> Option<f64> {
    match f.choice(CRANK_MATERIAL) {
        Some("cast") => Some(for_eight(hp(500.0), f)),
        // no school has nodular iron past forged steel
        Some("forged" | "nodular") => Some(for_eight(hp(1_200.0), f)),
        _ => None,
    }
}

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(power) = limit(f) else { return NotApplicable(reason::NO_FIGURE) };
    if f.is(CRANK_MATERIAL, &["cast"]) {
        a.window(Window::at_most(power).judging(judged::POWER).text(text::CAST));
        a.window(Window::at_most(rpm(6_500.0) * by_stroke(f)).judging(judged::SPEED).text(text::CAST_SPEED));
    } else {
        a.window(Window::at_most(power).judging(judged::POWER).text(text::FORGED));
    }
    Answered
}
