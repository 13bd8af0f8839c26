//! A claimed gain against the scatter of the pulls.

use crate::facts::{DYNO_PULLS, GAIN_CLAIMED};
use thou_sdk::prelude::*;

reasons![NO_PULLS = "no pulls on the sheet", NO_GAIN = "no gain is claimed"];

judges![GAIN = "dyno.gain-over-resolvable", SPREAD = "dyno.spread"];

texts![
    GAIN = Text {
        low: Remedy::say(
            "As many pulls before and after show {fact:dyno.gain-resolvable} at best. Make {fact:dyno.pulls-needed} of \
             each, turn about, oil and air alike; or claim no gain.",
        ),
        ..Text::new("gain claimed over the smallest that these pulls would show")
    },
    SPREAD = Text {
        high: Remedy::say(
            "Look at each pull's power and air again: one of them is a slip, or the engine is not the same from pull to pull."
        ),
        basis: Some(Practice),
        ..Text::new("scatter of the corrected powers of one setup")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "dyno-scatter",
    title: "Claimed gain and the dyno's scatter",
    operation: "hand-over",
    why: "A gain that is smaller than the pulls scatter cannot be seen by them, whether it is there or not.",
    basis: Published,
    source: "Cohen, Statistical Power Analysis (1988), ch. 2: two sides at 5 %, seen four times out of five; scatter of \
             these pulls, which with few of them is itself uncertain",
    judges: JUDGES,
    takes: &[DYNO_PULLS, GAIN_CLAIMED],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(pulls) = f.get(DYNO_PULLS) else { return NotApplicable(reason::NO_PULLS) };
    let mut outcome = NotApplicable(reason::NO_GAIN);
    if f.get(GAIN_CLAIMED).is_some() {
        a.window(Window::at_least(1.0).levels(Note, Note).judging(judged::GAIN).text(text::GAIN));
        outcome = Answered;
    }
    if pulls > 2.5 {
        a.window(Window::at_most(percent(1.5)).judging(judged::SPREAD).text(text::SPREAD));
        outcome = Answered;
    }
    outcome
}
