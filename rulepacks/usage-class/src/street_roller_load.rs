//! The spring that solid rollers carry for miles.

use crate::common::{UNKNOWN_USE, Usage, usage};
use crate::facts::{LIFTER, USE};
use thou_sdk::prelude::*;

reasons![UNKNOWN_USE, NOT_STREET_ROLLERS = "only solid rollers on the street"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "street-roller-load",
    title: "Seat load of solid rollers on the street",
    operation: "heads",
    why: "At idle a wheel is hardly oiled; the seat load is what its needles stand on all that time.",
    source: "common practice, no source; the looser school's, the closer one stops at the aim",
    judges: &["spring.seat-load.max"],
    needs: &[USE, LIFTER],
    reasons: REASONS,
    texts: &[Text {
        high: Remedy::say("Lighter springs with a milder lobe. So much spring suits a bracket engine."),
        ..Text::new("street, solid rollers")
    }],
    assess,
    ..Rule::WINDOW
};

/// The most on the seat.
pub(crate) const LIMIT: f64 = pounds(220.0);

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(usage) = usage(f) else { return CannotSay(reason::UNKNOWN_USE) };
    if usage != Usage::Street || !f.is(LIFTER, &["roller-solid"]) {
        return NotApplicable(reason::NOT_STREET_ROLLERS);
    }
    a.window(Window::at_most(LIMIT).aim(pounds(180.0)));
    Answered
}
