//! The elapsed time against the power.

use crate::facts::{STRIP_TIME, VEHICLE_MASS};
use thou_sdk::prelude::*;

reasons![NO_TIME = "no elapsed time on the sheet, or no weight"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "strip-power",
    title: "Elapsed time for the power",
    operation: "combination",
    why: "Weight and time say what power a car has had: a time that takes much more than the engine's is a slip in one of the \
          three, or an engine that is going to be worked harder than it was built for.",
    source: "5.825 times the cube root of pounds over horsepower, from memory; common practice, no source, that cars come within a \
             sixth of it",
    hold_source: Some("common practice, no source: half as much again is past what gearing, tyres and air explain"),
    judges: &["strip.power-share"],
    takes: &[STRIP_TIME, VEHICLE_MASS],
    reasons: REASONS,
    texts: &[Text {
        high: Remedy::say(
            "The time takes {fact:strip.power} at this weight: look at intent.power, vehicle-mass, elapsed-time and strip again.",
        ),
        ..Text::new("power that the time takes over the power wanted")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.get(STRIP_TIME).is_none() || f.get(VEHICLE_MASS).is_none() {
        return NotApplicable(reason::NO_TIME);
    }
    a.window(Window::at_most(7.0 / 6.0).never_above(1.5));
    Answered
}
