//! Bores: measured and dressed.

use crate::facts::{TOP_RING, USE};
use crate::lives::{NO_INTERVAL, Plan, passes, thousand_miles};
use crate::severity::Chemistry;
use crate::term::Term;
use thou_contract::slopes;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "bores",
    title: "Measure and dress the bores",
    why: "New rings need a finish to bed in on, and a bore that has opened at the top will not hold them.",
    needs: &[USE],
    takes: takes!(pressure slide chemistry TOP_RING),
    reasons: &[NO_INTERVAL],
    texts: &[scaled!(
        "Measure each bore at three heights and two ways before the stone touches it",
        pressure slide chemistry
    )],
    service: Some(ServiceInfo {
        part: "bores",
        action: "recondition",
        since: "built",
        opens: "engine-out",
        resets: &[],
        hours: 6.0,
        loses: "power",
        triggers: &[
            "roughness outside what the finish was made to",
            "taper over 0.7 thou",
            "a scuff, or a score that a nail feels",
        ],
        caution: Some("Metal cannot be put back: read the bore twice before you hone."),
        held_in: &[],
        duty: Duty::Worn(PLAN.wears),
    }),
    assess,
    ..Rule::SERVICE
};

const PLAN: Plan<'static> = Plan {
    street: &[thousand_miles(60.0, 80.0, 120.0)],
    bracket: &[passes(200.0, 300.0, 450.0)],
    sportsman: &[passes(40.0, 60.0, 100.0)],
    hardest: &[passes(10.0, 15.0, 25.0)],
    wears: &[&[Stress::of(Cause::Way, slopes::WEAR)]],
    terms: &[Term::Chemistry(Chemistry::Rings)],
    ..Plan::EMPTY
};

const THIN_RINGS: Plan<'static> = Plan { bracket: &[passes(150.0, 200.0, 300.0)], ..PLAN };
/// A top ring lower than this is a thin one. Common practice, no source.
const THIN: f64 = mm(1.2);

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.get(TOP_RING).is_some_and(|height| height < THIN) { &THIN_RINGS } else { &PLAN }.give(f, a, 0)
}
