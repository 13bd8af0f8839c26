//! How far the bearing clearances lie apart.

use crate::common::{ROLLER, roller};
use crate::facts::BEARING;
use thou_sdk::prelude::*;

const SWAP: Option<Remedy> = Remedy::say("Read the odd one again, then swap shells between the places.");

judges![MAIN = "main-bearing.clearance.spread", ROD = "rod-bearing.clearance.spread"];

reasons![ROLLER];

texts![
    MAIN = Text { high: SWAP, ..Text::new("tightest main to loosest") },
    ROD = Text { high: SWAP, ..Text::new("tightest rod to loosest") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "clearance-spread",
    title: "Bearing clearances against each other",
    operation: "crank",
    why: "Oil goes where it is easiest: the loosest bearing takes it from the tightest. One that stands apart is more \
          often a wrong shell, dirt behind it, or a cap turned round.",
    source: "common practice, no source; service manuals size the thrust or the front main apart on purpose",
    judges: JUDGES,
    takes: &[BEARING],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if roller(f) {
        return NotApplicable(reason::ROLLER);
    }
    a.window(Window::at_most(thou(0.8)).judging(judged::MAIN).text(text::MAIN));
    a.window(Window::at_most(thou(0.4)).judging(judged::ROD).text(text::ROD));
    Answered
}
