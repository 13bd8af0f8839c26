//! Steel rods: crack test and housings.

use crate::facts::{ROD_MATERIAL, ROD_STATE, USE};
use crate::lives::{Lives, hours, passes, thousand_miles};
use thou_contract::slopes;
use thou_sdk::prelude::*;

service_reasons![
    ALUMINIUM = "aluminium rods have a rule of their own",
    TITANIUM = "titanium rods go by their maker's own count: ask for it, and write down what they have run",
];

texts![
    NEW = scaled!("Crack test, big end, small end, length", inertia),
    REUSED = scaled!(
        "Crack test, big end, small end, length. These are not new: add the use they had, and with no record of it \
             they count as at their high figure",
        inertia
    ),
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "steel-rods",
    title: "Crack-test the rods, measure the big ends",
    why: "Under its endurance limit a steel rod does not count passes, so it is inspected and goes back in by what is \
          found. Over it, it does.",
    source: "common practice, no source; slope from Shigley, eq. 6-14",
    needs: &[USE],
    takes: takes!(inertia ROD_MATERIAL ROD_STATE),
    reasons: REASONS,
    texts: TEXTS,
    service: Some(ServiceInfo {
        part: "rods",
        action: "inspect",
        since: "last-done",
        opens: "engine-out",
        resets: &[],
        hours: 4.0,
        loses: "engine",
        triggers: &[
            "housing 0.5 thou out of round or out of size",
            "twist, bend, or a blue end",
            "over 8 % above the limiter, or a bearing spun",
        ],
        caution: None,
        held_in: &["rods"],
        duty: Duty::Worn(LIVES.wears),
    }),
    log: LogInfo { reaches: REACHES, ..LogInfo::NOTHING },
    assess,
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[
    Reach {
        by: &["broke", "break", "snap", "piece", "crack", "block", "window", "through", "thrown"],
        look: "It is a tear-down: block, crank, cam, heads and oil pan for cracks and holes, every other rod, bolt, piston and bearing, the oil system to the last line; oil and water off the track and the tires before anything moves.",
    },
    Reach {
        by: &["bent", "bend", "twist", "short"],
        look: "Piston, pin, bore and bearing of that cylinder, crank at that journal, every other rod for length and bend; what the cylinder was full of.",
    },
];

const LIVES: Lives<'static> = Lives {
    street: &[thousand_miles(60.0, 80.0, 120.0)],
    bracket: &[passes(300.0, 400.0, 600.0)],
    sportsman: &[passes(100.0, 150.0, 250.0)],
    hardest: &[passes(40.0, 60.0, 100.0)],
    motocross: &[hours(60.0, 80.0, 100.0)],
    wears: &[&[Stress::of(Cause::Inertia, slopes::STEEL)]],
    ..Lives::EMPTY
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    match f.choice(ROD_MATERIAL) {
        Some("aluminium") => NotApplicable(reason::ALUMINIUM),
        Some("titanium") => CannotSay(reason::TITANIUM),
        _ if f.is(ROD_STATE, &["reused", "reconditioned"]) => LIVES.give_as(f, a, text::REUSED),
        _ => LIVES.give_as(f, a, text::NEW),
    }
}
