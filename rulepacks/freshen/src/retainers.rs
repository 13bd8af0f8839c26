//! Spring retainers and locks.

use crate::facts::USE;
use crate::lives::{Lives, NO_INTERVAL, passes, thousand_miles};
use thou_contract::slopes;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "retainers",
    title: "Retainers and locks",
    why: "A retainer that pulls through, or a lock that lets go, drops the valve as surely as a broken spring does.",
    needs: &[USE],
    takes: takes!(load speed),
    reasons: &[NO_INTERVAL],
    texts: &[scaled!("Change the set; look at them under a glass whenever the springs are off", load speed)],
    service: Some(ServiceInfo {
        part: "retainers and locks",
        action: "replace",
        since: "built",
        opens: "valvetrain",
        resets: &[],
        hours: 1.0,
        loses: "engine",
        triggers: &["titanium: galled lock taper or a crack", "lock marks on the stem", "over 8 % above the limiter"],
        caution: Some(
            "A spring on its retainer stores enough to take an eye: glasses on, the valve held by air or by the \
              piston at top, the retainer seated before you let go, and your face never over it.",
        ),
        held_in: &["springs"],
        duty: Duty::Worn(LIVES.wears),
    }),
    log: LogInfo { reaches: REACHES, ..LogInfo::NOTHING },
    assess: |f, a| LIVES.give(f, a),
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[Reach {
    by: &[],
    look: "The valve it held: crown, valve and seat of that cylinder by bore-scope, its leak-down, stem and tip, the spring, every other retainer and lock of the set; pan and filter for the pieces.",
}];

const LIVES: Lives<'static> = Lives {
    street: &[thousand_miles(80.0, 120.0, 160.0)],
    bracket: &[passes(200.0, 300.0, 400.0)],
    sportsman: &[passes(60.0, 100.0, 150.0)],
    hardest: &[passes(20.0, 30.0, 50.0)],
    wears: &[&[Stress::of(Cause::Spring, slopes::SPRING_LOAD), Stress::of(Cause::Landing, slopes::VALVE)]],
    ..Lives::EMPTY
};
