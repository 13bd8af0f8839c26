//! The pin in the piston.

use crate::common::{by_use, work};
use crate::facts::USE;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "pin-to-piston",
    title: "Pin to piston",
    operation: "rods-and-pistons",
    why: "A pin that grips its piston holds the skirt against the wall; a loose one hammers the bosses open.",
    judges: &["pin-to-piston"],
    needs: &[USE],
    texts: &[Text {
        low: Remedy::solve("Hone the pin bore of {place} to {solve}.", "pin-bore", "up"),
        high: Remedy::say("Swap pins between the pistons, or fit an oversize pin to {place}."),
        ..Text::new("on diameter, for this use")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let (low, high) = by_use(f, (0.3, 0.8), (0.6, 1.0), (0.8, 1.2));
    a.window(work(thou(low), thou(high)).never_below(thou(0.2)));
    Answered
}
