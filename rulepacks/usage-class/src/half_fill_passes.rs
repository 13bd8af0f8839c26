//! A half-filled block against how often it runs.

use crate::common::{UNKNOWN_USE, Usage, usage};
use crate::facts::{BLOCK_FILL, USE};
use thou_sdk::prelude::*;

reasons![UNKNOWN_USE, NOT_HALF_FILLED = "not half filled, or not raced by passes"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "half-fill-passes",
    title: "Passes of a half-filled block",
    operation: "combination",
    why: "Half the jacket cools half as well: it stands rounds with a cool-down between, not a season of hot laps.",
    source: "common practice, no source; water and oil temperature decide",
    judges: &["passes-a-season"],
    needs: &[USE, BLOCK_FILL],
    reasons: REASONS,
    texts: &[Text {
        high: Remedy::say(
            "Idle it short and cool it between rounds, or a block without fill. This one suits up to {high} a season.",
        ),
        ..Text::new("half-filled block")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    match usage(f) {
        None => return CannotSay(reason::UNKNOWN_USE),
        Some(Usage::Bracket | Usage::AllOut) if f.is(BLOCK_FILL, &["half"]) => a.window(Window::at_most(250.0)),
        Some(_) => return NotApplicable(reason::NOT_HALF_FILLED),
    }
    Answered
}
