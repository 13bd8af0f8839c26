//! The wire ring that bites into the gasket.

use crate::facts::{GASKET, GASKET_THICKNESS, GASKET_WIRE};
use thou_sdk::prelude::*;

const SHIM: Option<Remedy> =
    Remedy::say("Shim the wire of {place}, or swap in a thicker one, and read it all round again.");
const DRESS: Option<Remedy> = Remedy::say("Dress the wire of {place} down; look that it lands inside the receiver.");

judges![PROTRUSION = "gasket.wire-protrusion", SPREAD = "gasket.wire-protrusion.spread"];

reasons![
    NO_WIRE = "the sheet names no wire ring",
    STEEL_LAYERS = "steel-layer gaskets carry their own bead and want no wire",
];

texts![
    COMPOSITE = Text { low: SHIM, high: DRESS, ..Text::new("over the deck, under a composite") },
    COPPER = Text {
        high: DRESS,
        ..Text::new(
            "over the deck, under copper: one school stops at a tenth of the thickness, the other goes to a \
                 quarter where the head has a receiver",
        )
    },
    SPREAD = Text {
        high: Remedy::say("Shim the low wires or dress the high ones until they agree."),
        ..Text::new("highest wire to lowest")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "gasket-wire",
    title: "Wire ring over the deck",
    operation: "block",
    why: "The wire puts the clamp where the fire is: too low, it does nothing; too high, it holds the head off the \
          deck and bends the faces.",
    source: "an engine shop's page and an open reference work, one each; common practice for the spread",
    judges: JUDGES,
    needs: &[GASKET, GASKET_THICKNESS],
    takes: &[GASKET_WIRE],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.flag(GASKET_WIRE) != Some(true) {
        return NotApplicable(reason::NO_WIRE);
    }
    let window = match f.choice(GASKET) {
        Some("composite") => {
            Window::between(thou(8.0), thou(12.0)).aim(thou(10.0)).never_above(thou(15.0)).text(text::COMPOSITE)
        }
        Some("copper") => {
            let thickness = f.of(GASKET_THICKNESS);
            Window::at_most(0.25 * thickness).never_above(thickness / 3.0).text(text::COPPER)
        }
        _ => return NotApplicable(reason::STEEL_LAYERS),
    };
    a.window(window.judging(judged::PROTRUSION));
    a.window(Window::at_most(thou(1.0)).judging(judged::SPREAD).text(text::SPREAD));
    Answered
}
