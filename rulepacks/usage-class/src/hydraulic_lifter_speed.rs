//! Hydraulic lifters against the speed.

use crate::facts::{LIFTER, VALVETRAIN};
use thou_sdk::prelude::*;

reasons![NOT_HYDRAULIC = "the lifters are not hydraulic"];

texts![
    FLAT = Text {
        high: Remedy::solve("Limiter to {solve}, or solid lifters. These suit the street.", "limiter", "down"),
        ..Text::new("flat hydraulic lifters")
    },
    ROLLER = Text {
        high: Remedy::solve(
            "Limiter to {solve}, or solid rollers. These suit the street or a mild bracket engine.",
            "limiter",
            "down",
        ),
        ..Text::new("hydraulic rollers")
    },
    OVERHEAD = Text {
        high: Remedy::solve("Limiter to {solve}, or solid adjustment.", "limiter", "down"),
        ..Text::new("hydraulic adjusters without pushrods")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "hydraulic-lifter-speed",
    title: "Speed of hydraulic lifters",
    operation: "combination",
    why: "Past its speed a hydraulic lifter pumps up when the valve floats, and holds it off its seat.",
    source: "common practice, no source; of rollers the looser school's, with the spring that they ask for",
    judges: &["top-speed"],
    needs: &[LIFTER],
    takes: &[VALVETRAIN],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// The highest speed of hydraulic lifters, and its text.
pub(crate) fn limit(f: &Facts<'_>) -> Option<(f64, TextNumber)> {
    match f.choice(LIFTER) {
        // an adjuster under a finger or in a bucket has no pushrod to turn round
        Some("flat-hydraulic" | "roller-hydraulic") if f.is(VALVETRAIN, &["bucket", "finger"]) => {
            Some((rpm(7_800.0), text::OVERHEAD))
        }
        Some("flat-hydraulic") => Some((rpm(6_500.0), text::FLAT)),
        Some("roller-hydraulic") => Some((rpm(7_200.0), text::ROLLER)),
        _ => None,
    }
}

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some((speed, text)) = limit(f) else { return NotApplicable(reason::NOT_HYDRAULIC) };
    a.window(Window::at_most(speed).text(text));
    Answered
}
