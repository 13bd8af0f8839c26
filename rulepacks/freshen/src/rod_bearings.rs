//! Rod bearings.

use crate::facts::{BEARING_KIND, USE};
use crate::lives::{Lives, about_thousand_miles, hours, passes};
use crate::severity::Chemistry;
use crate::term::Term;
use thou_contract::slopes;
use thou_sdk::prelude::*;

service_reasons![ROLLING = "roller big ends: read by play and by their own maker"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "rod-bearings",
    title: "Rod bearings: look and replace",
    why: "The upper shell carries the gas load, the lower one the inertia; whichever has the harder life speaks for \
          the pair. A tired overlay is copper in the filter, then heat, then a rod.",
    source: "common practice, no source; a builder's column lets a sportsman engine with good oil control go 300 to \
             400 passes without a look",
    needs: &[USE],
    takes: takes!(pressure inertia heat chemistry BEARING_KIND),
    reasons: REASONS,
    texts: &[scaled!(
        "Caps off one at a time, upper and lower shell side by side, new ones in",
        pressure inertia heat chemistry
    )],
    service: Some(ServiceInfo {
        part: "rod bearings",
        action: "replace",
        since: "built",
        opens: "pan",
        resets: &[],
        hours: 6.0,
        loses: "engine",
        triggers: &[
            "copper through on over 10 to 20 % of the face",
            "clearance 0.5 thou over what it was built to",
            "glitter in the filter, hot pressure down 10 psi",
            "pressure lost under load, even for a second",
        ],
        caution: None,
        held_in: &["bearings"],
        duty: Duty::Worn(LIVES.wears),
    }),
    log: LogInfo {
        read_afresh: &["oil-copper", "oil-lead", "oil-pressure-hot", "rod-clearance"],
        told_by: &["oil-copper", "oil-lead", "oil-pressure-hot", "rod-clearance"],
        shape: Some(2.0),
        reaches: REACHES,
        ..LogInfo::NOTHING
    },
    assess,
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[
    Reach {
        by: &["spun", "spin", "seiz", "weld"],
        look: "Every rod and main bearing out, the journal measured and crack-tested, the rod's big end measured and the rod crack-tested, bolts replaced; oil passages, pump, cooler and lines cleaned or thrown away.",
    },
    Reach {
        by: &["wip", "copper", "worn", "flak", "pound", "mark"],
        look: "Every other rod bearing and number one and the middle main, journals, big ends measured; oil pressure, pickup and what the filter caught: why, before new shells go in.",
    },
];

const LIVES: Lives<'static> = Lives {
    street: &[about_thousand_miles(80.0)],
    bracket: &[passes(150.0, 250.0, 400.0)],
    sportsman: &[passes(40.0, 60.0, 100.0)],
    hardest: &[passes(8.0, 15.0, 25.0)],
    circuit: &[hours(10.0, 15.0, 20.0)],
    endurance: &[hours(25.0, 32.0, 40.0)],
    wears: &[&[Stress::of(Cause::Pressure, slopes::OVERLAY)], &[Stress::of(Cause::Inertia, slopes::OVERLAY)]],
    terms: &[Term::BearingHeat, Term::Chemistry(Chemistry::Bearings)],
    ..Lives::EMPTY
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(BEARING_KIND, &["roller"]) {
        return NotApplicable(reason::ROLLING);
    }
    LIVES.give(f, a)
}
