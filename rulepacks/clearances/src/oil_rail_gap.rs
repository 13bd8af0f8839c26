//! End gap of the oil rails.

use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "oil-rail-gap",
    title: "Oil rail gap",
    operation: "rings",
    why: "A rail that butts buckles off its expander and scores the bore; a wide one leaves a stripe of oil.",
    source: "trade sources: 15 thou at least, makers to 50",
    hold_basis: Some(Published),
    hold_source: Some("factory service manuals, several makers: from 10 thou"),
    judges: &["ring.rail.gap"],
    texts: &[Text {
        low: Remedy::solve("File the rails of {place} to {solve}.", "ring.rail.gap", "up"),
        high: Remedy::say("Swap the rails of {place} if it burns oil."),
        ..Text::new("the smaller of the two rails")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(_: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::between(thou(15.0), thou(50.0)).never_below(thou(10.0)).levels(Warn, Note));
    Answered
}
