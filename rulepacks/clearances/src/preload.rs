//! Preload of hydraulic lifters.

use crate::common::work;
use crate::facts::{LIFTER, VALVETRAIN};
use thou_sdk::prelude::*;

reasons![
    SOLID_LIFTERS = "solid lifters have lash, not preload",
    NO_PUSHRODS = "no pushrods: the followers set themselves",
    UNNAMED_LIFTERS = "the sheet does not name the lifters (valvetrain.lifter)",
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

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(VALVETRAIN, &["bucket", "finger"]) {
        return NotApplicable(reason::NO_PUSHRODS);
    }
    if f.get(LIFTER).is_none() {
        return CannotSay(reason::UNNAMED_LIFTERS);
    }
    if !f.is(LIFTER, &["flat-hydraulic", "roller-hydraulic"]) {
        return NotApplicable(reason::SOLID_LIFTERS);
    }
    a.window(work(thou(20.0), thou(60.0)).never_below(thou(5.0)));
    Answered
}
