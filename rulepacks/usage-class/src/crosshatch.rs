//! The crosshatch against the ring that runs on it.

use crate::facts::TOP_RING;
use crate::ring_pack::thin;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "crosshatch",
    title: "Crosshatch angle",
    operation: "block",
    why: "A steep hatch feeds a ring more oil than a weak one can scrape; a flat one starves it and lets it spin less.",
    source: "common practice, no source; the angle is the whole one between the lines, as seen across the bore",
    judges: &["crosshatch-angle"],
    needs: &[TOP_RING],
    texts: &[
        Text {
            low: Remedy::say("Faster strokes or slower spindle on {place}."),
            high: Remedy::say("Slower strokes or faster spindle on {place}. As it is, it suits thicker rings."),
            ..Text::new("thin rings of low tension")
        },
        Text {
            low: Remedy::say(
                "Faster strokes or slower spindle on {place}. As it is, it suits thin rings of low tension.",
            ),
            high: Remedy::say("Slower strokes or faster spindle on {place}."),
            ..Text::new("rings of ordinary height and tension")
        },
    ],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let window = if thin(f.of(TOP_RING)) {
        Window::between(degrees(25.0), degrees(35.0))
    } else {
        Window::between(degrees(35.0), degrees(50.0)).text(1)
    };
    a.window(window.levels(Note, Note));
    Answered
}
