//! When a rod's joint opens.

use crate::facts::{BEARING, ROD_BOLT_CLAMP};
use crate::rod_bolt_load::bolted;
use thou_sdk::prelude::*;

reasons![
    NO_BOLTS = "a rolling big end on a built-up crank has no bolts; if this one has, write fasteners.rod-bolts.clamp",
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "rod-bolt-separation",
    title: "Rod joint opening at the over-rev",
    operation: "rods-and-pistons",
    why: "A joint that opens hands the whole pull to the bolt, turn after turn, and hammers the shell.",
    source: "common practice, no source: a third over the pull, for what stretch and friction leave uncertain and for \
             the bend that a cap loaded beside its bolts puts into them",
    hold_basis: Some(Physics),
    hold_source: Some("clamp against the pull less the bolt's share, a twentieth past the highest speed"),
    judges: &["rod-bolt.separation-margin"],
    takes: &[BEARING, ROD_BOLT_CLAMP],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::solve(
            "Limiter to {solve}, a lighter piston and pin, or a bolt that clamps harder. Loaded along the bolt, by the \
             clamp as stated.",
            "limiter",
            "down",
        ),
        ..Text::new("the pull that opens the joint, over the pull at the over-rev")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !bolted(f) {
        return NotApplicable(reason::NO_BOLTS);
    }
    a.window(Window::at_least(1.33).never_below(1.0));
    Answered
}
