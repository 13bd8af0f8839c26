//! A top ring of plain iron under an adder.

use crate::facts::{ADDER, MATERIAL, POWER, USE};
use thou_sdk::prelude::*;

const ADDERS: Arg = Arg { name: "adder", kind: "choice", choices: &["none", "nitrous", "turbo", "blower"] };
const CHANGE: Option<Remedy> = Remedy::say("Fit a top ring of ductile iron or steel.");
const POINTS_AT: &[&str] = &["ring.top.material"];

reasons![
    UNKNOWN_MATERIAL = "this pack does not know that material",
    STREET = "a street engine without an adder asks little of its rings",
];

texts![
    UNDER_ADDER = Text {
        low: CHANGE,
        args: &[ADDERS, Arg::of("power", "power")],
        points_at: POINTS_AT,
        ..Text::new("a plain iron top ring under {arg:adder} at {arg:power} a cylinder")
    },
    UNDER_ADDER_NO_POWER = Text {
        low: CHANGE,
        args: &[ADDERS],
        points_at: POINTS_AT,
        ..Text::new("a plain iron top ring under {arg:adder}")
    },
    ALL_OUT = Text { points_at: POINTS_AT, ..Text::new("a plain iron top ring in an all-out engine: renew it often") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "plain-iron",
    title: "Plain iron top ring",
    operation: "rings",
    why: "Plain iron is brittle: the first knock under an adder breaks it.",
    basis: Shop,
    source: "invented for the example",
    needs: &[USE, MATERIAL],
    takes: &[ADDER, POWER],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(material) = f.choice(MATERIAL) else { return CannotSay(reason::UNKNOWN_MATERIAL) };
    let adder = match f.choice(ADDER) {
        Some("nitrous") => Some(1.0),
        Some("turbo") => Some(2.0),
        Some("blower") => Some(3.0),
        _ => None,
    };
    match (adder, f.get(POWER)) {
        (None, _) if f.is(USE, &["street"]) => return NotApplicable(reason::STREET),
        _ if material != "iron" => return Clear,
        (Some(adder), Some(power)) => a.finding(Warn, text::UNDER_ADDER, &[adder, power]),
        (Some(adder), None) => a.finding(Warn, text::UNDER_ADDER_NO_POWER, &[adder]),
        (None, _) if f.is(USE, &["all-out"]) => a.finding(Note, text::ALL_OUT, &[]),
        (None, _) => return Clear,
    }
    Answered
}
