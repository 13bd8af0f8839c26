//! Water pump and thermostat.

use crate::facts::USE;
use crate::lives::{Lives, NO_INTERVAL, about_months};
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "water-pump",
    title: "Water pump and thermostat",
    why: "An engine over 240 °F has spent its oil, its gasket and some of its rings, for the price of a seal.",
    needs: &[USE],
    takes: takes!(),
    reasons: &[NO_INTERVAL],
    texts: &[scaled!("Pump, thermostat, hoses")],
    service: Some(ServiceInfo {
        part: "water pump",
        action: "replace",
        since: "last-done",
        opens: "nothing",
        resets: &[],
        hours: 1.5,
        loses: "money",
        triggers: &["a drip at the weep hole, play in the shaft", "over 240 °F, or coolant lost"],
        caution: Some("Cold before the cap comes off."),
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
    look: "How hot it got: leak-down of every cylinder, head gasket, heads and deck flat, plugs, rings; belts and the pulley's line.",
}];

const LIVES: Lives<'static> = Lives {
    street: &[about_months(24.0)],
    bracket: &[about_months(24.0)],
    sportsman: &[about_months(24.0)],
    hardest: &[about_months(24.0)],
    ..Lives::EMPTY
};
