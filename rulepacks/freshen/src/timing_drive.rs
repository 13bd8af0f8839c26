//! Timing chain or belt.

use crate::facts::{CAM_DRIVE, USE};
use crate::lives::{Lives, about_months, about_passes, about_thousand_miles, passes};
use thou_contract::slopes;
use thou_sdk::prelude::*;

service_reasons![GEARS = "gears are looked at when the front is open and have no interval"];

texts![
    CHAIN = scaled!("Chain: measure slack and cam timing, then change it", load),
    BELT = scaled!("Belt: change it by age, and never turn it inside out"),
    NOT_STATED =
        scaled!("Drive not on the sheet, counted as a chain: measure slack and cam timing, then change it", load),
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "timing-drive",
    title: "Timing chain or belt",
    why: "A chain that grows retards the cam and lets it swing; a belt that goes lets the valves meet the pistons. A \
          belt ages by the calendar, whatever it drives.",
    source: "common practice, no source; a chain grows as its pins wear, with the load (Archard, J. Applied Physics 24 (1953) 981)",
    needs: &[USE],
    takes: takes!(load CAM_DRIVE),
    reasons: REASONS,
    texts: TEXTS,
    service: Some(ServiceInfo {
        part: "timing drive",
        action: "replace",
        since: "built",
        opens: "pan",
        resets: &[],
        hours: 4.0,
        loses: "engine",
        triggers: &[
            "chain slack over 0.5 in, or cam late by over 2 degrees",
            "belt: cracked, oiled, teeth polished, or a stone through it",
            "idle unsteady, ignition timing moving at the light",
        ],
        caution: None,
        held_in: &[],
        duty: Duty::Worn(LIVES.wears),
    }),
    log: LogInfo { shape: Some(2.0), reaches: REACHES, ..LogInfo::NOTHING },
    assess,
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[
    Reach {
        by: &["broke", "break", "snap", "jump", "skip", "strip", "tooth", "teeth"],
        look: "Cam timing is gone: every valve's leak-down, the crowns by bore-scope for marks, pushrods rolled, cam and crank gears, the key, the pan for pieces; turned by hand two turns before the starter.",
    },
    Reach {
        by: &["stretch", "slack", "worn", "loose"],
        look: "Cam timing read again, gears and dampers, the pan for chips.",
    },
];

const LIVES: Lives<'static> = Lives {
    street: &[about_thousand_miles(60.0)],
    bracket: &[passes(200.0, 300.0, 400.0)],
    sportsman: &[passes(100.0, 150.0, 200.0)],
    hardest: &[about_passes(50.0)],
    wears: &[&[Stress::of(Cause::Spring, slopes::WEAR)]],
    ..Lives::EMPTY
};

/// Rubber is never scaled by power or load; in the hardest class passes and months count, whichever comes first.
const BELT: Lives<'static> = Lives {
    street: &[about_months(60.0)],
    bracket: &[about_months(24.0)],
    sportsman: &[about_months(24.0)],
    hardest: &[passes(30.0, 40.0, 50.0), about_months(24.0)],
    ..Lives::EMPTY
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    match f.choice(CAM_DRIVE) {
        Some("gear") => NotApplicable(reason::GEARS),
        Some("belt") => BELT.give_as(f, a, text::BELT),
        Some(_) => LIVES.give_as(f, a, text::CHAIN),
        None => LIVES.give_as(f, a, text::NOT_STATED),
    }
}
