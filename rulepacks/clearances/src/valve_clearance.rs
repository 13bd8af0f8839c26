//! Clearance of valves that an overhead cam works.

use crate::common::{valves, work};
use crate::facts::{IS_INLET, LIFTER, VALVETRAIN};
use thou_sdk::prelude::*;

const SHIM: Option<Remedy> = Remedy::solve("Swap the shim of {place}: clearance to {solve}.", "lash.cold", "either");

reasons![
    PUSHRODS = "pushrods: these valves have their own rule",
    HYDRAULIC = "hydraulic followers take up their own clearance",
];

texts![
    INLET = Text { low: SHIM, high: SHIM, ..Text::new("inlet, cold") },
    EXHAUST = Text { low: SHIM, high: SHIM, ..Text::new("exhaust, cold") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "valve-clearance",
    title: "Valve clearance, overhead cam",
    operation: "assembly",
    why: "These clearances close as the seats wear: none left, and the valve stays off its seat and burns.",
    source: "common practice, no source; a motorcycle service manual: inlet 0.16 mm, exhaust 0.25 mm",
    hold_basis: Some(Physics),
    hold_source: Some("a valve with no clearance cold is held open until the engine is warm"),
    judges: &["lash.cold"],
    needs: &[VALVETRAIN, IS_INLET],
    takes: &[LIFTER],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(VALVETRAIN, &["bucket", "finger"]) {
        return NotApplicable(reason::PUSHRODS);
    }
    if f.is(LIFTER, &["flat-hydraulic", "roller-hydraulic"]) {
        return NotApplicable(reason::HYDRAULIC);
    }
    for (place, is_inlet) in valves(f) {
        let (low, high) = if is_inlet { (0.10, 0.20) } else { (0.20, 0.30) };
        let window = work(mm(low), mm(high)).never_below(thou(2.0));
        a.window(window.at(place).text(if is_inlet { text::INLET } else { text::EXHAUST }));
    }
    Answered
}
