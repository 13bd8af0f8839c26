//! Edges that nobody broke.

use crate::facts::DEBURRED;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "deburred",
    title: "Edges broken",
    operation: "block",
    why: "A burr on an oil hole or a cap's edge comes off in the oil, and a sharp edge is where a crack begins.",
    source: "common practice, no source",
    takes: &[DEBURRED],
    texts: &[Text {
        low: Remedy::say("Break every edge that was cut, oil holes and cap joints first, then wash it."),
        points_at: &["block.deburred"],
        ..Text::new("finish.deburred says that the edges were not broken")
    }],
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.flag(DEBURRED) != Some(false) {
        return Clear;
    }
    a.finding(Warn, TextNumber(0), &[]);
    Answered
}
