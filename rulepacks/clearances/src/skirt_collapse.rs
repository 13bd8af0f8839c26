//! Skirts that have given.

use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "skirt-collapse",
    title: "Skirt collapse",
    operation: "rods-and-pistons",
    why: "A skirt that has given lets its piston rock: the rings lift off the wall, and the pin bosses crack.",
    source: "common practice, no source",
    hold_source: Some("common practice, no source: 10 thou"),
    judges: &["piston.skirt-collapse"],
    texts: &[Text {
        high: Remedy::say("Swap the piston of {place}; look at its bore and for cracks over the pin."),
        ..Text::new("skirt smaller than new")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(_: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::at_most(thou(2.0)).never_above(thou(10.0)));
    Answered
}
