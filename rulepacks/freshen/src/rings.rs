//! Piston rings.

use crate::facts::{TOP_RING, USE};
use crate::lives::{Lives, NO_INTERVAL, hours, passes, thousand_miles};
use crate::severity::Chemistry;
use crate::term::Term;
use thou_contract::slopes;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "rings",
    title: "Replace the rings",
    why: "Rings and bores wear by pressure times the distance they slide, and faster when fuel washes the oil off. \
          They take power, not the engine, so leak-down may speak before the count does.",
    source: "common practice, no source; wear as load and distance from Archard 1953",
    needs: &[USE],
    takes: takes!(pressure slide chemistry TOP_RING),
    reasons: &[NO_INTERVAL],
    texts: &[scaled!("New rings, gaps filed again", pressure slide chemistry)],
    service: Some(ServiceInfo {
        part: "rings",
        action: "replace",
        since: "built",
        opens: "engine-out",
        resets: &["freshen/bores", "freshen/leak-down"],
        hours: 8.0,
        loses: "power",
        triggers: &[
            "leak-down at the breather, 4 points up",
            "blow-by up by 30 %",
            "end gap 8 to 10 thou over what it was filed to",
            "power down 2 % in the same air",
        ],
        caution: None,
        held_in: &["rings"],
        duty: Duty::Worn(LIVES.wears),
    }),
    log: LogInfo {
        read_afresh: &["blow-by", "cranking-pressure", "leak-down", "oil-iron", "power"],
        told_by: &["blow-by", "cranking-pressure", "leak-down", "oil-silicon", "power"],
        reaches: REACHES,
        ..LogInfo::NOTHING
    },
    assess,
    ..Rule::SERVICE
};

pub(crate) const LIVES: Lives<'static> = Lives {
    street: &[thousand_miles(60.0, 80.0, 120.0)],
    bracket: &[passes(200.0, 300.0, 450.0)],
    sportsman: &[passes(40.0, 60.0, 100.0)],
    hardest: &[passes(10.0, 15.0, 25.0)],
    circuit: &[hours(10.0, 15.0, 20.0)],
    endurance: &[hours(25.0, 32.0, 40.0)],
    motocross: &[hours(15.0, 25.0, 40.0)],
    wears: &[&[Stress::of(Cause::Sliding, slopes::WEAR)]],
    terms: &[Term::Chemistry(Chemistry::Rings)],
    ..Lives::EMPTY
};

const THIN_RINGS: Lives<'static> = Lives { bracket: &[passes(150.0, 200.0, 300.0)], ..LIVES };
/// A top ring lower than this is a thin one. Common practice, no source.
const THIN: f64 = mm(1.2);

/// The services of the rings, and of the bores that they run in.
pub(crate) fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.get(TOP_RING).is_some_and(|height| height < THIN) { &THIN_RINGS } else { &LIVES }.give(f, a)
}

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[Reach {
    by: &[],
    look: "Bore, piston, ring lands and pin of each hole that lost them, its plug and leak-down, filter cut; why: detonation, gap butted, dirt.",
}];
