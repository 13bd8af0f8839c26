//! How solid rollers are oiled on the street.

use crate::common::{UNKNOWN_USE, Usage, usage};
use crate::facts::{LIFTER, LIFTER_OILING, USE};
use thou_sdk::prelude::*;

reasons![
    UNKNOWN_USE,
    NOT_STREET_ROLLERS = "only solid rollers on the street",
    NOT_STATED = "write in valvetrain.lifter-oiling how the wheels are oiled",
];

texts![
    SPLASH = Text {
        low: Remedy::say("Pressure-fed or bushed lifters, and lash at each oil change. Splash suits a bracket engine."),
        points_at: &["use", "lifter.oiling"],
        ..Text::new("solid rollers oiled by splash on the street")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "street-roller-oiling",
    title: "Oiling of solid rollers on the street",
    operation: "combination",
    why: "What splashes about at race speed does not splash at idle, and a dry needle takes cam and block with it.",
    source: "common practice, no source",
    needs: &[USE, LIFTER],
    takes: &[LIFTER_OILING],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(usage) = usage(f) else { return CannotSay(reason::UNKNOWN_USE) };
    if usage != Usage::Street || !f.is(LIFTER, &["roller-solid"]) {
        return NotApplicable(reason::NOT_STREET_ROLLERS);
    }
    match f.choice(LIFTER_OILING) {
        None => return CannotSay(reason::NOT_STATED),
        Some("splash") => a.finding(Warn, text::SPLASH, &[]),
        Some(_) => return Clear,
    }
    Answered
}
