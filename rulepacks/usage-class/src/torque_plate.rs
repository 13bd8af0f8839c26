//! Bores honed without the plate.

use crate::common::{UNKNOWN_USE, Usage, usage};
use crate::facts::{PLATE_HONED, USE};
use thou_sdk::prelude::*;

reasons![UNKNOWN_USE];

texts![
    STREET = Text {
        low: Remedy::say("Hone the next one with a plate, torqued as the head is; read the bores with it on."),
        points_at: &["bore.plate-honed"],
        ..Text::new("street bores honed without a torque plate")
    },
    RACED = Text {
        low: Remedy::say("Hone it with a plate, torqued as the head is, and read the bores with it on."),
        points_at: &["bore.plate-honed"],
        ..Text::new("raced bores honed without a torque plate")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "torque-plate",
    title: "Torque plate",
    operation: "block",
    why: "The head's fasteners pull the bore out of round by more than any ring follows: round without its load is not round \
          with it.",
    source: "common practice, no source",
    needs: &[USE, PLATE_HONED],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(usage) = usage(f) else { return CannotSay(reason::UNKNOWN_USE) };
    if f.flag(PLATE_HONED) != Some(false) {
        return Clear;
    }
    let street = usage == Usage::Street;
    a.finding(if street { Note } else { Warn }, if street { text::STREET } else { text::RACED }, &[]);
    Answered
}
