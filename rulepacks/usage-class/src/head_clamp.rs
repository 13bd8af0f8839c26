//! What holds the head down against what lifts it.

use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "head-clamp",
    title: "Head clamp against pressure",
    operation: "heads",
    why: "The gasket seals on what is left of the clamp when the cylinder fires; at the same torque one stud holds a \
          third more than the next, so two times is nothing in hand.",
    basis: Published,
    source: "trade article and machine-design handbooks: three times the lift, counted at rest; peak pressure is the builder's figure",
    judges: &["gasket.clamp-ratio"],
    texts: &[Text {
        low: Remedy::solve(
            "Clamp to {solve} a fastener: bigger or stronger studs, or more of them; or ring the block. This clamp \
             suits an engine of less peak pressure.",
            "head-fastener.clamp",
            "up",
        ),
        ..Text::new("clamp over lift at peak pressure, in any use")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(_: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::at_least(2.5).aim(3.0).never_below(2.0));
    Answered
}
