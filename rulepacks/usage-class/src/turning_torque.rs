//! What it takes to turn the short block.

use crate::facts::{BORE, CYLINDERS};
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "turning-torque",
    title: "Torque to turn the short block",
    operation: "assembly",
    why: "The wrench feels what no gauge was put to: a cap the wrong way round, a bent ring rail, a tight pin, a crank that \
          binds.",
    source: "common practice, no source: short blocks of 4 in bore with rings turn at 15 to 30 lb-ft with eight cylinders, by \
             bore and cylinders elsewhere",
    hold_source: Some("common practice, no source: a short block that takes twice that binds"),
    judges: &["turning-torque"],
    needs: &[CYLINDERS, BORE],
    texts: &[Text {
        high: Remedy::say("Turn it with each rod off in turn, then the caps one after another, until it goes free."),
        ..Text::new("short block with rings, once it moves")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let holes = f.of(CYLINDERS) * f.of(BORE) / inches(4.0);
    a.window(Window::at_most(foot_pounds(6.0 + 4.0 * holes)).never_above(foot_pounds(12.0 + 8.0 * holes)));
    Answered
}

/// Foot-pounds to newton metres.
fn foot_pounds(x: f64) -> f64 {
    pounds(x) * 0.3048
}
