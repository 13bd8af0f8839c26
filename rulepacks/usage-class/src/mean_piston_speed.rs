//! Mean piston speed where it is shifted.

use crate::common::{UNKNOWN_USE, Usage, usage};
use crate::facts::{PISTON_ALLOY, STROKE, USE};
use thou_sdk::prelude::*;

reasons![UNKNOWN_USE];

texts![
    STREET = Text {
        high: Remedy::solve(
            "Shift at {solve}, or a shorter stroke. This speed suits a bracket engine.",
            "shift-speed",
            "down",
        ),
        ..Text::new("street, forged pistons")
    },
    BRACKET = Text {
        high: Remedy::solve(
            "Shift at {solve}, or a shorter stroke. This speed suits an all-out engine.",
            "shift-speed",
            "down",
        ),
        ..Text::new("bracket, forged pistons")
    },
    ALL_OUT = Text {
        high: Remedy::solve("Shift at {solve}, or a shorter stroke. Few have gone past it.", "shift-speed", "down",),
        ..Text::new("all-out, forged pistons")
    },
    CAST = Text {
        high: Remedy::solve(
            "Shift at {solve}, or forged pistons. This speed suits an engine with forged ones.",
            "shift-speed",
            "down",
        ),
        ..Text::new("cast pistons, in any use")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "mean-piston-speed",
    title: "Mean piston speed",
    operation: "combination",
    why: "Wear goes with how far the rings slide, breakage with the square of how fast: piston speed sets both, \
          whatever the engine's size.",
    source: "trade article, older: 3,500 stock, 4,000 forged, 5,000 drag, in feet a minute; today's looser figures are \
             common practice, no source, and so is the street's 4,700 under 2.4 in of stroke",
    hold_source: Some("common practice, no source: past what any engine of this kind has been run at"),
    judges: &["piston.speed.mean.at-shift"],
    needs: &[USE, PISTON_ALLOY],
    takes: &[STROKE],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// The most for a use and an alloy.
pub(crate) fn limit(usage: Usage, cast: bool) -> f64 {
    feet_a_minute(if cast { 3_600.0 } else { usage.pick(4_300.0, 4_900.0, 6_300.0) })
}

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(usage) = usage(f) else { return CannotSay(reason::UNKNOWN_USE) };
    let cast = f.is(PISTON_ALLOY, &["cast"]);
    let forged = usage.pick(text::STREET, text::BRACKET, text::ALL_OUT);
    let text = if cast { text::CAST } else { forged };
    let short = !cast && usage == Usage::Street && f.get(STROKE).is_some_and(|stroke| stroke < inches(2.4));
    let high = if short { feet_a_minute(4_700.0) } else { limit(usage, cast) };
    a.window(Window::at_most(high).never_above(feet_a_minute(7_000.0)).text(text));
    Answered
}
