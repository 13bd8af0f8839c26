//! Total ignition advance.

use crate::common::PRESSED;
use crate::facts::{ADDER, ADVANCE};
use thou_sdk::prelude::*;

reasons![NOT_STATED = "no total advance on the sheet"];

texts![
    OWN_BREATH = Text {
        low: Remedy::say(
            "Look at the mark at true top dead centre and at the light: an engine on its own breath asks for more than this."
        ),
        high: Remedy::say(
            "Look at the mark at true top dead centre and at the light; then go back to where the dyno stopped gaining."
        ),
        ..Text::new("on its own breath, before top dead centre, at full load")
    },
    PRESSED = Text {
        high: Remedy::say(
            "Look at the mark at true top dead centre and at the light; then take out what the tuner says for the boost."
        ),
        ..Text::new("under boost, before top dead centre, at full load")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "total-advance",
    title: "Total advance",
    operation: "hand-over",
    why: "Past what it needs, spark lifts the peak against a piston that still comes up: it costs power first and ring lands \
          next. How much it needs the dyno says, never a table.",
    source: "common practice, no source: 28 to 42 degrees by chamber and fuel, and less under boost",
    hold_source: Some("common practice, no source: no engine asks for so much at full load"),
    judges: &["ignition.advance"],
    takes: &[ADVANCE, ADDER],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.get(ADVANCE).is_none() {
        return NotApplicable(reason::NOT_STATED);
    }
    let window = if f.is(ADDER, PRESSED) {
        Window::at_most(degrees(36.0)).text(text::PRESSED)
    } else {
        Window::between(degrees(16.0), degrees(44.0)).text(text::OWN_BREATH)
    };
    a.window(window.never_above(degrees(52.0)));
    Answered
}
