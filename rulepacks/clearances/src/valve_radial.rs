//! The valve's edge in its pocket.

use crate::common::{CONTACT, by_use};
use crate::facts::USE;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "valve-radial",
    title: "Valve in its pocket, sideways",
    operation: "mock-up",
    why: "A valve clears the floor of its pocket and still catches its wall: the piston rocks and the stem tips.",
    source: "trade articles: 50 thou to the side; common practice all out",
    hold_basis: Some(Physics),
    hold_source: Some("the parts touch"),
    judges: &["valve.radial-clearance"],
    needs: &[USE],
    texts: &[Text {
        low: Remedy::say(
            "Cut the pocket of {place} wider, with a cutter of the valve's diameter and twice this on it.",
        ),
        ..Text::new("between the valve's edge and the pocket's wall; no one we know runs under 30 thou")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::at_least(by_use(f, thou(50.0), thou(50.0), thou(40.0))).never_below(CONTACT));
    Answered
}
