//! Main bearings.

use crate::facts::{BEARING_KIND, USE};
use crate::lives::{Lives, about_thousand_miles, hours, passes};
use crate::severity::Chemistry;
use crate::term::Term;
use thou_contract::slopes;
use thou_sdk::prelude::*;

service_reasons![ROLLING = "roller mains: read by play and by their own maker"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "main-bearings",
    title: "Main bearings: look and replace",
    why: "Inertia and what is left out of balance load them, both with speed squared. A badly balanced engine shows it \
          here first.",
    needs: &[USE],
    takes: takes!(inertia heat chemistry BEARING_KIND),
    reasons: REASONS,
    texts: &[scaled!("Caps off, all shells laid out in order", inertia heat chemistry)],
    service: Some(ServiceInfo {
        part: "main bearings",
        action: "replace",
        since: "built",
        opens: "engine-out",
        resets: &[],
        hours: 6.0,
        loses: "engine",
        triggers: &[
            "as the rod bearings, or caps fretted at their joint",
            "the pattern heavier at one end: straightness, alignment, damper",
            "out of balance by more than the sheet allows",
        ],
        caution: None,
        held_in: &["bearings"],
        duty: Duty::Worn(LIVES.wears),
    }),
    log: LogInfo {
        read_afresh: &["main-clearance", "oil-copper", "oil-lead", "oil-pressure-hot"],
        told_by: &["main-clearance"],
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
        look: "Every main and rod bearing out, the crank measured and crack-tested, the bore's line and the caps measured, thrust; oil passages, pump, cooler and lines cleaned or thrown away.",
    },
    Reach {
        by: &["wip", "copper", "worn", "flak", "pound", "mark"],
        look: "Every other main and the rod bearings, journals, the line of the bore, crank straightness, damper; oil pressure and what the filter caught.",
    },
];

const LIVES: Lives<'static> = Lives {
    street: &[about_thousand_miles(80.0)],
    bracket: &[passes(200.0, 300.0, 400.0)],
    sportsman: &[passes(50.0, 60.0, 100.0)],
    hardest: &[passes(15.0, 25.0, 40.0)],
    circuit: &[hours(10.0, 15.0, 20.0)],
    endurance: &[hours(25.0, 32.0, 40.0)],
    wears: &[&[Stress::of(Cause::Inertia, slopes::OVERLAY)]],
    terms: &[Term::BearingHeat, Term::Chemistry(Chemistry::Bearings)],
    ..Lives::EMPTY
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(BEARING_KIND, &["roller"]) {
        return NotApplicable(reason::ROLLING);
    }
    LIVES.give(f, a)
}
