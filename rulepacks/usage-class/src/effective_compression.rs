//! Compression counted from where the inlet closes.

use crate::common::{PRESSED, small_and_many_valved};
use crate::facts::{ADDER, BORE, FUEL, VALVES};
use thou_sdk::prelude::*;

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
            "More static compression, or inlet centre line to {solve}.",
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
    ETHANOL = Text {
        high: Remedy::solve(
            "Inlet centre line to {solve} and read piston-to-valve again, or less static compression, or methanol.",
            "cam.centre-line.inlet",
            "either",
        ),
        ..Text::new(
            "ethanol has no school's figure: it stands what methanol does at most, from the inlet's seat timing"
        )
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "effective-compression",
    title: "Effective compression",
    operation: "mock-up",
    why: "What is still in the cylinder when the inlet closes is what gets squeezed: a short cam makes a fair static \
          ratio knock, and a long one makes it lazy.",
    source: "common practice, no source: 7.5 for the street, 9 for racing, with the edges around them, and so is \
             what a small bore and four valves are given, one at most; a pressed charge stands no more",
    judges: &["compression.effective"],
    needs: &[FUEL],
    takes: &[ADDER, BORE, VALVES],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let more = small_and_many_valved(f).min(1.0);
    let window = match f.choice(FUEL) {
        Some("petrol-pump") => Window::between(7.5, 8.5 + more).text(text::PUMP_PETROL),
        Some("petrol-race") => Window::between(9.0, 10.0 + more).text(text::RACE_PETROL),
        Some("methanol") => Window::at_most(11.0 + more).text(text::METHANOL),
        _ => Window::at_most(11.0 + more).text(text::ETHANOL),
    };
    // what is pressed in makes up for a lazy figure, and leaves no room for a high one
    let window = if f.is(ADDER, PRESSED) { Window { low: None, ..window } } else { window };
    a.window(window.levels(Note, Warn));
    Answered
}
