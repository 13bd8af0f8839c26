//! A filled block against the use.

use crate::common::{UNKNOWN_USE, Usage, usage};
use crate::facts::{BLOCK_FILL, IDLE_TIME, USE};
use thou_sdk::prelude::*;

reasons![UNKNOWN_USE, NOT_FILLED = "not filled"];

texts![
    FULL = Text {
        low: Remedy::say("Another block. This one suits a bracket or all-out engine."),
        points_at: &["use", "block.fill"],
        ..Text::new("a block filled to the deck on the street")
    },
    HALF = Text {
        low: Remedy::say("An oil cooler, and watch the oil; or another block. This one suits a bracket engine."),
        points_at: &["use", "block.fill"],
        basis: Some(Practice),
        ..Text::new("a half-filled block on the street")
    },
    IDLE = Text {
        low: Remedy::say("Shut it off between rounds and cool it; or correct duty.idle.time."),
        points_at: &["block.fill", "duty.idle.time"],
        basis: Some(Practice),
        ..Text::new("a filled block that idles five minutes for each pass, or more")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "filled-block",
    title: "Filled block",
    operation: "combination",
    why: "Grout holds the bores round and carries no heat away: a full fill is good for a pass and a cool-down, and \
          nothing in between.",
    basis: Physics,
    source: "no coolant beside the bores: what the rings bring there stays there",
    needs: &[USE, BLOCK_FILL],
    takes: &[IDLE_TIME],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(usage) = usage(f) else { return CannotSay(reason::UNKNOWN_USE) };
    match (f.choice(BLOCK_FILL), usage) {
        (Some("full"), Usage::Street) => a.finding(Hold, text::FULL, &[]),
        (Some("half"), Usage::Street) => a.finding(Warn, text::HALF, &[]),
        (Some("half" | "full"), _) if f.get(IDLE_TIME).is_some_and(|time| time >= 300.0) => {
            a.finding(Warn, text::IDLE, &[]);
        }
        (Some("none"), _) => return NotApplicable(reason::NOT_FILLED),
        _ => return Clear,
    }
    Answered
}
