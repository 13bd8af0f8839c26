//! Nitrous solenoids and filters.

use crate::facts::{ADDER, USE};
use crate::lives::{Lives, about_passes};
use thou_sdk::prelude::*;

service_reasons![NO_NITROUS = "no nitrous"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "nitrous-solenoids",
    title: "Nitrous solenoids and filters",
    why: "A fuel solenoid that sticks shut, or a nitrous one that sticks open, is a melted piston or a burst manifold.",
    needs: &[USE],
    takes: takes!(),
    reasons: REASONS,
    texts: &[scaled!("New plungers and filters, flow and pressure proved before the bottle is opened")],
    service: Some(ServiceInfo {
        part: "nitrous solenoids",
        action: "replace",
        since: "built",
        opens: "nothing",
        resets: &[],
        hours: 1.0,
        loses: "engine",
        triggers: &["a solenoid slow, hot or leaking", "a backfire", "frost where there should be none"],
        caution: Some("Bottle shut and lines bled before a fitting is loosened."),
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
    look: "Bottle closed, lines emptied outside. Pistons and lands through the plug holes, plugs, leak-down, intake and plates for a backfire; jets and filters, the wiring and the other solenoid.",
}];

const LIVES: Lives<'static> = Lives {
    bracket: &[about_passes(50.0)],
    sportsman: &[about_passes(50.0)],
    hardest: &[about_passes(50.0)],
    ..Lives::EMPTY
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(ADDER, &["nitrous"]) {
        return NotApplicable(reason::NO_NITROUS);
    }
    LIVES.give(f, a)
}
