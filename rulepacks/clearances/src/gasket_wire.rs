//! The wire ring that bites into the gasket.

use crate::facts::{GASKET, GASKET_THICKNESS, GASKET_WIRE};
use thou_sdk::prelude::*;

const SHIM: Option<Remedy> =
    Remedy::say("Shim the wire of {place}, or swap in a thicker one, and read it all round again.");
const DRESS: Option<Remedy> = Remedy::say("Dress the wire of {place} down; look that it lands inside the receiver.");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "gasket-wire",
    title: "Wire ring over the deck",
    operation: "block",
    why: "The wire puts the clamp where the fire is: too low, it does nothing; too high, it holds the head off the \
          deck and bends the faces.",
    source: "an engine shop's page and an open reference work, one each; common practice for the spread",
    judges: &["gasket.wire-protrusion", "gasket.wire-protrusion.spread"],
    needs: &[GASKET, GASKET_THICKNESS],
    takes: &[GASKET_WIRE],
    reasons: &["the sheet names no wire ring", "steel-layer gaskets carry their own bead and want no wire"],
    texts: &[
        Text { low: SHIM, high: DRESS, ..Text::new("over the deck, under a composite") },
        Text {
            high: DRESS,
            ..Text::new(
                "over the deck, under copper: one school stops at a tenth of the thickness, the other goes to a \
                 quarter where the head has a receiver",
            )
        },
        Text {
            high: Remedy::say("Shim the low wires or dress the high ones until they agree."),
            ..Text::new("highest wire to lowest")
        },
    ],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.flag(GASKET_WIRE) != Some(true) {
        return NotApplicable(0);
    }
    match f.choice(GASKET) {
        Some("composite") => a.window(Window::between(thou(8.0), thou(12.0)).aim(thou(10.0))),
        Some("copper") => a.window(Window::at_most(0.25 * f.of(GASKET_THICKNESS)).text(1)),
        _ => return NotApplicable(1),
    }
    a.window(Window::at_most(thou(1.0)).judging(1).text(2));
    Answered
}
