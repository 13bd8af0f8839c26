//! Elastomer damper, by its date.

use crate::facts::{DAMPER, USE};
use crate::lives::{Lives, by_calendar};
use thou_sdk::prelude::*;

service_reasons![NO_ELASTOMER = "no elastomer in this damper"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "damper",
    title: "Damper by its date",
    why: "Rubber ages on the shelf as in the car: the ring slips, the mark lies, and the crank shakes.",
    needs: &[USE],
    takes: takes!(DAMPER),
    reasons: REASONS,
    texts: &[scaled!("Change it by the date stamped on it, not by when it was fitted")],
    service: Some(ServiceInfo {
        part: "damper",
        action: "replace-by-date",
        since: "made",
        opens: "nothing",
        resets: &[],
        hours: 1.0,
        loses: "engine",
        triggers: &[
            "ring slipped against its hub: the witness marks part",
            "cracked, swollen, or oiled",
            "after any over-rev of 5 % or more: look",
        ],
        caution: Some("If it carries a certificate, that date comes first."),
        held_in: &[],
        duty: Duty::Outing,
    }),
    log: LogInfo { shape: Some(4.0), reaches: REACHES, ..LogInfo::NOTHING },
    assess,
    ..Rule::SERVICE
};

/// What a failure reaches: common practice, no source.
const REACHES: &[Reach] = &[Reach {
    by: &[],
    look: "The crank's snout, key and bolt, the crank crack-tested at the first journals, timing drive, oil pump drive, front cover; the mark on it, and the timing that was set by it.",
}];

const LIVES: Lives<'static> = Lives {
    street: &[by_calendar(96.0, 120.0, 120.0)],
    bracket: &[by_calendar(96.0, 120.0, 120.0)],
    sportsman: &[by_calendar(96.0, 120.0, 120.0)],
    hardest: &[by_calendar(96.0, 120.0, 120.0)],
    ..Lives::EMPTY
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(DAMPER, &["fluid", "friction", "none"]) {
        return NotApplicable(reason::NO_ELASTOMER);
    }
    LIVES.give(f, a)
}
