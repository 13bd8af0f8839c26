//! The pickup against the launch.

use crate::common::{UNKNOWN_USE, Usage, usage};
use crate::facts::{CYLINDERS, PICKUP, SUMP, USE};
use thou_sdk::prelude::*;

reasons![
    UNKNOWN_USE,
    NOT_LAUNCHED = "only a wide wet sump that is launched",
    NOT_STATED = "write in oil.pickup which one it is",
];

texts![
    FIXED = Text {
        low: Remedy::say(
            "A rear or swinging pickup, and log the pressure through a run. A fixed one suits the street.",
        ),
        points_at: &["use", "pan.pickup"],
        ..Text::new("a fixed pickup in an engine that is launched")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "pickup",
    title: "Pickup for the launch",
    operation: "assembly",
    why: "A pickup that stays in the middle of the pan sucks air in the first second and again on the brakes.",
    source: "common practice, no source",
    needs: &[USE, SUMP, CYLINDERS],
    takes: &[PICKUP],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::FINDING
};

/// A wet sump of a car's engine, launched; under one or two cylinders it is deep and narrow.
pub(crate) fn asked(usage: Usage, f: &Facts<'_>) -> bool {
    usage != Usage::Street && f.is(SUMP, &["wet"]) && f.of(CYLINDERS) > 2.5
}

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(usage) = usage(f) else { return CannotSay(reason::UNKNOWN_USE) };
    if !asked(usage, f) {
        return NotApplicable(reason::NOT_LAUNCHED);
    }
    match f.choice(PICKUP) {
        None => return CannotSay(reason::NOT_STATED),
        Some("fixed") => a.finding(Warn, text::FIXED, &[]),
        Some(_) => return Clear,
    }
    Answered
}
