//! What pulls on the rod bolts against what clamps them.

use crate::facts::{BEARING, ROD_BOLT_CLAMP};
use thou_sdk::prelude::*;

reasons![
    NO_BOLTS = "a rolling big end on a built-up crank has no bolts; if this one has, write fasteners.rod-bolts.clamp",
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "rod-bolt-load",
    title: "Rod-bolt load at the over-rev",
    operation: "rods-and-pistons",
    why: "At the top of the exhaust stroke the piston pulls the cap off its rod: once the pull passes the clamp, the \
          joint opens, the bolt carries every stroke, and it breaks.",
    basis: Physics,
    source: "reciprocating mass times acceleration a twentieth past the highest speed, against the bolts' clamp",
    judges: &["rod-bolt.clamp-margin"],
    takes: &[BEARING, ROD_BOLT_CLAMP],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::solve(
            "Limiter to {solve}, or a lighter piston, or a stronger bolt. As it is, it suits a slower engine.",
            "limiter",
            "down",
        ),
        ..Text::new("clamp over load, in any use")
    }],
    assess,
    ..Rule::WINDOW
};

/// A rolling big end has bolts only if the sheet has their clamp.
pub(crate) fn bolted(f: &Facts<'_>) -> bool {
    !f.is(BEARING, &["roller"]) || f.get(ROD_BOLT_CLAMP).is_some()
}

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !bolted(f) {
        return NotApplicable(reason::NO_BOLTS);
    }
    a.window(Window { never_below: Some(1.0), ..Window::new() });
    Answered
}
