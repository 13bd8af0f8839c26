//! Titanium inlet valves.

use crate::facts::{INLET_VALVE, USE};
use crate::lives::{Lives, about_thousand_miles, passes};
use thou_contract::slopes;
use thou_sdk::prelude::*;

service_reasons![NO_TITANIUM = "no titanium inlet valves on the sheet"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "titanium-valves",
    title: "Replace the titanium inlet valves",
    why: "Titanium is light and soft at the tip and face, and it gives no warning: it is counted, and changed.",
    needs: &[USE],
    takes: takes!(speed INLET_VALVE),
    reasons: REASONS,
    texts: &[scaled!("Change the set", speed)],
    service: Some(ServiceInfo {
        part: "inlet valves",
        action: "replace",
        since: "built",
        opens: "heads",
        resets: &["freshen/valve-job", "freshen/lash"],
        hours: 2.0,
        loses: "engine",
        triggers: &["tip mushroomed or cap loose", "lash opened by 4 thou", "face cupped, coating gone"],
        caution: None,
        held_in: &["valves"],
        duty: Duty::Worn(LIVES.wears),
    }),
    log: LogInfo { reaches: REACHES, ..LogInfo::NOTHING },
    assess,
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[
    Reach {
        by: &["broke", "break", "snap", "drop", "head", "piece"],
        look: "The head off: piston, bore, chamber and seat of that cylinder, its rod for bend, every other cylinder for pieces, filter cut; spring, retainer and locks of that valve.",
    },
    Reach {
        by: &["bent", "bend", "touch", "hit", "mark", "kiss"],
        look: "Every valve's leak-down and lash, the crowns for marks, pushrods rolled, guides of that cylinder; piston to valve and cam timing read again before new ones go in.",
    },
];

const LIVES: Lives<'static> = Lives {
    street: &[about_thousand_miles(60.0)],
    bracket: &[passes(200.0, 300.0, 400.0)],
    sportsman: &[passes(75.0, 120.0, 200.0)],
    hardest: &[passes(30.0, 50.0, 80.0)],
    wears: &[&[Stress::of(Cause::Landing, slopes::VALVE)]],
    ..Lives::EMPTY
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(INLET_VALVE, &["titanium"]) {
        return NotApplicable(reason::NO_TITANIUM);
    }
    LIVES.give(f, a)
}
