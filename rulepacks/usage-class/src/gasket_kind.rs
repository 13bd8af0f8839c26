//! The kind of head gasket against the pressure.

use crate::common::PRESSED;
use crate::facts::{ADDER, GASKET};
use thou_sdk::prelude::*;

reasons![
    COPPER =
        "copper with a ring in the block has no figure here; it wants its coolant sealed and its studs tightened again",
];

texts![
    COMPOSITE = Text {
        high: Remedy::say("A multi-layer steel gasket on a finer deck; composite suits a street engine up to {high}."),
        ..Text::new("composite gasket")
    },
    COMPOSITE_PRESSED = Text {
        high: Remedy::say(
            "A multi-layer steel gasket on a finer deck; composite under boost suits no more than {high}."
        ),
        ..Text::new("composite gasket under boost or nitrous")
    },
    STEEL_LAYERS = Text {
        high: Remedy::say("Copper, and a ring in the block or head. Steel layers suit a bracket engine up to {high}."),
        ..Text::new("multi-layer steel gasket, the looser school")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "gasket-kind",
    title: "Head gasket for the pressure",
    operation: "heads",
    why: "A gasket that is past its pressure leaks a little each pass, burns its ring, and then takes the deck with it.",
    source: "common practice, no source; heavy diesels are sealed at 2,600 psi on steel layers",
    judges: &["peak-pressure.best"],
    needs: &[GASKET],
    takes: &[ADDER],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let window = match f.choice(GASKET) {
        Some("composite") if f.is(ADDER, PRESSED) || f.is(ADDER, &["nitrous"]) => {
            Window::at_most(psi(1_000.0)).text(text::COMPOSITE_PRESSED)
        }
        Some("composite") => Window::at_most(psi(1_300.0)).text(text::COMPOSITE),
        Some("mls") => Window::at_most(psi(2_600.0)).text(text::STEEL_LAYERS),
        _ => return NotApplicable(reason::COPPER),
    };
    a.window(window);
    Answered
}
