//! Pushrods in their holes.

use crate::common::{CONTACT, contact, touches};
use crate::facts::VALVETRAIN;
use thou_sdk::prelude::*;

reasons![NO_PUSHRODS = "no pushrods"];

const CLEAR: Option<Remedy> =
    Remedy::say("Relieve the hole of {place}, or swap in a thinner pushrod or an offset rocker.");

texts![
    SHOP = Text { low: CLEAR, ..Text::new("all round, through the whole lift") },
    CONTACT = Text { low: CLEAR, ..contact("contact: the pushrod rubs") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "pushrod-to-head",
    title: "Pushrod to head",
    operation: "mock-up",
    why: "A pushrod that rubs bends, throws metal into the oil, and leans its lifter on one side.",
    hold_basis: Some(Practice),
    hold_source: Some(
        "common practice, no source: 10 thou, since a pushrod bows; contact: nearer than the thinnest blade of a feeler set",
    ),
    judges: &["pushrod-to-head"],
    needs: &[VALVETRAIN],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(VALVETRAIN, &["pushrod"]) {
        return NotApplicable(reason::NO_PUSHRODS);
    }
    a.window(Window::at_least(thou(30.0)).never_below(thou(10.0)).text(text::SHOP));
    a.window(touches(CONTACT).text(text::CONTACT));
    Answered
}
