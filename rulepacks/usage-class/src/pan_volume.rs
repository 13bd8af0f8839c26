//! How much oil a wet sump takes to the lights.

use crate::common::{UNKNOWN_USE, Usage, for_eight, usage};
use crate::facts::{CYLINDERS, SUMP, SWEPT, USE};
use thou_sdk::prelude::*;

reasons![UNKNOWN_USE, NOT_LAUNCHED = "only a wet sump that is launched, and nobody says how large the engine is"];

texts![
    LAUNCHED = Text {
        low: Remedy::say("A deeper pan of {low} or more with a trap door, or a dry sump. This pan suits the street."),
        ..Text::new("wet sump, launched; the aim is the looser end of it")
    },
    LEAST = Text {
        low: Remedy::say("Fill it up, and look at oil.volume: with so little the pickup drinks air."),
        ..Text::new("less than any engine of this size carries")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "pan-volume",
    title: "Oil in the pan",
    operation: "assembly",
    why: "At the launch the oil stands on the pan's rear wall, and at speed a quart of it is up in the engine.",
    source: "common practice, no source, for eight cylinders; counted by cylinder here; small cars and motorcycles carry more than half their displacement, \
             and none less than 0.45 l a cylinder, or its displacement where that is less",
    judges: &["oil.volume"],
    needs: &[USE, SUMP, CYLINDERS],
    takes: &[SWEPT],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(usage) = usage(f) else { return CannotSay(reason::UNKNOWN_USE) };
    let mut outcome = NotApplicable(reason::NOT_LAUNCHED);
    if usage != Usage::Street && f.is(SUMP, &["wet"]) {
        a.window(Window::at_least(for_eight(quarts(7.0), f)).aim(for_eight(quarts(8.0), f)).text(text::LAUNCHED));
        outcome = Answered;
    }
    if let Some(swept) = f.get(SWEPT) {
        a.window(Window::at_least(f.of(CYLINDERS) * (0.55 * swept).max(swept.min(cc(450.0)))).text(text::LEAST));
        outcome = Answered;
    }
    outcome
}
