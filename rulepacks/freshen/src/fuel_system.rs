//! Fuel system: filter, diaphragms, flushing.

use crate::facts::{FUEL, USE};
use crate::lives::{EACH_EVENT, Life, Lives, NO_INTERVAL, about_months};
use thou_sdk::prelude::*;

texts![
    REPLACE = scaled!("Filter, diaphragms, needles and lines"),
    FLUSH = scaled!("Methanol: flush with petrol or top oil after the event, and drain"),
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "fuel-system",
    title: "Fuel system",
    why: "Lean is how pistons melt, and lean is mostly a filter, a needle or a line that alcohol has eaten.",
    source: "common practice, no source; flushing after each event from a trade article",
    needs: &[USE],
    takes: takes!(FUEL),
    reasons: &[NO_INTERVAL],
    texts: TEXTS,
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
    log: LogInfo { reaches: REACHES, ..LogInfo::NOTHING },
    assess,
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[Reach {
    by: &[],
    look: "Plugs and crowns for a lean pass, leak-down; pump, filter, lines and jets or injectors for what let go, the oil for fuel; no spark before it is dry.",
}];

const LIVES: Lives<'static> = Lives {
    street: &[about_months(12.0)],
    bracket: &[about_months(12.0)],
    sportsman: &[about_months(12.0)],
    hardest: &[about_months(12.0)],
    ..Lives::EMPTY
};

const FLUSH: &[Life] = &[EACH_EVENT];

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let outcome = LIVES.give_as(f, a, text::REPLACE);
    if outcome == Answered && f.is(FUEL, &["methanol"]) {
        return Lives { street: FLUSH, bracket: FLUSH, sportsman: FLUSH, hardest: FLUSH, ..LIVES }.give_as(
            f,
            a,
            text::FLUSH,
        );
    }
    outcome
}
