//! Preload of hydraulic lifters.

use crate::common::{LiftersOf, UNNAMED_LIFTERS, work};
use crate::facts::{LIFTER, VALVETRAIN};
use thou_sdk::prelude::*;

reasons![
    SOLID_LIFTERS = "solid lifters have lash, not preload",
    NO_PUSHRODS = "no pushrods: the followers set themselves",
    UNNAMED_LIFTERS,
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "preload",
    title: "Lifter preload",
    operation: "assembly",
    why: "A plunger at its stop hammers; one pushed deep pumps up and holds the valve open at speed.",
    source: "a guide passed round among builders: 20 to 60 thou; common practice for the floor",
    judges: &["preload"],
    needs: &[VALVETRAIN],
    takes: &[LIFTER],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say("Turn the rocker of {place} down, or swap in a longer pushrod."),
        high: Remedy::say("Back the rocker of {place} off, or swap in a shorter pushrod."),
        ..Text::new("plunger below its stop, on the base circle")
    }],
    assess,
    ..Rule::WINDOW
};

const LIFTERS: LiftersOf = LiftersOf {
    these: &["flat-hydraulic", "roller-hydraulic"],
    others: reason::SOLID_LIFTERS,
    overhead_cam: reason::NO_PUSHRODS,
    not_named: reason::UNNAMED_LIFTERS,
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if let Some(outcome) = LIFTERS.stop(f) {
        return outcome;
    }
    a.window(work(thou(20.0), thou(60.0)).never_below(thou(5.0)));
    Answered
}
