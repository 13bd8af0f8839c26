//! Timing chain or belt.

use crate::facts::{CAM_DRIVE, USE};
use crate::lives::{NO_INTERVAL, Plan, about_months, about_passes, about_thousand_miles, passes};
use thou_contract::slopes;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "timing-drive",
    title: "Timing chain or belt",
    why: "A chain that grows retards the cam and lets it swing; a belt that goes lets the valves meet the pistons. A \
          belt ages by the calendar, whatever it drives.",
    needs: &[USE],
    takes: takes!(load CAM_DRIVE),
    reasons: &[NO_INTERVAL, "gears are looked at when the front is open and have no interval"],
    texts: &[
        scaled!("Chain: measure slack and cam timing, then change it", load),
        scaled!("Belt: change it by age, and never turn it inside out"),
        scaled!("Drive not on the sheet, counted as a chain: measure slack and cam timing, then change it", load),
    ],
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
        duty: Duty::Worn(PLAN.wears),
    }),
    assess,
    ..Rule::SERVICE
};

const PLAN: Plan<'static> = Plan {
    street: &[about_thousand_miles(60.0)],
    bracket: &[passes(200.0, 300.0, 400.0)],
    sportsman: &[passes(100.0, 150.0, 200.0)],
    hardest: &[about_passes(50.0)],
    wears: &[&[Stress::of(Cause::Spring, slopes::NEEDLES)]],
    ..Plan::EMPTY
};

/// Rubber is never scaled by power or load; in the hardest class passes and months count, whichever comes first.
const BELT: Plan<'static> = Plan {
    street: &[about_months(60.0)],
    bracket: &[about_months(24.0)],
    sportsman: &[about_months(24.0)],
    hardest: &[passes(30.0, 40.0, 50.0), about_months(24.0)],
    ..Plan::EMPTY
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    match f.choice(CAM_DRIVE) {
        Some("gear") => NotApplicable(1),
        Some("belt") => BELT.give(f, a, 1),
        Some(_) => PLAN.give(f, a, 0),
        None => PLAN.give(f, a, 2),
    }
}
