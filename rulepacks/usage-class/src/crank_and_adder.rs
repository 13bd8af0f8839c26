//! A cast crank under boost or nitrous.

use crate::facts::{ADDER, CRANK_MATERIAL};
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "crank-and-adder",
    title: "Cast crank under boost or nitrous",
    operation: "combination",
    why: "Boost and nitrous raise the peak, and it is the peak that cracks a cast or nodular crank.",
    source: "common practice, no source",
    needs: &[CRANK_MATERIAL, ADDER],
    reasons: &["nothing adds to its own breathing"],
    texts: &[Text {
        low: Remedy::say("A forged crank, or run it without. This crank suits a naturally aspirated street engine."),
        points_at: &["crank.material", "adder"],
        ..Text::new("a cast or nodular crank under a power adder")
    }],
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(ADDER, &["nitrous", "turbo", "blower"]) {
        return NotApplicable(0);
    }
    if !f.is(CRANK_MATERIAL, &["cast", "nodular"]) {
        return Clear;
    }
    a.finding(Warn, 0, &[]);
    Answered
}
