//! Crank: crack test, straightness, journals.

use crate::facts::{CRANK_STATE, USE};
use crate::lives::{Lives, NO_INTERVAL, about_thousand_miles, passes};
use thou_contract::slopes;
use thou_sdk::prelude::*;

texts![
    NEW = scaled!("Crack test, runout, every journal", inertia),
    REUSED = scaled!(
        "Crack test, runout, every journal. It is not new: add the use it had, and with no record of it it counts \
             as at its high figure",
        inertia
    ),
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "crank",
    title: "Crack-test and measure the crank",
    why: "A crank cracks at a fillet or an oil hole long before it breaks, and a bent one eats its mains.",
    needs: &[USE],
    takes: takes!(inertia CRANK_STATE),
    reasons: &[NO_INTERVAL],
    texts: TEXTS,
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
        duty: Duty::Worn(LIVES.wears),
    }),
    log: LogInfo { reaches: REACHES, ..LogInfo::NOTHING },
    assess,
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[Reach {
    by: &[],
    look: "It is a tear-down: every bearing, rod and bolt, the bore's line and the caps, damper, flexplate and its bolts, balance; oil system cleaned or thrown away.",
}];

const LIVES: Lives<'static> = Lives {
    street: &[about_thousand_miles(100.0)],
    bracket: &[passes(300.0, 400.0, 600.0)],
    sportsman: &[passes(100.0, 150.0, 250.0)],
    hardest: &[passes(40.0, 60.0, 100.0)],
    wears: &[&[Stress::of(Cause::Inertia, slopes::STEEL)]],
    ..Lives::EMPTY
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let reused = f.is(CRANK_STATE, &["reused", "reconditioned"]);
    LIVES.give_as(f, a, if reused { text::REUSED } else { text::NEW })
}
