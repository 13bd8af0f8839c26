//! Hydraulic lifters against the speed.

use crate::facts::LIFTER;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "hydraulic-lifter-speed",
    title: "Speed of hydraulic lifters",
    operation: "combination",
    why: "Past its speed a hydraulic lifter pumps up when the valve floats, and holds it off its seat.",
    source: "common practice, no source; of rollers the looser school's, with the spring that they ask for",
    judges: &["top-speed"],
    needs: &[LIFTER],
    reasons: &["the lifters are not hydraulic"],
    texts: &[
        Text {
            high: Remedy::solve("Limiter to {solve}, or solid lifters. These suit the street.", "limiter", "down"),
            ..Text::new("flat hydraulic lifters")
        },
        Text {
            high: Remedy::solve(
                "Limiter to {solve}, or solid rollers. These suit the street or a mild bracket engine.",
                "limiter",
                "down",
            ),
            ..Text::new("hydraulic rollers")
        },
    ],
    assess,
    ..Rule::WINDOW
};

/// The highest speed of hydraulic lifters, and its text.
pub(crate) fn limit(f: &Facts<'_>) -> Option<(f64, u32)> {
    match f.choice(LIFTER) {
        Some("flat-hydraulic") => Some((rpm(6_500.0), 0)),
        Some("roller-hydraulic") => Some((rpm(7_200.0), 1)),
        _ => None,
    }
}

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some((speed, text)) = limit(f) else { return NotApplicable(0) };
    a.window(Window::at_most(speed).text(text));
    Answered
}
