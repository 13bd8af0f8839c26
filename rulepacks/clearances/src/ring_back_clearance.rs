//! Room behind the rings.

use crate::common::by_use;
use crate::facts::{GAS_PORTS, USE};
use thou_sdk::prelude::*;

const PROUD: Option<Remedy> = Remedy::say("Wrong ring or wrong groove at {place}: swap one of them before it goes in.");

judges![TOP = "ring.top.back-clearance", OIL = "ring.oil.back-clearance"];

texts![
    TOP = Text {
        low: PROUD,
        high: Remedy::say("Swap in a ring with a deeper wall or shim behind it; look that the ring is the groove's."),
        ..Text::new("top ring behind the land, for this use")
    },
    OIL = Text { low: PROUD, ..Text::new("oil ring behind the land") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "ring-back-clearance",
    title: "Ring back clearance",
    operation: "rings",
    why: "A ring that bottoms in its groove holds the piston off the wall by itself; a large space behind it fills \
          before the ring seals.",
    source: "common practice, no source; a ring maker's tip for the oil ring: 15 thou at least",
    hold_basis: Some(Physics),
    hold_source: Some("geometry: the ring stands proud of its land"),
    judges: JUDGES,
    needs: &[USE],
    takes: &[GAS_PORTS],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let (low, high) = match f.choice(GAS_PORTS) {
        Some("vertical" | "lateral") => (3.0, 8.0),
        _ => by_use(f, (2.0, 20.0), (2.0, 20.0), (2.0, 12.0)),
    };
    let top = Window::between(thou(low), thou(high)).never_below(0.0).levels(Warn, Note);
    a.window(top.judging(judged::TOP).text(text::TOP));
    a.window(Window::at_least(thou(15.0)).never_below(0.0).judging(judged::OIL).text(text::OIL));
    Answered
}
