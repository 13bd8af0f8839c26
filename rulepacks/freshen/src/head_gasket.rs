//! Head gasket and head fasteners.

use crate::facts::{GASKET, HEAD_METHOD, PASSES_A_SEASON, USE};
use crate::lives::{EACH_EVENT, Life, Lives, NO_INTERVAL, about_months, about_passes};
use crate::severity::Chemistry;
use crate::term::Term;
use thou_contract::slopes;
use thou_sdk::prelude::*;

texts![
    SCALED = scaled!("Check the fasteners and the joint", pressure chemistry),
    BY_CALENDAR = scaled!("Check the fasteners and the joint, by the calendar"),
    LEFT_ALONE = scaled!(
        "Look for a print and for seepage; steel layers and bolts tightened to yield are never tightened again",
        pressure chemistry
    ),
    LEFT_ALONE_BY_CALENDAR = scaled!("Look for a print and for seepage, by the calendar; tighten nothing again"),
    COPPER = scaled!("Copper: tighten again cold, look for a print"),
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "head-gasket",
    title: "Head gasket and fasteners",
    why: "Each heat squeezes the gasket and each pass works it. A joint that has lifted once shows a print, pushes \
          water, and then burns through.",
    needs: &[USE],
    takes: takes!(pressure chemistry GASKET HEAD_METHOD PASSES_A_SEASON),
    reasons: &[NO_INTERVAL],
    texts: TEXTS,
    service: Some(ServiceInfo {
        part: "head gasket",
        action: "inspect",
        since: "last-done",
        opens: "valve-covers",
        resets: &[],
        hours: 2.0,
        loses: "money",
        triggers: &[
            "water pushed out, ring print, a head that has lifted",
            "copper: tighten again after the first heat",
            "an engine run over 240 °F",
            "nitrous backfire or detonation",
        ],
        caution: None,
        held_in: &["gasket"],
        duty: Duty::Worn(LIVES.wears),
    }),
    log: LogInfo {
        read_afresh: &["blow-by", "cranking-pressure", "leak-down", "power"],
        reaches: REACHES,
        ..LogInfo::NOTHING
    },
    assess,
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[
    Reach {
        by: &["water", "blown", "blew", "push", "leak", "burn"],
        look: "Oil and cylinders for water, plugs, leak-down of every cylinder with the radiator open, deck and head flat, the fasteners' stretch or torque; water in the oil: bearings looked at.",
    },
    Reach {
        by: &["fire", "torch", "groove"],
        look: "The deck and the head where it burned, the ring land and bore beside it, fasteners, mixture and timing of those two cylinders.",
    },
];

const LIVES: Lives<'static> = Lives {
    wears: &[&[Stress::of(Cause::Pressure, slopes::CROWN)]],
    terms: &[Term::Chemistry(Chemistry::Gasket)],
    ..Lives::EMPTY
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    // Once a season: 200 passes where the sheet does not say, or a year, whichever comes first.
    let season = f.get(PASSES_A_SEASON).filter(|p| *p >= 1.0).unwrap_or(200.0);
    let yearly = &[about_passes(season), about_months(12.0)];
    let copper = f.is(GASKET, &["copper"]);
    let hardest: &[Life] = if copper { &[EACH_EVENT] } else { yearly };
    let left_alone = f.is(GASKET, &["mls"]) || f.is(HEAD_METHOD, &["yield", "angle"]);
    let (scaled, plain) = match (copper, left_alone) {
        (true, _) => (text::SCALED, text::COPPER),
        (_, true) => (text::LEFT_ALONE, text::LEFT_ALONE_BY_CALENDAR),
        _ => (text::SCALED, text::BY_CALENDAR),
    };
    Lives { bracket: yearly, sportsman: yearly, hardest, plain, ..LIVES }.give_as(f, a, scaled)
}
