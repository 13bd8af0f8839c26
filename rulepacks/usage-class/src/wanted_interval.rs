//! The passes wanted between freshens against what the use gives.

use crate::common::{UNKNOWN_USE, Usage, usage};
use crate::facts::USE;
use thou_sdk::prelude::*;

reasons![UNKNOWN_USE, COUNTS_MILES = "a street engine counts miles"];

texts![
    BRACKET = Text {
        high: Remedy::say(
            "Plan for {high} or fewer, or a lower shift speed, lighter springs and thicker rings. No drag engine we know goes further.",
        ),
        ..Text::new("bracket")
    },
    ALL_OUT = Text {
        high: Remedy::say(
            "Plan for {high} or fewer, or build it as a bracket engine: lower shift speed, lighter springs, thicker rings.",
        ),
        ..Text::new("all-out")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "wanted-interval",
    title: "Passes wanted between freshens",
    operation: "combination",
    why: "Bearings and rings wear by the pass and by how hard it is; wanting more of them does not make more of them.",
    source: "common practice, no source: half again what an ordinary plan has for rings and rod bearings",
    judges: &["freshen.wanted"],
    needs: &[USE],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// The most passes between freshens that a use gives.
pub(crate) fn limit(usage: Usage) -> Option<f64> {
    usage.pick(None, Some(375.0), Some(90.0))
}

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(usage) = usage(f) else { return CannotSay(reason::UNKNOWN_USE) };
    let Some(passes) = limit(usage) else { return NotApplicable(reason::COUNTS_MILES) };
    a.window(Window::at_most(passes).text(if usage == Usage::AllOut { text::ALL_OUT } else { text::BRACKET }));
    Answered
}
