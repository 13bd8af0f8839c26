//! The crosshatch that is read against the one that the hone was set for.

use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "crosshatch-setting",
    title: "Crosshatch, read against set",
    operation: "block",
    why: "Strokes, stroke and spindle make the angle: where another one is read, a setting is not what the card says, or the angle was read the other way.",
    source: "common practice, no source; the angle is that of the mean speed, 2 atan(axial over surface speed) about the horizontal; a crank's strokes are steeper in the middle and flat at the ends",
    judges: &["crosshatch.off"],
    texts: &[Text {
        high: Remedy::say(
            "The settings give {fact:crosshatch.set}, in mid-stroke {fact:crosshatch.set.mid-stroke}: read {place} again in the middle of the bore, and look whether the angle was taken about the axis.",
        ),
        ..Text::new("from the angle that the hone is set for")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(_: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::at_most(degrees(8.0)).levels(Note, Note));
    Answered
}
