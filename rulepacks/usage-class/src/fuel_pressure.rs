//! The pump's pressure against what the injectors are told to have.

use crate::common::PRESSED;
use crate::facts::{ADDER, BOOST, INJECTOR_PRESSURE, PUMP_PRESSURE};
use thou_sdk::prelude::*;

reasons![NOT_STATED = "no injectors with a pressure, or no pump's pressure, on the sheet"];

texts![
    UNDER = Text {
        low: Remedy::say(
            "A pump and regulator for the injectors' pressure and the boost on top of it; or correct the sheet."
        ),
        points_at: &["fuel.pump-pressure", "injector.pressure"],
        ..Text::new("the pump holds less than the injectors' pressure and the boost together")
    }
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "fuel-pressure",
    title: "Fuel pressure for the injectors",
    operation: "combination",
    why: "An injector sees the rail's pressure less the manifold's: what the pump does not hold comes off its flow, at full boost first.",
    source: "the pressures add up; a twentieth is left to the gauges",
    takes: &[INJECTOR_PRESSURE, PUMP_PRESSURE, ADDER, BOOST],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let (Some(across), Some(pump)) = (f.get(INJECTOR_PRESSURE), f.get(PUMP_PRESSURE)) else {
        return NotApplicable(reason::NOT_STATED);
    };
    let boost = if f.is(ADDER, PRESSED) { f.get(BOOST).unwrap_or(0.0) } else { 0.0 };
    if pump >= 0.95 * (across + boost) {
        return Clear;
    }
    a.finding(Warn, text::UNDER, &[]);
    Answered
}
