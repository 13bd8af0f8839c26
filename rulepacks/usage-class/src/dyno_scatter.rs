//! A claimed gain against the scatter of the pulls.

use crate::facts::{DYNO_PULLS, GAIN_CLAIMED};
use thou_sdk::prelude::*;

reasons![NO_PULLS = "no pulls on the sheet", NO_GAIN = "no gain is claimed"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "dyno-scatter",
    title: "Claimed gain and the dyno's scatter",
    operation: "hand-over",
    why: "A gain that is smaller than the pulls scatter cannot be seen by them, whether it is there or not.",
    basis: Published,
    source: "Cohen, Statistical Power Analysis (1988), ch. 2: two sides at 5 %, seen four times out of five; scatter of \
             these pulls, which with few of them is itself uncertain",
    judges: &["dyno.gain-over-resolvable"],
    takes: &[DYNO_PULLS, GAIN_CLAIMED],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say(
            "As many pulls before and after show {fact:dyno.gain-resolvable} at best. Make {fact:dyno.pulls-needed} of \
             each, turn about, oil and air alike; or claim no gain.",
        ),
        ..Text::new("gain claimed over the smallest that these pulls would show")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.get(DYNO_PULLS).is_none() {
        return NotApplicable(reason::NO_PULLS);
    }
    if f.get(GAIN_CLAIMED).is_none() {
        return NotApplicable(reason::NO_GAIN);
    }
    a.window(Window::at_least(1.0).levels(Note, Note));
    Answered
}
