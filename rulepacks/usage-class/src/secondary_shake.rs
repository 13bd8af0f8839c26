//! Secondary forces that no crank can balance.

use crate::common::uneven_firing;
use crate::facts::{BALANCE_SHAFTS, FIRING_ORDER, SECONDARY_SHARE};
use thou_sdk::prelude::*;

reasons![
    NONE = "its layout has none worth telling",
    UNEVEN = "it fires unevenly: what its pistons shake with is not worked out",
    NO_ORDER = "no firing order on the sheet: engine.firing-order",
    NOT_STATED = "whether balance shafts turn is not said: balance.shafts",
];

texts![
    NO_BALANCE_SHAFTS = Text {
        low: Remedy::say(
            "It shakes with {fact:shake.secondary.force} at top speed: mounts, brackets and screws that stand it, or the balance shafts back in.",
        ),
        points_at: &["shake.secondary.share", "balance.shafts"],
        ..Text::new("secondary forces without balance shafts")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "secondary-shake",
    title: "Secondary shake",
    operation: "combination",
    why: "Rods are not endless: pistons pull a second time each turn, in a flat-plane four all together, and only shafts that turn twice as fast take it.",
    basis: Physics,
    source: "two-term series, Den Hartog, Mechanical Vibrations, ch. 5: the orders above are left out, a few per cent",
    takes: &[SECONDARY_SHARE, FIRING_ORDER, BALANCE_SHAFTS],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if uneven_firing(f) {
        return NotApplicable(reason::UNEVEN);
    }
    let Some(share) = f.get(SECONDARY_SHARE) else { return CannotSay(reason::NO_ORDER) };
    // two cylinders' worth and more; a single and a V pair are told by their primary force
    if share < 1.9 {
        return NotApplicable(reason::NONE);
    }
    match f.choice(BALANCE_SHAFTS) {
        None => return CannotSay(reason::NOT_STATED),
        Some("none") => a.finding(Note, text::NO_BALANCE_SHAFTS, &[]),
        Some(_) => return Clear,
    }
    Answered
}
