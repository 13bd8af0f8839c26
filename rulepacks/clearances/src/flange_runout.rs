//! The flange that the flywheel bolts to.

use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "flange-runout",
    title: "Crank flange runout",
    operation: "crank",
    why: "A flange that wobbles shakes the flywheel or the converter, and wears the rear main and the transmission.",
    source: "common practice, no source; a factory service manual allows 3 thou at the edge of the flywheel",
    hold_source: Some("common practice, no source: 20 thou"),
    judges: &["crank.flange-runout"],
    texts: &[Text {
        high: Remedy::say("Look for a burr or dirt and read it again; have the flange faced true to the mains."),
        ..Text::new("total reading on the face")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(_: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::at_most(thou(3.0)).never_above(thou(20.0)));
    Answered
}
