//! How warm the oil works.

use crate::facts::OIL_BASE;
use thou_sdk::prelude::*;

texts![
    MINERAL = Text {
        low: Remedy::say("Warm it before it is loaded: water and fuel stay in it below {low}."),
        high: Remedy::say("A cooler, more oil, or a synthetic: a mineral oil is good to {high}."),
        ..Text::new("mineral oil, in any use")
    },
    SYNTHETIC = Text {
        low: Remedy::say("Warm it before it is loaded: water and fuel stay in it below {low}."),
        high: Remedy::say("A cooler or more oil: synthetic oil is good to {high}."),
        ..Text::new("oil that is at least part synthetic, in any use")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "oil-temperature",
    title: "Oil temperature",
    operation: "combination",
    why: "Hot oil is thin oil, and it does not come back; cold oil keeps its water and its fuel.",
    source: "common practice, no source: conventional oil from 180 to 250 °F, synthetic to 275",
    hold_basis: Some(Practice),
    hold_source: Some(
        "common practice, no source: 300 °F mineral, 325 synthetic; the shells' overlay softens and the film is gone",
    ),
    judges: &["oil.temperature"],
    takes: &[OIL_BASE],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let synthetic = f.is(OIL_BASE, &["synthetic", "semi-synthetic"]);
    let (high, never, text) = if synthetic { (275.0, 325.0, text::SYNTHETIC) } else { (250.0, 300.0, text::MINERAL) };
    a.window(
        Window::between(fahrenheit(180.0), fahrenheit(high))
            .never_above(fahrenheit(never))
            .levels(Note, Warn)
            .text(text),
    );
    Answered
}
