//! The angle of the honing marks.

use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "crosshatch",
    title: "Crosshatch",
    operation: "block",
    why: "Too flat, the rings skip over the marks and lose their oil; too steep, they pump it and spin.",
    source: "common practice, no source: 40 to 50 degrees usual, 25 to 30 with low-tension rings, up to 60",
    judges: &["crosshatch-angle"],
    texts: &[Text {
        low: Remedy::say("Hone {place} with more strokes or a slower spindle."),
        high: Remedy::say("Hone {place} with fewer strokes or a faster spindle."),
        ..Text::new("between the marks, as seen across the bore")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(_: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::between(degrees(25.0), degrees(60.0)).aim(degrees(45.0)).levels(Note, Note));
    Answered
}
