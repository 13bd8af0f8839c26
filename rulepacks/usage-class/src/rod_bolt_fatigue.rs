//! How far a rod bolt is from tiring.

use crate::facts::{BEARING, ROD_BOLT_CLAMP};
use crate::rod_bolt_load::bolted;
use thou_sdk::prelude::*;

reasons![
    NO_BOLTS = "a rolling big end on a built-up crank has no bolts; if this one has, write fasteners.rod-bolts.clamp",
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "rod-bolt-fatigue",
    title: "Rod-bolt fatigue at the over-rev",
    operation: "rods-and-pistons",
    why: "A bolt breaks from the swing of its load, long before its strength: more clamp and less piston keep the swing \
          small.",
    source: "common practice, no source: a fifth in hand at the over-rev, which pulls a tenth more than the limiter; threads \
             rolled, loaded along the bolt, no bend: compare it with a known good engine of your own",
    hold_source: Some("common practice, no source: four fifths is a life of few outings"),
    judges: &["rod-bolt.fatigue-margin"],
    takes: &[BEARING, ROD_BOLT_CLAMP],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say(
            "A bolt of stronger or thicker stock, a lighter piston and pin, or a lower limiter; and new bolts sooner.",
        ),
        ..Text::new("the pull that it bears without end, over the pull at the over-rev")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !bolted(f) {
        return NotApplicable(reason::NO_BOLTS);
    }
    a.window(Window::at_least(1.2).aim(1.5).never_below(0.8));
    Answered
}
