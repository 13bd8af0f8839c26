//! Valve springs, replaced as a set.

use crate::facts::USE;
use crate::lives::{Lives, NO_INTERVAL, passes, thousand_miles};
use thou_contract::slopes;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "springs",
    title: "Replace the valve springs",
    why: "A spring that breaks drops its valve on the piston. Springs are cheap against that, so the set goes out at a \
          fraction of what most of it would do.",
    needs: &[USE],
    takes: takes!(stress),
    reasons: &[NO_INTERVAL],
    texts: &[scaled!("Change the whole set; give each set a number and its own count", stress)],
    service: Some(ServiceInfo {
        part: "valve springs",
        action: "replace",
        since: "built",
        opens: "valvetrain",
        resets: &["freshen/spring-load", "freshen/lash"],
        hours: 3.0,
        loses: "engine",
        triggers: &[
            "a load that says so: see spring-load",
            "surge marks, rust or a nick on the wire",
            "one broken spring: the whole set",
            "over 8 % above the limiter",
        ],
        caution: Some(
            "A spring on its retainer stores enough to take an eye: glasses on, the valve held by air or by the \
              piston at top, the retainer seated before you let go, and your face never over it.",
        ),
        held_in: &["springs"],
        duty: Duty::Worn(LIVES.wears),
    }),
    log: LogInfo {
        read_afresh: &["seat-load"],
        told_by: &["seat-load"],
        over_rev: &[OverRev::Ends],
        reaches: REACHES,
        ..LogInfo::NOTHING
    },
    assess: |f, a| LIVES.give(f, a),
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[
    Reach {
        by: &["broke", "break", "snap", "piece", "crack"],
        look: "The valve under it was loose at speed: crown, valve and plug of that cylinder by bore-scope, its leak-down, retainer, locks, tip and guide, the pushrod rolled, its rocker and lifter; filter cut for wire. Then the load of every spring: the set goes, not the one.",
    },
    Reach {
        by: &["soft", "weak", "load", "tired", "surge"],
        look: "It let its valve float: tip, locks and seat of that valve, lobe and lifter under it, leak-down of that cylinder, and the load of every other of the set.",
    },
];

const LIVES: Lives<'static> = Lives {
    street: &[thousand_miles(40.0, 60.0, 80.0)],
    bracket: &[passes(75.0, 120.0, 200.0)],
    sportsman: &[passes(20.0, 40.0, 60.0)],
    hardest: &[passes(5.0, 10.0, 20.0)],
    wears: &[&[Stress::of(Cause::Spring, slopes::WIRE)]],
    wire: true,
    ..Lives::EMPTY
};
