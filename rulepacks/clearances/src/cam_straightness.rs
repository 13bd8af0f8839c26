//! How straight the cam is.

use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "cam-straightness",
    title: "Cam straightness",
    operation: "mock-up",
    why: "A bent cam binds in its bearings, and adds to the lift of one lobe what it takes from another.",
    basis: Published,
    source: "factory service manuals: 0.8 to 2 thou when new, 1.6 to 4 at the limit, total reading",
    hold_basis: Some(Practice),
    hold_source: Some("common practice, no source, five times a manual's limit: 20 thou"),
    judges: &["cam.runout"],
    texts: &[Text {
        high: Remedy::say("Read it again on its end journals; have the cam straightened, or swap it."),
        ..Text::new("total reading at the middle")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(_: &Facts<'_>, a: &mut Answer) -> Outcome {
    let new = Window::at_most(thou(2.0)).never_above(thou(20.0));
    a.window(new);
    a.window(Window { high: Some(thou(4.0)), ..new }.reuse());
    Answered
}
