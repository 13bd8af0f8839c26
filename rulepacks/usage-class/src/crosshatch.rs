//! The crosshatch against the ring that runs on it.

use crate::facts::TOP_RING;
use crate::ring_pack::thin;
use thou_sdk::prelude::*;

texts![
    THIN_RINGS = Text {
        low: Remedy::say("Faster strokes or slower spindle on {place}."),
        high: Remedy::say("Slower strokes or faster spindle on {place}. As it is, it suits thicker rings."),
        ..Text::new("thin rings of low tension")
    },
    ORDINARY_RINGS = Text {
        low: Remedy::say("Faster strokes or slower spindle on {place}. As it is, it suits thin rings of low tension."),
        high: Remedy::say("Slower strokes or faster spindle on {place}."),
        ..Text::new("rings of ordinary height and tension")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "crosshatch",
    title: "Crosshatch angle",
    operation: "block",
    why: "A steep hatch feeds a ring more oil than a weak one can scrape; a flat one starves it and lets it spin less.",
    source: "common practice, no source; the angle is the whole one between the lines, as seen across the bore",
    judges: &["crosshatch-angle"],
    needs: &[TOP_RING],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let window = if thin(f.of(TOP_RING)) {
        Window::between(degrees(25.0), degrees(35.0)).text(text::THIN_RINGS)
    } else {
        Window::between(degrees(35.0), degrees(50.0)).text(text::ORDINARY_RINGS)
    };
    a.window(window.levels(Note, Note));
    Answered
}
