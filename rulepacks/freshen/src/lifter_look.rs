//! Roller lifters, looked at wheel by wheel.

use crate::facts::{LIFTER, USE, VALVETRAIN};
use crate::lives::{Life, Lives, about_passes, passes, thousand_miles};
use thou_contract::slopes;
use thou_sdk::prelude::*;

service_reasons![NO_ROLLERS = "no roller lifters: flat ones go with their lobes, see cam-lobes"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "lifter-look",
    title: "Look at the lifter wheels",
    why: "Needles fail one at a time: a hitch that a thumb can feel comes some passes before the wheel that locks and \
          takes the cam and the block with it.",
    source: "common practice, no source; slope of the needles from ISO 281",
    needs: &[USE],
    takes: takes!(load LIFTER VALVETRAIN),
    reasons: REASONS,
    texts: &[scaled!("Out of the bores, wheel up, each rolled dry under a thumb", load)],
    service: Some(ServiceInfo {
        part: "roller lifters",
        action: "inspect",
        since: "last-done",
        opens: "intake",
        resets: &[],
        hours: 2.0,
        loses: "money",
        triggers: &[
            "a hitch when the wheel is rolled, or play in it",
            "lash opened on that valve",
            "needles or flakes in the filter",
        ],
        caution: None,
        held_in: &["valvetrain"],
        duty: Duty::Worn(LIVES.wears),
    }),
    assess,
    ..Rule::SERVICE
};

const LIVES: Lives<'static> = Lives {
    bracket: &[passes(75.0, 120.0, 150.0)],
    sportsman: &[passes(25.0, 40.0, 60.0)],
    hardest: &[about_passes(10.0)],
    wears: &[&[Stress::of(Cause::Spring, slopes::NEEDLES)]],
    ..Lives::EMPTY
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(VALVETRAIN, &["bucket", "finger"]) || f.is(LIFTER, &["flat-hydraulic", "flat-solid", "none"]) {
        return NotApplicable(reason::NO_ROLLERS);
    }
    // hydraulic ones tell by their noise
    let street: &[Life] = if f.is(LIFTER, &["roller-hydraulic"]) { &[] } else { &[thousand_miles(5.0, 8.0, 10.0)] };
    Lives { street, ..LIVES }.give(f, a)
}
