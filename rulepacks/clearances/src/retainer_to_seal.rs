//! Retainer to seal at full lift.

use crate::common::CONTACT;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "retainer-to-seal",
    title: "Retainer to seal",
    operation: "heads",
    why: "A retainer that strikes the seal breaks it, and the guide after it; a valve stopped short throws its locks.",
    hold_basis: Some(Physics),
    hold_source: Some("the parts touch"),
    judges: &["retainer-to-seal"],
    texts: &[Text {
        low: Remedy::say("Cut the guide of {place} down, or swap in a shorter seal or another retainer."),
        ..Text::new("at full lift; no one we know runs under 30 thou")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(_: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::at_least(thou(60.0)).never_below(CONTACT));
    Answered
}
