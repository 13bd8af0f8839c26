//! Hot oil pressure at idle.

use crate::facts::{BEARING, IDLE_PRESSURE};
use thou_sdk::prelude::*;

reasons![
    NOT_READ = "nobody read it at idle: the pressure at working speed is judged",
    ROLLING = "rolling bearings live on a trickle, not on pressure",
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "idle-oil-pressure",
    title: "Hot oil pressure at idle",
    operation: "hand-over",
    why: "At idle the pump turns slowly and the clearances drink all of it: it is where a wide bearing shows first.",
    source: "common practice, no source: 6 psi hot at idle is a service manual's least for a V8, from memory, and 15 is wanted",
    hold_source: Some("common practice, no source: half of a service manual's least"),
    judges: &["oil.pressure.at-idle"],
    takes: &[BEARING, IDLE_PRESSURE],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say(
            "Find where it goes: clearance, cam bearings, pickup, bypass, fuel in the oil, oil temperature.",
        ),
        ..Text::new("hot, at idle")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(BEARING, &["roller"]) {
        return NotApplicable(reason::ROLLING);
    }
    if f.get(IDLE_PRESSURE).is_none() {
        return NotApplicable(reason::NOT_READ);
    }
    a.window(Window::at_least(psi(6.0)).aim(psi(15.0)).never_below(psi(3.0)));
    Answered
}
