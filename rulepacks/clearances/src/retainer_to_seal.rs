//! Retainer to seal at full lift.

use crate::common::{CONTACT, contact, touches};
use thou_sdk::prelude::*;

const CLEAR: Option<Remedy> =
    Remedy::say("Cut the guide of {place} down, or swap in a shorter seal or another retainer.");

texts![
    SHOP = Text { low: CLEAR, ..Text::new("at full lift") },
    CONTACT = Text { low: CLEAR, ..contact("contact: the retainer strikes the seal") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "retainer-to-seal",
    title: "Retainer to seal",
    operation: "heads",
    why: "A retainer that strikes the seal breaks it, and the guide after it; a valve stopped short throws its locks.",
    hold_basis: Some(Practice),
    hold_source: Some("common practice, no source: 30 thou; contact: nearer than the thinnest blade of a feeler set"),
    judges: &["retainer-to-seal"],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(_: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::at_least(thou(50.0)).never_below(thou(30.0)).text(text::SHOP));
    a.window(touches(CONTACT).text(text::CONTACT));
    Answered
}
