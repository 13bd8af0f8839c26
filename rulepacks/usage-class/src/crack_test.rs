//! A used crank without a crack test.

use crate::facts::CRANK_STATE;
use thou_sdk::prelude::*;

reasons![NEW = "the crank is new, or nobody says that it is not"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "crack-test",
    title: "Crack test of a used crank",
    operation: "crank",
    why: "A crank cracks from a fillet or an oil hole inward: it is seen under the lamp or not until it lies in the pan.",
    source: "common practice, no source",
    hold_source: Some("common practice, no source: a used crank goes in tested, or not at all"),
    judges: &["crank.test-lead"],
    takes: &[CRANK_STATE],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say("Test it before it goes in, not after; write the day in crank.crack-tested."),
        ..Text::new("from the crack test to the assembly")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(CRANK_STATE, &["reused", "reconditioned"]) {
        return NotApplicable(reason::NEW);
    }
    a.window(Window::new().never_below(0.0));
    Answered
}
