//! What the balancing machine left.

use crate::common::{UNKNOWN_USE, class};
use crate::facts::USE;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "residual-balance",
    title: "Residual unbalance",
    operation: "crank",
    why: "What is left turns on the end mains; they are the first to look used.",
    source: "common practice, no source; far closer than a standard grade for crank drives asks; all-out, the looser school's",
    judges: &["balance.residual.front", "balance.residual.rear"],
    needs: &[USE],
    reasons: &[UNKNOWN_USE],
    texts: &[
        Text { high: Remedy::say("Balance it again to {high} or less in each plane."), ..Text::new("street, a plane") },
        Text {
            high: Remedy::say("Balance it again to {high} or less in each plane. As it is, it suits the street."),
            ..Text::new("bracket, a plane")
        },
        Text {
            high: Remedy::say("Balance it again to {high} or less in each plane. As it is, it suits a bracket engine."),
            ..Text::new("all-out, a plane")
        },
    ],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(class) = class(f) else { return CannotSay(0) };
    let high = ounce_inches(class.pick(1.0, 0.5, 0.25));
    for fact in [0, 1] {
        a.window(Window::at_most(high).judging(fact).text(class.text()));
    }
    Answered
}
