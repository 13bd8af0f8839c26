//! Valve lash of solid lifters, buckets and fingers.

use crate::facts::{LIFTER, USE, VALVETRAIN};
use crate::lives::{EACH_EVENT, EACH_PASS, Lives, passes, thousand_miles};
use thou_contract::slopes;
use thou_sdk::prelude::*;

service_reasons![HYDRAULIC = "hydraulic lifters have no lash to set"];

texts![
    SCALED = scaled!("Check every valve, write it down, then set it", load),
    BY_COUNT = scaled!("Check every valve, write it down, then set it"),
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "lash",
    title: "Set the lash",
    why: "Lash that moves is the first sign of a wheel, a lobe, a seat or a valve that is giving up; set it without \
          looking and the sign is gone.",
    source: "common practice, no source; that a loose exhaust points at its lifter is from a trade article",
    needs: &[USE],
    takes: takes!(load LIFTER VALVETRAIN),
    reasons: REASONS,
    texts: TEXTS,
    service: Some(ServiceInfo {
        part: "valve lash",
        action: "adjust",
        since: "last-done",
        opens: "valve-covers",
        resets: &[],
        hours: 1.0,
        loses: "money",
        triggers: &[
            "one valve moved 3 to 5 thou: find out why before it is set",
            "an exhaust looser by 3 to 5 thou: suspect its lifter",
            "all of them moved alike: the temperature was another one",
            "3 to 5 % over the limiter, or more",
        ],
        caution: None,
        held_in: &[],
        duty: Duty::Worn(LIVES.wears),
    }),
    log: LogInfo { done_by: &["lash"], ..LogInfo::NOTHING },
    assess,
    ..Rule::SERVICE
};

const LIVES: Lives<'static> = Lives {
    street: &[thousand_miles(3.0, 5.0, 8.0)],
    bracket: &[passes(10.0, 20.0, 40.0)],
    sportsman: &[EACH_EVENT],
    hardest: &[EACH_PASS],
    wears: &[&[Stress::of(Cause::Spring, slopes::NEEDLES)]],
    plain: text::BY_COUNT,
    ..Lives::EMPTY
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let own = f.is(VALVETRAIN, &["bucket", "finger"]);
    if !own && f.is(LIFTER, &["flat-hydraulic", "roller-hydraulic"]) {
        return NotApplicable(reason::HYDRAULIC);
    }
    LIVES.give_as(f, a, text::SCALED)
}
