//! Coil and plug leads.

use crate::facts::USE;
use crate::lives::{Lives, NO_INTERVAL, about_months};
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "ignition-leads",
    title: "Coil and leads",
    why: "A weak lead misfires under load alone, and reads like a carburettor.",
    needs: &[USE],
    takes: takes!(),
    reasons: &[NO_INTERVAL],
    texts: &[scaled!("Measure the leads, change what is burnt or hard; after two seasons all")],
    service: Some(ServiceInfo {
        part: "coil and leads",
        action: "replace",
        since: "last-done",
        opens: "nothing",
        resets: &[],
        hours: 0.7,
        loses: "power",
        triggers: &["a miss under load, a burnt boot", "resistance of one unlike its neighbours"],
        caution: None,
        held_in: &["ignition"],
        duty: Duty::Outing,
    }),
    log: LogInfo { reaches: REACHES, ..LogInfo::NOTHING },
    assess: |f, a| LIVES.give(f, a),
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[Reach {
    by: &[],
    look: "The plugs of the holes that missed, the cylinders for fuel washed past the rings, oil for fuel; a backfire: intake and gaskets.",
}];

const LIVES: Lives<'static> = Lives {
    street: &[about_months(24.0)],
    bracket: &[about_months(24.0)],
    sportsman: &[about_months(24.0)],
    hardest: &[about_months(24.0)],
    ..Lives::EMPTY
};
