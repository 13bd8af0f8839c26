//! The head gasket's bore against the cylinder and its chamfer.

use crate::facts::{BORE, CHAMFER};
use thou_sdk::prelude::*;

texts![
    OVER_BORE = Text {
        low: Remedy::solve("Swap the gasket: its bore to {solve}.", "gasket.bore", "either"),
        high: Remedy::solve("A smaller gasket bore leaves less crevice: to {solve}.", "gasket.bore", "either"),
        ..Text::new("on diameter, over the bore; the chamfer at {place} is not read")
    },
    OVER_CHAMFER = Text {
        low: Remedy::solve("Swap the gasket: its bore to {solve}, over the chamfer.", "gasket.bore", "either"),
        high: Remedy::solve("A smaller gasket bore leaves less crevice: to {solve}.", "gasket.bore", "either"),
        ..Text::new("on diameter, over the chamfer")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "gasket-overhang",
    title: "Gasket bore over the cylinder",
    operation: "block",
    why: "A fire ring that hangs into the cylinder glows, lights the charge, and burns through. One that stands far \
          back leaves a ring of mixture that never burns.",
    source: "common practice, no source",
    hold_basis: Some(Physics),
    hold_source: Some("geometry: the fire ring stands in the cylinder"),
    judges: &["gasket.overhang"],
    needs: &[BORE],
    takes: &[CHAMFER],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let bore = f.of(BORE);
    let over_bore = Window::between(thou(20.0), thou(80.0)).never_below(0.0).levels(Warn, Note).text(text::OVER_BORE);
    let chamfers = f.all(CHAMFER);
    if chamfers.iter().all(|c| c.is_nan()) {
        a.window(over_bore);
        return Answered;
    }
    for (place, chamfer) in (0u32..).zip(chamfers) {
        if chamfer.is_nan() {
            a.window(over_bore.at(place));
        } else {
            let high = (bore + thou(80.0) - chamfer).max(thou(10.0));
            let over_chamfer = Window { low: Some(thou(10.0)), high: Some(high), ..over_bore }.text(text::OVER_CHAMFER);
            a.window(over_chamfer.at(place));
        }
    }
    Answered
}
