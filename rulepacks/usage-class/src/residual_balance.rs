//! What the balancing machine left.

use crate::common::{UNKNOWN_USE, usage};
use crate::facts::USE;
use thou_sdk::prelude::*;

judges![FRONT = "balance.residual.front", REAR = "balance.residual.rear"];

reasons![UNKNOWN_USE];

texts![
    STREET =
        Text { high: Remedy::say("Balance it again to {high} or less in each plane."), ..Text::new("street, a plane") },
    BRACKET = Text {
        high: Remedy::say("Balance it again to {high} or less in each plane. As it is, it suits the street."),
        ..Text::new("bracket, a plane")
    },
    ALL_OUT = Text {
        high: Remedy::say("Balance it again to {high} or less in each plane. As it is, it suits a bracket engine."),
        ..Text::new("all-out, a plane")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "residual-balance",
    title: "Residual unbalance",
    operation: "crank",
    why: "What is left turns on the end mains; they are the first to look used.",
    source: "common practice, no source; far closer than a standard grade for crank drives asks; all-out, the looser school's",
    judges: JUDGES,
    needs: &[USE],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(usage) = usage(f) else { return CannotSay(reason::UNKNOWN_USE) };
    let (high, text) = usage.pick((1.0, text::STREET), (0.5, text::BRACKET), (0.25, text::ALL_OUT));
    for judged in [judged::FRONT, judged::REAR] {
        a.window(Window::at_most(ounce_inches(high)).judging(judged).text(text));
    }
    Answered
}
