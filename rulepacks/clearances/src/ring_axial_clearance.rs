//! Rings up and down in their grooves.

use crate::common::work;
use crate::facts::RING_HEIGHT;
use thou_sdk::prelude::*;

const GROOVE: Option<Remedy> =
    Remedy::say("Clean the groove of {place} and read it all round again; swap the ring or open the groove.");
const WORN: Option<Remedy> =
    Remedy::say("Swap the piston of {place}, or have the groove cut for a spacer; look at its tilt.");

judges![TOP = "ring.top.axial-clearance", SECOND = "ring.second.axial-clearance"];

texts![
    TOP = Text { low: GROOVE, high: WORN, ..Text::new("top ring, for its height") },
    SECOND = Text { low: GROOVE, high: WORN, ..Text::new("second ring, as the top ring's height has it") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "ring-axial-clearance",
    title: "Ring side clearance",
    operation: "rings",
    why: "A ring that sticks in its groove does not seal; one with room to move hammers the groove and lets gas round \
          the back.",
    source: "common practice, no source; a trade article: 1.0 to 2.0 thou; factory service manuals: 0.6 to 3.9",
    judges: JUDGES,
    needs: &[RING_HEIGHT],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let thin = f.of(RING_HEIGHT) <= mm(1.2) * (1.0 + 1e-9);
    let (low, high) = if thin { (0.6, 1.5) } else { (1.5, 3.0) };
    for (judged, text) in [(judged::TOP, text::TOP), (judged::SECOND, text::SECOND)] {
        let new = work(thou(low), thou(high)).never_below(thou(0.4)).judging(judged).text(text);
        a.window(new);
        a.window(Window { high: Some(thou(4.0)), aim: None, ..new }.reuse());
    }
    Answered
}
