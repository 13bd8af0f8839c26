//! Compression counted from where the inlet closes.

use crate::common::PRESSED;
use crate::facts::{ADDER, FUEL};
use thou_sdk::prelude::*;

reasons![
    BOOSTED = "a pressed charge fills the cylinder past its volume: this figure does not count",
    ETHANOL = "no school's figure is known for ethanol",
];

texts![
    PUMP_PETROL = Text {
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
    RACE_PETROL = Text {
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
    METHANOL = Text {
        high: Remedy::solve(
            "Inlet centre line to {solve} and read piston-to-valve again, or less static compression.",
            "cam.centre-line.inlet",
            "either",
        ),
        ..Text::new("methanol, from the inlet's seat timing")
    },
];

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
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(ADDER, PRESSED) {
        return NotApplicable(reason::BOOSTED);
    }
    match f.choice(FUEL) {
        Some("petrol-pump") => a.window(Window::between(7.5, 8.5).levels(Note, Warn).text(text::PUMP_PETROL)),
        Some("petrol-race") => a.window(Window::between(9.0, 10.0).levels(Note, Warn).text(text::RACE_PETROL)),
        Some("methanol") => a.window(Window::at_most(11.0).text(text::METHANOL)),
        _ => return CannotSay(reason::ETHANOL),
    }
    Answered
}
