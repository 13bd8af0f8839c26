//! Lifters in their bores.

use crate::facts::{LIFTER, VALVETRAIN};
use thou_sdk::prelude::*;

reasons![NO_LIFTER_BORES = "no lifters in bores of the block"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "lifter-to-bore",
    title: "Lifter to bore",
    operation: "block",
    why: "A tight lifter sticks and the valve meets the piston; a loose one tips on its lobe and bleeds the oil that \
          the mains wanted.",
    source: "common practice, no source; a trade article says about 1.5 thou for rollers",
    judges: &["lifter-to-bore"],
    needs: &[VALVETRAIN],
    takes: &[LIFTER],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::solve("Hone the lifter bore of {place} to {solve}.", "lifter-bore", "up"),
        high: Remedy::say("Swap lifters about, fit an oversize one, or sleeve the bore of {place}."),
        ..Text::new("on diameter")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(LIFTER, &["none"]) || f.is(VALVETRAIN, &["bucket", "finger"]) {
        return NotApplicable(reason::NO_LIFTER_BORES);
    }
    let new = Window::between(thou(1.2), thou(1.8)).aim(thou(1.5)).never_below(thou(0.8));
    a.window(new);
    a.window(Window { high: Some(thou(2.5)), aim: None, ..new }.reuse());
    Answered
}
