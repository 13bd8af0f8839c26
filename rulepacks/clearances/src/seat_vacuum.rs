//! Proof of the seats.

use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "seat-vacuum",
    title: "Seat vacuum",
    operation: "heads",
    why: "A seat that does not hold a vacuum dry leaks under fire, and the leak burns its own way wider.",
    source: "common practice, no source; a seat that holds less than 5 inHg is not shut",
    judges: &["seat.vacuum"],
    texts: &[Text {
        low: Remedy::say("Blue {place} and cut its seat again; a seat that held is done, lapping afterwards harms it."),
        ..Text::new("holding at the port, valve shut and dry; compare with the same pump only")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(_: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::at_least(inches_of_mercury(20.0)).never_below(inches_of_mercury(5.0)));
    Answered
}
