//! A correction outside of what its standard holds for.

use crate::facts::{DYNO_PULLS, DYNO_STANDARD};
use thou_sdk::prelude::*;

judges![FACTOR = "dyno.correction-factor", TEMPERATURE = "dyno.intake-temperature", PRESSURE = "dyno.dry-pressure"];

reasons![NO_PULLS = "no pulls on the sheet", WITHDRAWN = "a withdrawn standard sets no limits"];

texts![
    FACTOR = Text {
        low: Remedy::say("Give the power as measured, with its air; or pull again in other air."),
        high: Remedy::say("Give the power as measured, with its air; or pull again in other air."),
        ..Text::new("correction factor of the pull furthest from 1")
    },
    TEMPERATURE = Text {
        low: Remedy::say("Warm the intake air and pull again."),
        high: Remedy::say("Bring the engine cooler air and pull again."),
        ..Text::new("intake air of the pull furthest from 25 °C")
    },
    PRESSURE = Text {
        low: Remedy::say("Look at the barometer; as high up as this the standard does not reach."),
        high: Remedy::say("Look at the barometer: the air is not as heavy as this."),
        ..Text::new("barometer less vapour, of the pull furthest from 99 kPa")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "dyno-correction",
    title: "Correction of the dyno's figures",
    operation: "hand-over",
    why: "Outside of its limits a standard only guesses, and the figure is a power of that standard no more.",
    basis: Standard,
    source: "SAE J1349 (2004, 2011) and ISO 1585:2020, from memory: factor 0.93 to 1.07, with their own air",
    judges: JUDGES,
    takes: &[DYNO_PULLS, DYNO_STANDARD],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.get(DYNO_PULLS).is_none() {
        return NotApplicable(reason::NO_PULLS);
    }
    if f.is(DYNO_STANDARD, &["std-j607", "din-70020"]) {
        return NotApplicable(reason::WITHDRAWN);
    }
    let (cold, warm, low, high) =
        if f.is(DYNO_STANDARD, &["iso-1585"]) { (288.0, 308.0, 80e3, 110e3) } else { (288.15, 308.15, 90e3, 105e3) };
    a.window(Window::between(0.93, 1.07).judging(judged::FACTOR).text(text::FACTOR));
    a.window(Window::between(cold, warm).judging(judged::TEMPERATURE).text(text::TEMPERATURE));
    a.window(Window::between(low, high).judging(judged::PRESSURE).text(text::PRESSURE));
    Answered
}
