//! What is out of balance against what the mains have from the pistons anyway.

use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "balance-force",
    title: "Unbalance against the mains' load",
    operation: "crank",
    why: "A piston's pull comes and goes; an unbalance pulls one way round on every turn, and the mains show it first.",
    source: "common practice, no source: a twentieth of one piston's pull",
    judges: &["balance.residual.share"],
    texts: &[Text {
        high: Remedy::say("It pulls {fact:balance.residual.force} on an end main at top speed: balance it again."),
        ..Text::new("of one piston's pull, what the machine left in the worse plane")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(_: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::at_most(percent(5.0)));
    Answered
}
