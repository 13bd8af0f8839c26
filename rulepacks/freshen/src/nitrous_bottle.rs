//! Nitrous bottle test.

use crate::facts::{ADDER, USE};
use crate::lives::{NO_INTERVAL, Plan, by_calendar};
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "nitrous-bottle",
    title: "Nitrous bottle test date",
    why: "A bottle is a pressure vessel: it is proved by the date stamped on its shoulder.",
    source: "from memory; the law of the place comes first",
    needs: &[USE],
    takes: takes!(),
    reasons: &[NO_INTERVAL, "no nitrous"],
    texts: &[scaled!("Have it proved by its stamp")],
    service: Some(ServiceInfo {
        part: "nitrous bottle",
        action: "replace-by-date",
        since: "certified",
        opens: "nothing",
        resets: &[],
        hours: 0.5,
        loses: "engine",
        triggers: &["dropped, burnt, dented, or a relief disc that has gone"],
        caution: None,
        held_in: &[],
        duty: Duty::Outing,
    }),
    assess,
    ..Rule::SERVICE
};

const PLAN: Plan<'static> = Plan {
    street: &[by_calendar(48.0, 60.0, 60.0)],
    bracket: &[by_calendar(48.0, 60.0, 60.0)],
    sportsman: &[by_calendar(48.0, 60.0, 60.0)],
    hardest: &[by_calendar(48.0, 60.0, 60.0)],
    ..Plan::EMPTY
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(ADDER, &["nitrous"]) {
        return NotApplicable(1);
    }
    PLAN.give(f, a, 0)
}
