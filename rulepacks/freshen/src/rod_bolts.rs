//! Rod bolts.

use crate::facts::{ROD_STATE, USE};
use crate::lives::{Lives, NO_INTERVAL, passes, thousand_miles};
use thou_contract::slopes;
use thou_sdk::prelude::*;

texts![
    NEW = scaled!("New bolts, free length written down before they go in", inertia),
    REUSED = scaled!(
        "New bolts. The rods are not new: add the use that the bolts had, and with no record of it they count as \
             at their high figure",
        inertia
    ),
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "rod-bolts",
    title: "Replace the rod bolts",
    why: "The bolt holds the rod against the piston at the top of the exhaust stroke, and fatigue there goes as speed \
          to the power 17: 400 rpm more on the same parts leaves two fifths.",
    source: "common practice, no source; growth of 0.5 thou as the limit is repeated through trade articles; slope \
             from Shigley, eq. 6-14",
    needs: &[USE],
    takes: takes!(inertia ROD_STATE),
    reasons: &[NO_INTERVAL],
    texts: TEXTS,
    service: Some(ServiceInfo {
        part: "rod bolts",
        action: "replace",
        since: "built",
        opens: "engine-out",
        resets: &[],
        hours: 3.0,
        loses: "engine",
        triggers: &[
            "free length 0.5 thou over new: scrap",
            "5 to 8 % over the limiter: half of the nominal figure",
            "over 8 %, or a joint that has opened: they do not run again",
            "taken apart more often than their card allows",
        ],
        caution: Some(
            "Tighten by stretch, to the figure of the bolt's own card and with its own lubricant. Nothing here gives \
              a torque.",
        ),
        held_in: &["fasteners.rod-bolts"],
        duty: Duty::Worn(LIVES.wears),
    }),
    log: LogInfo {
        read_afresh: &["rod-bolt-growth"],
        told_by: &["rod-bolt-growth"],
        over_rev: &[OverRev::Halves, OverRev::Ends, OverRev::OpenedJointEnds],
        reaches: REACHES,
        ..LogInfo::NOTHING
    },
    assess,
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[
    Reach {
        by: &["broke", "break", "snap", "piece", "crack", "let", "loose"],
        look: "The pan off and that cylinder apart: rod, cap, journal, bearing, piston and bore, the block and cam beside it. Every other bolt goes whatever it measures; big ends measured, rods and crank crack-tested.",
    },
    Reach {
        by: &["stretch", "grew", "grown", "long", "yield"],
        look: "Every other bolt measured, the big ends measured, shells looked at, the joint's faces for fretting; the set goes.",
    },
];

const LIVES: Lives<'static> = Lives {
    street: &[thousand_miles(60.0, 80.0, 120.0)],
    bracket: &[passes(200.0, 300.0, 400.0)],
    sportsman: &[passes(50.0, 75.0, 100.0)],
    hardest: &[passes(15.0, 20.0, 30.0)],
    wears: &[&[Stress::of(Cause::Inertia, slopes::STEEL)]],
    ..Lives::EMPTY
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let reused = f.is(ROD_STATE, &["reused", "reconditioned"]);
    LIVES.give_as(f, a, if reused { text::REUSED } else { text::NEW })
}
