//! A weak oil ring and what helps it.

use crate::facts::{SUMP, VACUUM};
use thou_sdk::prelude::*;

reasons![VACUUM = "this much vacuum carries any oil ring"];

texts![
    WET_SUMP = Text {
        low: Remedy::say("Rings of {low} or more, or a vacuum pump. These suit an all-out engine with a dry sump."),
        ..Text::new("wet sump without vacuum")
    },
    SOME_VACUUM = Text {
        low: Remedy::say("Rings of {low} or more, or pull more vacuum and read it. These suit an all-out engine."),
        ..Text::new("some vacuum, or a dry sump with little of it")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "oil-ring-tension",
    title: "Oil-ring tension",
    operation: "rings",
    why: "A weak oil ring frees power, but only vacuum under it keeps the oil out of the chamber, where oil makes \
          petrol knock.",
    source: "common practice, no source",
    judges: &["ring.oil.tension"],
    needs: &[SUMP],
    takes: &[VACUUM],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let vacuum = f.get(VACUUM).unwrap_or(0.0);
    if vacuum >= inches_of_mercury(12.0) {
        return NotApplicable(reason::VACUUM);
    }
    if f.is(SUMP, &["dry"]) || vacuum > 0.0 {
        a.window(Window::at_least(pounds(7.0)).text(text::SOME_VACUUM));
    } else {
        a.window(Window::at_least(pounds(12.0)).text(text::WET_SUMP));
    }
    Answered
}
