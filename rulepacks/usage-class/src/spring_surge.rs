//! How far the spring's own swing is from the cam's.

use crate::facts::SPRING_STYLE;
use thou_sdk::prelude::*;

reasons![UNEVEN = "a beehive, a conical and an air spring have no one swing of their own: ask their maker"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "spring-surge",
    title: "Spring surge",
    operation: "heads",
    why: "A coil that swings with a strong harmonic of the cam runs along itself: it loses load, breaks, and lets the \
          valve go where a still one would hold it.",
    source: "common practice, no source: race springs at 6 to 13 swings a cam turn, with a damper or an interference \
             fit; a machine-design handbook wants 15 to 20 of springs without one",
    judges: &["spring.surge-ratio"],
    takes: &[SPRING_STYLE],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say(
            "A stiffer or lighter outer spring, one with less distance to bind, or less speed. Reckoned as an even coil \
             without its damper.",
        ),
        ..Text::new("swings of the outer spring a cam turn, at the highest speed")
    }],
    assess,
    ..Rule::WINDOW
};

/// Springs whose coils are not all alike.
pub(crate) fn uneven(f: &Facts<'_>) -> bool {
    f.is(SPRING_STYLE, &["beehive", "conical", "pneumatic"])
}

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if uneven(f) {
        return NotApplicable(reason::UNEVEN);
    }
    a.window(Window::at_least(6.0).aim(8.0));
    Answered
}
