//! Roller lifters, rebuilt or replaced.

use crate::facts::{LIFTER, LIFTER_OILING, USE, VALVETRAIN};
use crate::lives::{Life, Lives, about_thousand_miles, passes, thousand_miles};
use thou_contract::slopes;
use thou_sdk::prelude::*;

service_reasons![NO_ROLLERS = "no roller lifters: flat ones go with their lobes, see cam-lobes"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "lifters",
    title: "Rebuild or replace the lifters",
    why: "The load at the wheel is far past what its needles would carry for long, so their life is counted against a \
          lifter known to last, and by load to the power 10/3.",
    source: "common practice, no source: on the street hydraulic ones outlast solid ones by far, and wheels that are fed or bushed \
             those in the splash; slope of the needles from ISO 281",
    needs: &[USE],
    takes: takes!(load LIFTER LIFTER_OILING VALVETRAIN),
    reasons: REASONS,
    texts: &[scaled!("Send the set away, or fit the spare set", load)],
    service: Some(ServiceInfo {
        part: "roller lifters",
        action: "recondition",
        since: "built",
        opens: "intake",
        resets: &["freshen/lifter-look", "freshen/lash"],
        hours: 3.0,
        loses: "money",
        triggers: &[
            "as in lifter-look",
            "bushed wheels: play over 3 to 4 thou",
            "one failed: the whole set, and look at the cam",
        ],
        caution: None,
        held_in: &["valvetrain"],
        duty: Duty::Worn(LIVES.wears),
    }),
    log: LogInfo { read_afresh: &["lash"], told_by: &["lash"], shape: Some(2.0), reaches: REACHES, ..LogInfo::NOTHING },
    assess,
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[Reach {
    by: &[],
    look: "The lobe under each, its pushrod, rocker and spring, the lifter bores; pan, filter and pickup for needles and flakes, and the rod and main bearings if there were any.",
}];

const LIVES: Lives<'static> = Lives {
    bracket: &[passes(120.0, 175.0, 220.0)],
    sportsman: &[passes(50.0, 80.0, 120.0)],
    hardest: &[passes(20.0, 30.0, 50.0)],
    wears: &[&[Stress::of(Cause::Spring, slopes::NEEDLES)]],
    ..Lives::EMPTY
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(VALVETRAIN, &["bucket", "finger"]) || f.is(LIFTER, &["flat-hydraulic", "flat-solid", "none"]) {
        return NotApplicable(reason::NO_ROLLERS);
    }
    let street: &[Life] = if f.is(LIFTER, &["roller-hydraulic"]) {
        &[about_thousand_miles(120.0)]
    } else if f.is(LIFTER_OILING, &["pressure-fed", "bushed"]) {
        &[about_thousand_miles(30.0)]
    } else {
        &[thousand_miles(15.0, 18.0, 25.0)]
    };
    Lives { street, ..LIVES }.give(f, a)
}
