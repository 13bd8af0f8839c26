//! Compression counted from where the inlet closes.

use crate::common::PRESSED;
use crate::facts::{ADDER, FUEL};
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "effective-compression",
    title: "Effective compression",
    operation: "mock-up",
    why: "What is still in the cylinder when the inlet closes is what gets squeezed: a short cam makes a fair static \
          ratio knock, and a long one makes it lazy.",
    basis: Published,
    source: "trade article: 7.5 for the street, 9 for racing; the edges around them are common practice, no source",
    judges: &["compression.effective"],
    needs: &[FUEL],
    takes: &[ADDER],
    reasons: &[
        "a pressed charge fills the cylinder past its volume: this figure does not count",
        "no school's figure is known for ethanol",
    ],
    texts: &[
        Text {
            low: Remedy::solve(
                "Lazy off the line: inlet centre line to {solve}, or a shorter cam. So long a cam suits a bracket engine.",
                "cam.centre-line.inlet",
                "either",
            ),
            high: Remedy::solve(
                "Inlet centre line to {solve} and read piston-to-valve again, or less static compression. As it is, \
                 it suits a bracket engine on race petrol.",
                "cam.centre-line.inlet",
                "either",
            ),
            ..Text::new("pump petrol, from the inlet's seat timing")
        },
        Text {
            low: Remedy::solve(
                "More static compression, or inlet centre line to {solve}; as it is, pump petrol would do.",
                "cam.centre-line.inlet",
                "either",
            ),
            high: Remedy::solve(
                "Inlet centre line to {solve} and read piston-to-valve again, or less static compression, or methanol.",
                "cam.centre-line.inlet",
                "either",
            ),
            ..Text::new("race petrol, from the inlet's seat timing")
        },
        Text {
            high: Remedy::solve(
                "Inlet centre line to {solve} and read piston-to-valve again, or less static compression.",
                "cam.centre-line.inlet",
                "either",
            ),
            ..Text::new("methanol, from the inlet's seat timing")
        },
    ],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(ADDER, PRESSED) {
        return NotApplicable(0);
    }
    match f.choice(FUEL) {
        Some("petrol-pump") => a.window(Window::between(7.5, 8.5).levels(Note, Warn)),
        Some("petrol-race") => a.window(Window::between(9.0, 10.0).levels(Note, Warn).text(1)),
        Some("methanol") => a.window(Window::at_most(11.0).text(2)),
        _ => return CannotSay(1),
    }
    Answered
}
