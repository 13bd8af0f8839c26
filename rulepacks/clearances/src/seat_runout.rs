//! Seats true to their guides.

use crate::common::by_use;
use crate::facts::USE;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "seat-runout",
    title: "Seat runout",
    operation: "heads",
    why: "A valve on a seat that is off its guide bends at every closing until the head comes off.",
    source: "common practice, no source; factory service manuals: 2.0 thou at most",
    judges: &["seat.runout"],
    needs: &[USE],
    texts: &[Text {
        high: Remedy::say("Cut the seat of {place} again on a pilot that fits; look at the guide first."),
        ..Text::new("total reading to the guide")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let new = Window::at_most(by_use(f, thou(1.0), thou(1.0), thou(0.5))).never_above(thou(4.0));
    a.window(new);
    a.window(Window { high: Some(thou(2.0)), ..new }.reuse());
    Answered
}
