//! Nitrous bottle test.

use crate::facts::{ADDER, USE};
use crate::lives::{Lives, by_calendar};
use thou_sdk::prelude::*;

service_reasons![NO_NITROUS = "no nitrous"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "nitrous-bottle",
    title: "Nitrous bottle test date",
    why: "A bottle is a pressure vessel: it is proved by the date stamped on its shoulder.",
    source: "five years of a steel or aluminum bottle under United States law (49 CFR 180.209), from memory; elsewhere the law of \
             the place, which may ask for less",
    needs: &[USE],
    takes: takes!(),
    reasons: REASONS,
    texts: &[scaled!("Have it proved by its stamp")],
    service: Some(ServiceInfo {
        part: "nitrous bottle",
        action: "replace-by-date",
        since: "certified",
        opens: "nothing",
        resets: &[],
        hours: 0.5,
        loses: "engine",
        triggers: &["dropped, burnt, dented, or a relief disc that has gone"],
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
    look: "Nobody beside it: closed, emptied outside, not filled again. Valve, relief disc, mounts, lines and what it rubbed on.",
}];

const LIVES: Lives<'static> = Lives {
    street: &[by_calendar(48.0, 60.0, 60.0)],
    bracket: &[by_calendar(48.0, 60.0, 60.0)],
    sportsman: &[by_calendar(48.0, 60.0, 60.0)],
    hardest: &[by_calendar(48.0, 60.0, 60.0)],
    ..Lives::EMPTY
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(ADDER, &["nitrous"]) {
        return NotApplicable(reason::NO_NITROUS);
    }
    LIVES.give(f, a)
}
