//! Bores: measured and dressed.

use crate::facts::USE;
use crate::lives::NO_INTERVAL;
use crate::rings;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "bores",
    title: "Measure and dress the bores",
    why: "New rings need a finish to bed in on, and a bore that has opened at the top will not hold them.",
    needs: &[USE],
    takes: takes!(pressure slide chemistry TOP_RING),
    reasons: &[NO_INTERVAL],
    texts: &[scaled!(
        "Measure each bore at three heights and two ways before the stone touches it",
        pressure slide chemistry
    )],
    service: Some(ServiceInfo {
        part: "bores",
        action: "recondition",
        since: "built",
        opens: "engine-out",
        resets: &[],
        hours: 6.0,
        loses: "power",
        triggers: &[
            "roughness outside what the finish was made to",
            "taper over 0.7 thou raced, 1.0 on the street",
            "a scuff, or a score that a nail feels",
        ],
        caution: Some("Metal cannot be put back: read the bore twice before you hone."),
        held_in: &[],
        duty: Duty::Worn(rings::LIVES.wears),
    }),
    log: LogInfo {
        read_afresh: &["blow-by", "cranking-pressure", "leak-down", "power"],
        reaches: REACHES,
        ..LogInfo::NOTHING
    },
    // Rings wear their bores as they wear: the two have one life.
    assess: rings::assess,
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[Reach {
    by: &[],
    look: "Piston, rings, pin and rod of that hole, the pan and filter, the bearing under it; a cracked bore: the water side pressed, and the block crack-tested.",
}];
