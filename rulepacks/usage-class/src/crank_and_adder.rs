//! A cast crank under boost or nitrous.

use crate::facts::{ADDER, CRANK_MATERIAL};
use thou_sdk::prelude::*;

reasons![NO_ADDER = "nothing adds to its own breathing"];

texts![
    CAST_UNDER_ADDER = Text {
        low: Remedy::say("A forged crank, or run it without. This crank suits a naturally aspirated street engine."),
        points_at: &["crank.material", "adder"],
        ..Text::new("a cast or nodular crank under a power adder")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "crank-and-adder",
    title: "Cast crank under boost or nitrous",
    operation: "combination",
    why: "Boost and nitrous raise the peak, and it is the peak that cracks a cast or nodular crank.",
    source: "common practice, no source",
    needs: &[CRANK_MATERIAL, ADDER],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(ADDER, &["nitrous", "turbo", "blower"]) {
        return NotApplicable(reason::NO_ADDER);
    }
    if !f.is(CRANK_MATERIAL, &["cast", "nodular"]) {
        return Clear;
    }
    a.finding(Warn, text::CAST_UNDER_ADDER, &[]);
    Answered
}
