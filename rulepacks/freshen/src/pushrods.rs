//! Pushrods.

use crate::facts::{USE, VALVETRAIN};
use crate::lives::{Lives, about_passes, passes};
use thou_contract::slopes;
use thou_sdk::prelude::*;

service_reasons![NO_PUSHRODS = "no pushrods"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "pushrods",
    title: "Roll and look at the pushrods",
    why: "A bent pushrod changes lash and lift, and a worn cup is steel in the oil. One bent in use had a reason: \
          valve on piston, bind, or a stuck valve.",
    needs: &[USE],
    takes: takes!(load VALVETRAIN),
    reasons: REASONS,
    texts: &[scaled!("Roll each on a plate, look at both ends", load)],
    service: Some(ServiceInfo {
        part: "pushrods",
        action: "inspect",
        since: "last-done",
        opens: "valve-covers",
        resets: &[],
        hours: 1.5,
        loses: "money",
        triggers: &["bent over 5 thou", "wear in the cup, blue tip", "5 to 8 % over the limiter: roll them"],
        caution: None,
        held_in: &["valvetrain"],
        duty: Duty::Worn(LIVES.wears),
    }),
    log: LogInfo { reaches: REACHES, ..LogInfo::NOTHING },
    assess,
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[Reach {
    by: &[],
    look: "Rocker, lifter and lobe of that valve, its lash and spring, the guide plate; valve and crown by bore-scope: a bent one has met something.",
}];

const LIVES: Lives<'static> = Lives {
    bracket: &[passes(300.0, 400.0, 600.0)],
    sportsman: &[passes(100.0, 150.0, 250.0)],
    hardest: &[about_passes(50.0)],
    wears: &[&[Stress::of(Cause::Spring, slopes::NEEDLES)]],
    ..Lives::EMPTY
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(VALVETRAIN, &["bucket", "finger"]) {
        return NotApplicable(reason::NO_PUSHRODS);
    }
    LIVES.give(f, a)
}
