//! Leak-down test.

use crate::facts::USE;
use crate::lives::{EACH_EVENT, Lives, NO_INTERVAL, about_months, passes};
use thou_contract::slopes;
use thou_sdk::prelude::*;

texts![
    SCALED = scaled!("Same tester, same temperature, at the top of each stroke", pressure),
    BY_COUNT = scaled!("Same tester, same temperature, at the top of each stroke"),
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "leak-down",
    title: "Leak-down, every cylinder",
    why: "It tells rings from seats from gasket without taking anything apart, if it is read against this engine's own \
          figures when it was fresh: large gaps leak more and run well.",
    source: "common practice, no source; figures for race engines from a trade article, and others let 10 % pass",
    needs: &[USE],
    takes: takes!(pressure),
    reasons: &[NO_INTERVAL],
    texts: TEXTS,
    service: Some(ServiceInfo {
        part: "cylinders",
        action: "measure",
        since: "last-done",
        opens: "plugs",
        resets: &[],
        hours: 1.5,
        loses: "power",
        triggers: &[
            "one cylinder 4 points over its own fresh figure",
            "air at a valve, at any figure",
            "race engines by a trade article: new 2 to 3 %, good to 5, look at 6 to 7, out at 10",
            "3 to 5 % over the limiter, or more",
        ],
        caution: Some(
            "Air turns the crank with more force than a hand holds: no bar left on the nut, car chocked and out of \
              gear, hands clear, and the regulator up from zero.",
        ),
        held_in: &[],
        duty: Duty::Worn(LIVES.wears),
    }),
    log: LogInfo { done_by: &["leak-down"], ..LogInfo::NOTHING },
    assess: |f, a| LIVES.give_as(f, a, text::SCALED),
    ..Rule::SERVICE
};

const LIVES: Lives<'static> = Lives {
    street: &[about_months(24.0)],
    bracket: &[passes(40.0, 60.0, 100.0), about_months(12.0)],
    sportsman: &[passes(15.0, 25.0, 40.0)],
    hardest: &[EACH_EVENT],
    wears: &[&[Stress::of(Cause::Pressure, slopes::WEAR)]],
    plain: text::BY_COUNT,
    ..Lives::EMPTY
};
