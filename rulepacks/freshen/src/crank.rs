//! Crank: crack test, straightness, journals.

use crate::facts::{CRANK_STATE, USE};
use crate::lives::{NO_INTERVAL, Plan, about_thousand_miles, passes};
use thou_contract::slopes;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "crank",
    title: "Crack-test and measure the crank",
    why: "A crank cracks at a fillet or an oil hole long before it breaks, and a bent one eats its mains.",
    needs: &[USE],
    takes: takes!(inertia CRANK_STATE),
    reasons: &[NO_INTERVAL],
    texts: &[
        scaled!("Crack test, runout, every journal", inertia),
        scaled!(
            "Crack test, runout, every journal. It is not new: add the use it had, and with no record of it it counts \
             as at its high figure",
            inertia
        ),
    ],
    service: Some(ServiceInfo {
        part: "crankshaft",
        action: "inspect",
        since: "last-done",
        opens: "engine-out",
        resets: &[],
        hours: 4.0,
        loses: "engine",
        triggers: &[
            "end play 3 thou over what it was built to",
            "bearing pattern uneven from main to main",
            "over 8 % above the limiter, or a damper that slipped",
        ],
        caution: None,
        held_in: &["crank"],
        duty: Duty::Worn(PLAN.wears),
    }),
    assess,
    ..Rule::SERVICE
};

const PLAN: Plan<'static> = Plan {
    street: &[about_thousand_miles(100.0)],
    bracket: &[passes(300.0, 400.0, 600.0)],
    sportsman: &[passes(100.0, 150.0, 250.0)],
    hardest: &[passes(40.0, 60.0, 100.0)],
    wears: &[&[Stress::of(Cause::Inertia, slopes::STEEL)]],
    ..Plan::EMPTY
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let reused = f.is(CRANK_STATE, &["reused", "reconditioned"]);
    PLAN.give(f, a, u32::from(reused))
}
