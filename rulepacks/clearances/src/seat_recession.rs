//! Seats that have sunk.

use crate::common::raced;
use crate::facts::USE;
use thou_sdk::prelude::*;

const READ: Option<Remedy> = Remedy::say("Read {place} again from the same face: a seat does not rise.");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "seat-recession",
    title: "Seat recession",
    operation: "heads",
    why: "A seat that sinks takes the lash with it until the valve hangs open and burns.",
    source: "common practice, no source",
    hold_source: Some("common practice, no source: 60 thou on the street, 40 raced"),
    judges: &["seat.recession"],
    needs: &[USE],
    texts: &[Text {
        low: READ,
        high: Remedy::say("Fit a harder seat at {place}, or cut it again and set the height; look why it sank."),
        ..Text::new("sunk since it was cut")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let never = if raced(f) { thou(40.0) } else { thou(60.0) };
    a.window(Window::between(0.0, thou(5.0)).never_above(never));
    Answered
}
