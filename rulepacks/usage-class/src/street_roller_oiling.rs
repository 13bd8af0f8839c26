//! How solid rollers are oiled on the street.

use crate::common::{Class, UNKNOWN_USE, class};
use crate::facts::{LIFTER, LIFTER_OILING, USE};
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "street-roller-oiling",
    title: "Oiling of solid rollers on the street",
    operation: "combination",
    why: "What splashes about at race speed does not splash at idle, and a dry needle takes cam and block with it.",
    source: "common practice, no source, and nobody disagrees",
    needs: &[USE, LIFTER],
    takes: &[LIFTER_OILING],
    reasons: &[
        UNKNOWN_USE,
        "only solid rollers on the street",
        "write in valvetrain.lifter-oiling how the wheels are oiled",
    ],
    texts: &[Text {
        low: Remedy::say("Pressure-fed or bushed lifters, and lash at each oil change. Splash suits a bracket engine."),
        points_at: &["use", "lifter.oiling"],
        ..Text::new("solid rollers oiled by splash on the street")
    }],
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(class) = class(f) else { return CannotSay(0) };
    if class != Class::Street || !f.is(LIFTER, &["roller-solid"]) {
        return NotApplicable(1);
    }
    match f.choice(LIFTER_OILING) {
        None => return CannotSay(2),
        Some("splash") => a.finding(Warn, 0, &[]),
        Some(_) => return Clear,
    }
    Answered
}
