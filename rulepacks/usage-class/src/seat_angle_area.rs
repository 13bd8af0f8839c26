//! A steep seat against the area it costs.

use crate::facts::SEAT_ANGLE;
use thou_sdk::prelude::*;

reasons![NO_STEEPER = "seats of about 45 degrees and flatter give no area away"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "seat-angle-area",
    title: "Area of a steep seat",
    operation: "heads",
    why: "A steep seat opens less area than one of 45 degrees at every lift, until the throat is the least of all. What \
          it gains, it gains by turning the air less: only a flow bench shows that.",
    basis: Published,
    source: "Heywood, Internal Combustion Engine Fundamentals (1988), eq. 6.7 to 6.9: geometry alone, the discharge of \
             the port is not in it",
    judges: &["valve.lift.over-port-limits"],
    needs: &[SEAT_ANGLE],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say(
            "Even at full lift this seat passes {fact:valve.area.over-45.full} of the area of one of 45 degrees: flow both \
             before the angle is called a gain.",
        ),
        ..Text::new("full lift of a steep seat over the lift from which its throat is the least")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.of(SEAT_ANGLE) < degrees(47.5) {
        return NotApplicable(reason::NO_STEEPER);
    }
    a.window(Window::at_least(1.0).levels(Note, Note));
    Answered
}
