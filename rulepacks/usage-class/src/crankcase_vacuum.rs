//! Vacuum in the crankcase against what it takes the oil from.

use crate::facts::{PIN_FIT, PIN_OILING, SUMP};
use thou_sdk::prelude::*;

texts![
    WET_SUMP = Text {
        high: Remedy::say("Set the relief valve to {high} or less; more suits a dry sump with pin oilers."),
        ..Text::new("wet sump")
    },
    UNFED_PINS = Text {
        high: Remedy::say("Set the relief valve to {high} or less, or pin oilers."),
        ..Text::new("pins without their own oil")
    },
    FED_PINS = Text {
        high: Remedy::say(
            "Look at the gauge and at the relief valve: seals, covers and the oil's way home are not made for more."
        ),
        ..Text::new("dry sump, pins that are fed: no school's figure is known, and none goes past this")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "crankcase-vacuum",
    title: "Crankcase vacuum",
    operation: "hand-over",
    why: "Vacuum seats the rings, and takes away the mist that pins and cylinder walls were oiled by.",
    source: "common practice, no source",
    judges: &["crankcase.vacuum"],
    needs: &[SUMP],
    takes: &[PIN_OILING, PIN_FIT],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let fed = f.is(PIN_OILING, &["fed"]) && !f.is(PIN_FIT, &["pressed"]);
    let (wet, hg) = (f.is(SUMP, &["wet"]), inches_of_mercury);
    match (wet, fed) {
        (true, true) => a.window(Window::at_most(hg(14.0)).text(text::WET_SUMP)),
        (true, false) => a.window(Window::at_most(hg(14.0)).never_above(hg(18.0)).text(text::WET_SUMP)),
        (false, false) => a.window(Window::at_most(hg(16.0)).never_above(hg(18.0)).text(text::UNFED_PINS)),
        (false, true) => a.window(Window::at_most(hg(24.0)).text(text::FED_PINS)),
    }
    Answered
}
