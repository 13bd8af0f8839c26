//! Spark plugs, read after a clean cut.

use crate::facts::USE;
use crate::lives::{EACH_EVENT, EACH_PASS, Lives, NO_INTERVAL, about_thousand_miles};
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "spark-plugs",
    title: "Read the plugs",
    why: "The plugs are the only look into each cylinder that costs nothing: heat, mixture and detonation are on them \
          before they are on the crown.",
    needs: &[USE],
    takes: takes!(),
    reasons: &[NO_INTERVAL],
    texts: &[scaled!("Read every plug, cylinder by cylinder")],
    service: Some(ServiceInfo {
        part: "spark plugs",
        action: "inspect",
        since: "last-done",
        opens: "plugs",
        resets: &[],
        hours: 0.5,
        loses: "power",
        triggers: &[
            "aluminium speckle on the porcelain",
            "one plug unlike its neighbours",
            "power off, or a miss under load",
        ],
        caution: None,
        held_in: &[],
        duty: Duty::Outing,
    }),
    log: LogInfo { reaches: REACHES, ..LogInfo::NOTHING },
    assess: |f, a| LIVES.give(f, a),
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[Reach {
    by: &[],
    look: "Crown, bore, valves and seat of that cylinder by bore-scope and its leak-down: porcelain, strap or tip has gone somewhere; mixture, timing and heat range before it fires.",
}];

const LIVES: Lives<'static> = Lives {
    street: &[about_thousand_miles(10.0)],
    bracket: &[EACH_EVENT],
    sportsman: &[EACH_PASS],
    hardest: &[EACH_PASS],
    ..Lives::EMPTY
};
