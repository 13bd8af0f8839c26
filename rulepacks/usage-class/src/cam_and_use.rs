//! The cam's duration against the use.

use crate::common::{UNKNOWN_USE, Usage, usage};
use crate::facts::{SWEPT, USE, VALVETRAIN};
use thou_sdk::prelude::*;

reasons![UNKNOWN_USE, NOT_PUSHROD = "the figures are those of pushrod engines with two valves a cylinder"];

texts![
    STREET = Text {
        high: Remedy::say("A cam of {high} or less at 0.050 in. As it is, it suits a bracket engine."),
        ..Text::new("street, at 0.050 in of lift")
    },
    BRACKET = Text {
        low: Remedy::say("A cam of {low} or more at 0.050 in. This is a bracket engine with a street cam."),
        high: Remedy::say(
            "A cam of {high} or less at 0.050 in, or gear and converter for it. As it is, it suits an all-out engine.",
        ),
        ..Text::new("bracket, at 0.050 in of lift")
    },
    ALL_OUT = Text {
        low: Remedy::say("A cam of {low} or more at 0.050 in. This is an all-out engine with a bracket cam."),
        ..Text::new("all-out, at 0.050 in of lift")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "cam-and-use",
    title: "Cam for the use",
    operation: "combination",
    why: "Duration says where an engine makes its power: too long for the street it will not idle or pull, too short \
          for the strip it is out of breath before the lights.",
    source: "common practice, no source; two-valve pushrod engines; a big cylinder takes 8 to 10 degrees more",
    judges: &["cam.duration-fifty.inlet"],
    needs: &[USE, SWEPT, VALVETRAIN],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// The least and the most degrees at 0.050 in of lift; nothing for another valvetrain.
pub(crate) fn limits(usage: Usage, f: &Facts<'_>) -> Option<(Option<f64>, Option<f64>)> {
    if !f.is(VALVETRAIN, &["pushrod"]) {
        return None;
    }
    // Half of a "big block" is a cylinder past 53 cubic inches, 425 on eight.
    let (more_low, more_high) = if f.of(SWEPT) > cc(870.0) { (8.0, 10.0) } else { (0.0, 0.0) };
    let low = usage.pick(None, Some(250.0), Some(280.0)).map(|x| degrees(x + more_low));
    let high = usage.pick(Some(240.0), Some(280.0), None).map(|x| degrees(x + more_high));
    Some((low, high))
}

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(usage) = usage(f) else { return CannotSay(reason::UNKNOWN_USE) };
    let Some((low, high)) = limits(usage, f) else { return NotApplicable(reason::NOT_PUSHROD) };
    a.window(Window { low, high, ..Window::new() }.text(usage.pick(text::STREET, text::BRACKET, text::ALL_OUT)));
    Answered
}
