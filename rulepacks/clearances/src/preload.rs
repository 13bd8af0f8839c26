//! Preload of hydraulic lifters.

use crate::common::{LiftersOf, UNNAMED_LIFTERS, contact, work};
use crate::facts::{LIFTER, TRAVEL, VALVETRAIN};
use thou_sdk::prelude::*;

reasons![
    SOLID_LIFTERS = "solid lifters have lash, not preload",
    NO_PUSHRODS = "no pushrods: the followers set themselves",
    UNNAMED_LIFTERS,
];

const BACK_OFF: Option<Remedy> = Remedy::say("Back the rocker of {place} off, or swap in a shorter pushrod.");

texts![
    SHOP = Text {
        low: Remedy::say("Turn the rocker of {place} down, or swap in a longer pushrod."),
        high: BACK_OFF,
        ..Text::new("plunger below its stop, on the base circle")
    },
    CONTACT = Text { high: BACK_OFF, ..contact("contact: the plunger is at its bottom and holds the valve open") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "preload",
    title: "Lifter preload",
    operation: "assembly",
    why: "A plunger at its stop hammers; one pushed deep pumps up and holds the valve open at speed.",
    source: "a guide passed round among builders: 20 to 60 thou; common practice, no source, for plungers of short travel, \
             0 to 10, and of more than 150, to 100",
    hold_basis: Some(Practice),
    hold_source: Some(
        "common practice, no source: under 5 thou, short travel or travel not known 0, over two thirds of the travel, or 150 \
         where it is not known; contact: the plunger's whole travel",
    ),
    judges: &["preload"],
    needs: &[VALVETRAIN],
    takes: &[LIFTER, TRAVEL],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// Plungers that move less than this are made to sit at their clip.
const SHORT: f64 = thou(60.0);

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
    let Some(travel) = f.get(TRAVEL) else {
        a.window(work(thou(20.0), thou(60.0)).never_below(0.0).never_above(thou(150.0)).text(text::SHOP));
        return Answered;
    };
    let (low, high, never) = if travel < SHORT {
        (0.0, thou(10.0).min(travel / 2.0), 0.0)
    } else {
        let high = if travel > thou(150.0) { 100.0 } else { 60.0 };
        (thou(20.0), thou(high).min(travel / 2.0), thou(5.0))
    };
    a.window(work(low, high).never_below(never).never_above(2.0 / 3.0 * travel).text(text::SHOP));
    a.window(Window::new().never_above(travel).text(text::CONTACT));
    Answered
}
