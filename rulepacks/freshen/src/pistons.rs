//! Pistons and pins.

use crate::facts::{PISTON_STATE, USE};
use crate::lives::{Lives, NO_INTERVAL, about_thousand_miles, hours, passes};
use thou_contract::slopes;
use thou_sdk::prelude::*;

texts![
    NEW = scaled!("New pistons and pins, weighed and fitted to their bores", pressure inertia),
    REUSED = scaled!(
        "New pistons and pins. These are not new: add the use they had, and with no record of it they count as at \
         their high figure",
        pressure inertia
    ),
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "pistons",
    title: "Replace the pistons and pins",
    why: "Hot aluminium keeps half of its strength. The crown works against pressure, the pin boss against inertia, \
          and the one that has the harder life ends the piston.",
    source: "common practice, no source; a skirt collapsed by 2 thou from a trade article",
    needs: &[USE],
    takes: takes!(pressure inertia PISTON_STATE),
    reasons: &[NO_INTERVAL],
    texts: TEXTS,
    service: Some(ServiceInfo {
        part: "pistons and pins",
        action: "replace",
        since: "built",
        opens: "engine-out",
        resets: &["freshen/rings"],
        hours: 6.0,
        loses: "engine",
        triggers: &[
            "any detonation, heard or on the plugs",
            "skirt collapsed by 2 thou",
            "ring groove over 3 thou raced, 4 on the street; pin bore 0.5 thou over what it was built to",
            "a crack at a boss or a valve pocket",
            "passes on nitrous: each counts as three or four for the crown, so count them apart",
        ],
        caution: None,
        held_in: &["pistons", "pins"],
        duty: Duty::Worn(LIVES.wears),
    }),
    log: LogInfo {
        read_afresh: &["blow-by", "cranking-pressure", "leak-down", "oil-aluminium", "power"],
        told_by: &["oil-aluminium"],
        reaches: REACHES,
        ..LogInfo::NOTHING
    },
    assess,
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[Reach {
    by: &[],
    look: "The head off: bore, valves, chamber and plug of that cylinder, its rod for bend and its small end, the rod bearing, the pan and filter for pieces; mixture, timing and plugs of all the others before it fires.",
}];

const LIVES: Lives<'static> = Lives {
    street: &[about_thousand_miles(100.0)],
    bracket: &[passes(300.0, 450.0, 600.0)],
    sportsman: &[passes(80.0, 120.0, 200.0)],
    hardest: &[passes(25.0, 40.0, 60.0)],
    motocross: &[hours(15.0, 25.0, 40.0)],
    wears: &[&[Stress::of(Cause::Pressure, slopes::CROWN)], &[Stress::of(Cause::Inertia, slopes::BOSS)]],
    ..Lives::EMPTY
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let reused = f.is(PISTON_STATE, &["reused", "reconditioned"]);
    LIVES.give_as(f, a, if reused { text::REUSED } else { text::NEW })
}
