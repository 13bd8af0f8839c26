//! Whether pulls before and after a change differ at all.

use crate::facts::{DYNO_BEFORE, GAIN_CLAIMED};
use thou_sdk::prelude::*;

reasons![NO_BASELINE = "no pulls before a change on the sheet"];

judges![CHANCE = "dyno.gain-by-chance", GAIN = "dyno.gain"];

texts![
    CHANCE = Text {
        high: Remedy::say(
            "{fact:dyno.gain} between the means may well be scatter: make more pulls of both, turn about, before it is \
             called a gain or a loss.",
        ),
        ..Text::new("how often scatter alone would show as much")
    },
    CLAIM = Text {
        low: Remedy::say("The pulls show {fact:dyno.gain}: claim that, or make more of both."),
        basis: Some(Practice),
        ..Text::new("half of the gain that is claimed")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "dyno-gain",
    title: "Before and after on the dyno",
    operation: "hand-over",
    why: "Two sets of pulls always differ: the question is whether scatter alone would have done it.",
    basis: Published,
    source: "Welch, Biometrika 34 (1947) 28, two-sided; 5 % is the usual line, no more than that",
    judges: JUDGES,
    takes: &[DYNO_BEFORE, GAIN_CLAIMED],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.get(DYNO_BEFORE).is_none() {
        return NotApplicable(reason::NO_BASELINE);
    }
    a.window(Window::at_most(0.05).levels(Note, Note).judging(judged::CHANCE).text(text::CHANCE));
    if let Some(claimed) = f.get(GAIN_CLAIMED).filter(|claimed| *claimed > 0.0) {
        a.window(Window::at_least(claimed / 2.0).judging(judged::GAIN).text(text::CLAIM));
    }
    Answered
}
