//! The ring pack against the passes wanted of it.

use crate::common::{UNKNOWN_USE, Usage, usage};
use crate::facts::{TOP_RING, USE};
use thou_sdk::prelude::*;

reasons![UNKNOWN_USE, STREET = "a street engine counts miles: see street-ring-height"];

texts![
    THIN = Text {
        high: Remedy::say("Rings of 1.2 mm or 1/16 in, or plan to freshen by {high}. These suit an all-out engine."),
        ..Text::new("top ring of 0.9 mm and less")
    },
    ORDINARY = Text {
        high: Remedy::say("Plan to freshen by {high}. No ring that we know of goes further on a drag strip."),
        ..Text::new("top ring of more than 0.9 mm")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "ring-pack",
    title: "Rings for the passes wanted",
    operation: "rings",
    why: "A thin ring seals and rubs little because there is little of it, and that is soon gone.",
    source: "common practice, no source: thin rings to 300 passes, others with a plateau finish to 800",
    judges: &["freshen.wanted"],
    needs: &[USE, TOP_RING],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// Nominally 0.9 mm or less.
pub(crate) fn thin(height: f64) -> bool {
    height < mm(0.95)
}

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    match usage(f) {
        None => return CannotSay(reason::UNKNOWN_USE),
        Some(Usage::Street) => return NotApplicable(reason::STREET),
        Some(_) if thin(f.of(TOP_RING)) => a.window(Window::at_most(300.0).text(text::THIN)),
        Some(_) => a.window(Window::at_most(800.0).text(text::ORDINARY)),
    }
    Answered
}
