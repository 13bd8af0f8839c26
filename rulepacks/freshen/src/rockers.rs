//! Rockers, as a set.

use crate::facts::{ROCKER, ROCKER_MATERIAL, USE, VALVETRAIN};
use crate::lives::{Lives, about_passes, about_thousand_miles, passes};
use thou_contract::slopes;
use thou_sdk::prelude::*;

service_reasons![NO_ROCKERS = "no rockers"];

texts![
    ALUMINIUM = scaled!("Aluminium: change the set", load),
    STEEL = Text {
        duty: Some(Duty::Worn(STEEL.wears)),
        ..scaled!("Steel: look at tips and trunnions, change by what is seen", load)
    },
    NOT_STATED = scaled!("Material not on the sheet, counted as aluminium: change the set", load),
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "rockers",
    title: "Rockers",
    why: "Aluminium rockers have no endurance limit: every pass counts, and they go as a set. Steel ones are looked at \
          and changed by what is seen.",
    source: "common practice, no source; a racer's column (2002) changes aluminium rockers as a set at 175 to 200 runs",
    needs: &[USE],
    takes: takes!(load ROCKER ROCKER_MATERIAL VALVETRAIN),
    reasons: REASONS,
    texts: TEXTS,
    service: Some(ServiceInfo {
        part: "rockers",
        action: "replace",
        since: "built",
        opens: "valve-covers",
        resets: &["freshen/lash"],
        hours: 2.0,
        loses: "engine",
        triggers: &[
            "pitted tip, play at the trunnion, a crack",
            "a broken spring or pushrod under it",
            "over 8 % above the limiter",
        ],
        caution: None,
        held_in: &["valvetrain"],
        duty: Duty::Worn(LIVES.wears),
    }),
    log: LogInfo { read_afresh: &["lash"], shape: Some(2.0), reaches: REACHES, ..LogInfo::NOTHING },
    assess,
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[Reach {
    by: &[],
    look: "Valve tip, lock groove and pushrod of that valve, its lifter and lobe, the stud or shaft, every other rocker; pan and filter for needles.",
}];

const LIVES: Lives<'static> = Lives {
    street: &[about_thousand_miles(60.0)],
    bracket: &[passes(150.0, 200.0, 300.0)],
    sportsman: &[passes(60.0, 100.0, 150.0)],
    hardest: &[passes(30.0, 50.0, 80.0)],
    wears: &[&[Stress::of(Cause::Spring, slopes::ALUMINIUM)]],
    ..Lives::EMPTY
};

const STEEL: Lives<'static> =
    Lives { bracket: &[about_passes(400.0)], wears: &[&[Stress::of(Cause::Spring, slopes::NEEDLES)]], ..LIVES };

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(ROCKER, &["none"]) || f.is(VALVETRAIN, &["bucket", "finger"]) {
        return NotApplicable(reason::NO_ROCKERS);
    }
    match f.choice(ROCKER_MATERIAL) {
        Some("steel") => STEEL.give_as(f, a, text::STEEL),
        Some(_) => LIVES.give_as(f, a, text::ALUMINIUM),
        None => LIVES.give_as(f, a, text::NOT_STATED),
    }
}
