//! Cam lobes, measured.

use crate::facts::USE;
use crate::lives::{Lives, NO_INTERVAL, about_passes, about_thousand_miles, passes};
use thou_contract::slopes;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "cam-lobes",
    title: "Measure the cam lobes",
    why: "A lobe loses its case and then its lift. The indicator on the pushrod sees 3 thou; the dyno sees the power \
          after it is too late for the lifters.",
    needs: &[USE],
    takes: takes!(load),
    reasons: &[NO_INTERVAL],
    texts: &[scaled!("Lobe lift of every valve by indicator, against the card", load)],
    service: Some(ServiceInfo {
        part: "camshaft",
        action: "measure",
        since: "last-done",
        opens: "valve-covers",
        resets: &[],
        hours: 1.5,
        loses: "money",
        triggers: &[
            "a lobe down by 3 thou or more, or pitted",
            "flat tappets: wear on one face, metal in the filter",
            "lash that keeps opening on one valve",
        ],
        caution: None,
        held_in: &["cam"],
        duty: Duty::Worn(LIVES.wears),
    }),
    log: LogInfo { read_afresh: &["lash", "oil-iron"], told_by: &["oil-iron"], reaches: REACHES, ..LogInfo::NOTHING },
    assess: |f, a| LIVES.give(f, a),
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[Reach {
    by: &[],
    look: "Every lifter, the springs on the bad lobes, pushrods; filter and pan for iron, the oil gone from every passage, rod, main and cam bearings looked at.",
}];

const LIVES: Lives<'static> = Lives {
    street: &[about_thousand_miles(50.0)],
    bracket: &[about_passes(200.0)],
    sportsman: &[about_passes(80.0)],
    hardest: &[passes(5.0, 10.0, 20.0)],
    wears: &[&[Stress::of(Cause::Spring, slopes::LOBE)]],
    ..Lives::EMPTY
};
