//! Crankcase vacuum pump.

use crate::facts::{CRANKCASE_VACUUM, USE};
use crate::lives::{Lives, passes};
use thou_sdk::prelude::*;

service_reasons![NO_VACUUM = "no crankcase vacuum on the sheet"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "vacuum-pump",
    title: "Vacuum-pump vanes",
    why: "Worn vanes lose the vacuum that the thin rings were chosen for, and a broken one stops the belt.",
    needs: &[USE],
    takes: takes!(CRANKCASE_VACUUM),
    reasons: REASONS,
    texts: &[scaled!("New vanes and seals")],
    service: Some(ServiceInfo {
        part: "vacuum pump",
        action: "recondition",
        since: "built",
        opens: "nothing",
        resets: &[],
        hours: 1.5,
        loses: "power",
        triggers: &["vacuum down 2 inHg at the same speed", "belt dust, noise"],
        caution: None,
        held_in: &[],
        duty: Duty::Outing,
    }),
    log: LogInfo { reaches: REACHES, ..LogInfo::NOTHING },
    assess,
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[Reach {
    by: &[],
    look: "Pan and rail seals, the oil level, its belt and what it threw into the cam drive; blow-by read again.",
}];

const LIVES: Lives<'static> = Lives {
    bracket: &[passes(150.0, 200.0, 300.0)],
    sportsman: &[passes(150.0, 200.0, 300.0)],
    hardest: &[passes(150.0, 200.0, 300.0)],
    ..Lives::EMPTY
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.get(CRANKCASE_VACUUM).is_some_and(|v| v > 0.0) {
        return NotApplicable(reason::NO_VACUUM);
    }
    LIVES.give(f, a)
}
