//! How much oil a wet sump takes to the lights.

use crate::common::{UNKNOWN_USE, Usage, for_eight, usage};
use crate::facts::{CYLINDERS, SUMP, USE};
use thou_sdk::prelude::*;

reasons![UNKNOWN_USE, NOT_LAUNCHED = "only a wet sump that is launched"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "pan-volume",
    title: "Oil in the pan",
    operation: "assembly",
    why: "At the launch the oil stands on the pan's rear wall, and at speed a quart of it is up in the engine.",
    source: "common practice, no source, for eight cylinders; counted by cylinder here",
    judges: &["oil.volume"],
    needs: &[USE, SUMP, CYLINDERS],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say("A deeper pan of {low} or more with a trap door, or a dry sump. This pan suits the street."),
        ..Text::new("wet sump, launched; the aim is the looser end of it")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(usage) = usage(f) else { return CannotSay(reason::UNKNOWN_USE) };
    if usage == Usage::Street || !f.is(SUMP, &["wet"]) {
        return NotApplicable(reason::NOT_LAUNCHED);
    }
    a.window(Window::at_least(for_eight(quarts(7.0), f)).aim(for_eight(quarts(8.0), f)));
    Answered
}
