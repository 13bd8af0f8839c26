//! Valve lift against the seat's angle.

use crate::facts::{INLET_DIAMETER, SEAT_ANGLE};
use thou_sdk::prelude::*;

reasons![FLATTER = "no school's figure is known for a seat as flat as this: it belongs to engines of little lift"];

texts![
    ABOUT_45 = Text {
        high: Remedy::say("Seats of 50 to 55 degrees. As they are, they suit less lift."),
        ..Text::new("seats of about 45 degrees")
    },
    FROM_50_TO_55 = Text {
        low: Remedy::say("Seats of 45 degrees; these suit more lift."),
        high: Remedy::say("Seats of 60 degrees; these suit less lift."),
        ..Text::new("seats of 50 to 55 degrees")
    },
    ABOUT_60 = Text {
        low: Remedy::say("Seats of 50 to 55 degrees; these suit more lift."),
        ..Text::new("seats of about 60 degrees")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "lift-for-seat",
    title: "Lift for the seat's angle",
    operation: "heads",
    why: "A steep seat turns the charge less at high lift and passes less of it at low lift: the angle pays at its own \
          lift alone.",
    source: "common practice, no source: by the inlet valve's diameter, to 0.36 of it at 45 degrees, from 0.28 at 50 and from 0.40 at 60",
    judges: &["valve.lift.net.max"],
    needs: &[SEAT_ANGLE, INLET_DIAMETER],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let (angle, valve) = (f.of(SEAT_ANGLE), f.of(INLET_DIAMETER));
    if angle < degrees(40.0) {
        return NotApplicable(reason::FLATTER);
    }
    if angle < degrees(47.5) {
        a.window(Window::at_most(0.36 * valve).text(text::ABOUT_45));
    } else if angle < degrees(57.5) {
        a.window(Window::between(0.28 * valve, 0.50 * valve).text(text::FROM_50_TO_55));
    } else {
        a.window(Window::at_least(0.40 * valve).text(text::ABOUT_60));
    }
    Answered
}
