//! Rings up and down in their grooves.

use crate::common::{TOUCH, by_use, contact, raced, touches, work};
use crate::facts::{GAS_PORTS, RING_HEIGHT, USE};
use thou_sdk::prelude::*;

const GROOVE: Option<Remedy> =
    Remedy::say("Clean the groove of {place} and read it all round again; swap the ring or open the groove.");
const WORN: Option<Remedy> =
    Remedy::say("Swap the piston of {place}, or have the groove cut for a spacer; look at its tilt.");

judges![TOP = "ring.top.axial-clearance", SECOND = "ring.second.axial-clearance"];

texts![
    TOP = Text { low: GROOVE, high: WORN, ..Text::new("top ring, for its height") },
    SECOND = Text { low: GROOVE, high: WORN, ..Text::new("second ring, as the top ring's height has it") },
    CONTACT = Text { low: GROOVE, ..contact("contact: the ring sticks in its groove") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "ring-axial-clearance",
    title: "Ring side clearance",
    operation: "rings",
    why: "A ring that sticks in its groove does not seal; one with room to move hammers the groove and lets gas round \
          the back.",
    source: "common practice, no source; a trade article: 1.0 to 2.0 thou; factory service manuals: 0.6 to 3.9, a ring of \
             1.17 mm 1.8 to 3.1; worn to 3.1 to 3.9",
    hold_basis: Some(Practice),
    hold_source: Some("common practice, no source: over 5 thou on the street, 4 raced; contact: the ring sticks"),
    judges: JUDGES,
    needs: &[RING_HEIGHT, USE],
    takes: &[GAS_PORTS],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let thin = f.of(RING_HEIGHT) <= mm(1.2) * (1.0 + 1e-9);
    let (worn, never) = if raced(f) { (thou(3.0), thou(4.0)) } else { (thou(4.0), thou(5.0)) };
    for (judged, text) in [(judged::TOP, text::TOP), (judged::SECOND, text::SECOND)] {
        let top = judged == judged::TOP;
        let (low, high) = match (thin, f.choice(GAS_PORTS)) {
            (true, Some("vertical")) if top => (0.4, 1.2),
            (true, _) => by_use(f, (0.6, 2.4), (0.6, 2.4), (0.5, 1.5)),
            (false, _) => (1.2, 3.0),
        };
        let new = work(thou(low), thou(high)).never_above(never).judging(judged).text(text);
        a.window(new);
        a.window(Window { high: Some(worn), aim: None, ..new }.reuse());
        let touch = touches(TOUCH).judging(judged).text(text::CONTACT);
        a.window(touch);
        a.window(touch.reuse());
    }
    Answered
}
