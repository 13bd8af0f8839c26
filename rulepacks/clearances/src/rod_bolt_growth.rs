//! Rod bolts that stay longer than new.

use crate::common::roller;
use crate::facts::BEARING;
use thou_sdk::prelude::*;

reasons![ONE_PIECE_ROD = "the big end runs in rollers: the rod is in one piece and has no bolts"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "rod-bolt-growth",
    title: "Rod bolt growth",
    operation: "rods-and-pistons",
    why: "A bolt that does not come back to its length has yielded: it clamps less every time, and then breaks.",
    source: "common practice, no source: several unsigned trade pages repeat that a bolt longer than new by 0.5 thou is \
             scrap; some makers allow 1.0",
    judges: &["rod-bolt.growth"],
    takes: &[BEARING],
    reasons: REASONS,
    texts: &[Text {
        high: Remedy::say("Take the bolts of {place} out and swap them; resize the rod if its housing moved."),
        ..Text::new("free length over new")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if roller(f) {
        return NotApplicable(reason::ONE_PIECE_ROD);
    }
    let scrap = thou(0.5);
    a.window(Window::at_most(thou(0.3)).never_above(scrap));
    Answered
}
