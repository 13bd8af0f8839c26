//! Fuel system: filter, diaphragms, flushing.

use crate::facts::{FUEL, USE};
use crate::lives::{EACH_EVENT, Life, NO_INTERVAL, Plan, about_months};
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "fuel-system",
    title: "Fuel system",
    why: "Lean is how pistons melt, and lean is mostly a filter, a needle or a line that alcohol has eaten.",
    source: "common practice, no source; flushing after each event from a trade article",
    needs: &[USE],
    takes: takes!(FUEL),
    reasons: &[NO_INTERVAL],
    texts: &[
        scaled!("Filter, diaphragms, needles and lines"),
        scaled!("Methanol: flush with petrol or top oil after the event, and drain"),
    ],
    service: Some(ServiceInfo {
        part: "fuel system",
        action: "replace",
        since: "last-done",
        opens: "nothing",
        resets: &[],
        hours: 1.5,
        loses: "engine",
        triggers: &[
            "pressure moved by 0.5 psi",
            "jelly, white sand, or rust in the filter",
            "alcohol stored without flushing: every rubber and needle counts as at its high figure",
        ],
        caution: Some(
            "Methanol burns without a flame that you can see and goes in through skin and lungs: gloves, air, water \
              at hand, plugs out and turned by hand after flooding.",
        ),
        held_in: &["fuel"],
        duty: Duty::Outing,
    }),
    assess,
    ..Rule::SERVICE
};

const PLAN: Plan<'static> = Plan {
    street: &[about_months(12.0)],
    bracket: &[about_months(12.0)],
    sportsman: &[about_months(12.0)],
    hardest: &[about_months(12.0)],
    ..Plan::EMPTY
};

const FLUSH: &[Life] = &[EACH_EVENT];

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let outcome = PLAN.give(f, a, 0);
    if outcome == Answered && f.is(FUEL, &["methanol"]) {
        return Plan { street: FLUSH, bracket: FLUSH, sportsman: FLUSH, hardest: FLUSH, ..PLAN }.give(f, a, 1);
    }
    outcome
}
