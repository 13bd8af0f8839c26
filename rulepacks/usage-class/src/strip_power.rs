//! The elapsed time against the power.

use crate::facts::{AXLE, LIGHTS_SPEED, STRIP_TIME, TYRE, VEHICLE_MASS};
use thou_sdk::prelude::*;

judges![POWER = "strip.power-share", GEARED = "strip.geared-share"];

reasons![NO_TIME = "no elapsed time on the sheet, or no weight"];

texts![
    POWER = Text {
        low: Remedy::say(
            "The time takes no more than {fact:strip.power} at this weight: look at intent.power, vehicle-mass, elapsed-time and \
             strip again.",
        ),
        high: Remedy::say(
            "The time takes {fact:strip.power} at this weight: look at intent.power, vehicle-mass, elapsed-time and strip again.",
        ),
        ..Text::new("power that the time takes over the power wanted")
    },
    GEARED = Text {
        low: Remedy::say(
            "Look at lights-speed, final-drive, tyre-diameter and strip again: geared so, it never gets out of breath."
        ),
        high: Remedy::say(
            "Look at lights-speed, final-drive, tyre-diameter and strip again: geared so, it never reaches that speed."
        ),
        ..Text::new("speed by axle and tyre over what power and weight are good for, the last gear straight through")
    },
];

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
    judges: JUDGES,
    takes: &[STRIP_TIME, VEHICLE_MASS, LIGHTS_SPEED, AXLE, TYRE],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.get(STRIP_TIME).is_none() || f.get(VEHICLE_MASS).is_none() {
        return NotApplicable(reason::NO_TIME);
    }
    a.window(Window::between(0.5, 7.0 / 6.0).never_above(1.5).judging(judged::POWER).text(text::POWER));
    if [LIGHTS_SPEED, AXLE, TYRE].into_iter().all(|fact| f.get(fact).is_some()) {
        a.window(Window::between(0.7, 1.2).judging(judged::GEARED).text(text::GEARED));
    }
    Answered
}
