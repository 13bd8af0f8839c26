//! Gas ports on the street.

use crate::common::{UNKNOWN_USE, Usage, usage};
use crate::facts::{GAS_PORTS, USE};
use thou_sdk::prelude::*;

reasons![UNKNOWN_USE, NONE = "no gas ports"];

texts![
    VERTICAL_ON_STREET = Text {
        low: Remedy::say("Lateral ports, or none. Vertical ones suit a bracket or all-out engine that is freshened."),
        points_at: &["use", "piston.gas-ports"],
        ..Text::new("vertical gas ports on the street")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "gas-ports",
    title: "Gas ports on the street",
    operation: "rings",
    why: "Holes from the crown to the ring fill with carbon where an engine idles and cruises, and then the ring hangs \
          without its gas.",
    source: "common practice, no source",
    needs: &[USE, GAS_PORTS],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(usage) = usage(f) else { return CannotSay(reason::UNKNOWN_USE) };
    match f.choice(GAS_PORTS) {
        Some("vertical") if usage == Usage::Street => a.finding(Warn, text::VERTICAL_ON_STREET, &[]),
        Some("none") => return NotApplicable(reason::NONE),
        _ => return Clear,
    }
    Answered
}
