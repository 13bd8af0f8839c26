//! A used crank or block without a crack test.

use crate::facts::{BLOCK_STATE, CRANK_STATE};
use thou_sdk::prelude::*;

judges![CRANK = "crank.test-lead", BLOCK = "block.test-lead"];

reasons![NEW = "crank and block are new, or nobody says that they are not"];

texts![
    CRANK = Text {
        low: Remedy::say("Test it before it goes in, not after; write the day in crank.crack-tested."),
        ..Text::new("from the crack test to the assembly")
    },
    BLOCK = Text {
        low: Remedy::say("Test webs, deck and bores before it is put together; write the day in block.crack-tested."),
        ..Text::new("the block, from the crack test to the assembly")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "crack-test",
    title: "Crack test of a used crank or block",
    operation: "crank",
    why: "A crank cracks from a fillet or an oil hole inward: it is seen under the lamp or not until it lies in the pan.",
    source: "common practice, no source",
    hold_source: Some("common practice, no source: a used crank or block goes in tested, or not at all"),
    judges: JUDGES,
    takes: &[CRANK_STATE, BLOCK_STATE],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let mut outcome = NotApplicable(reason::NEW);
    for (state, judged, text) in [(CRANK_STATE, judged::CRANK, text::CRANK), (BLOCK_STATE, judged::BLOCK, text::BLOCK)]
    {
        if f.is(state, &["reused", "reconditioned"]) {
            a.window(Window::new().never_below(0.0).judging(judged).text(text));
            outcome = Answered;
        }
    }
    outcome
}
