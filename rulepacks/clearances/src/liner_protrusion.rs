//! Wet liners over the deck.

use crate::common::{TOUCH, contact, touches};
use crate::facts::SLEEVES;
use thou_sdk::prelude::*;

judges![PROTRUSION = "liner.protrusion", SPREAD = "liner.protrusion.spread"];

reasons![NO_WET_LINERS = "no wet liners"];

texts![
    PROTRUSION = Text {
        low: Remedy::say("Shim under the flange of {place}, or cut the deck."),
        high: Remedy::say("Cut the counterbore of {place}, or swap the shim for a thinner one."),
        ..Text::new("over the deck, clamped")
    },
    CONTACT = Text {
        low: Remedy::say("Shim under the flange of {place}, or cut the deck."),
        ..contact("contact: a flange at the deck or below it is not clamped")
    },
    SPREAD = Text {
        high: Remedy::say("Swap liners, or shim the low ones, until they agree."),
        ..Text::new("highest liner to lowest")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "liner-protrusion",
    title: "Liners over the deck",
    operation: "block",
    why: "A wet liner is held by nothing but the gasket on its flange: flush, it moves and leaks; one that stands \
          higher than its neighbour takes the neighbour's clamp.",
    source: "common practice, no source; service manual of a heavy engine: 1 to 5 thou, 1 from liner to liner",
    hold_basis: Some(Physics),
    hold_source: Some("geometry: the gasket has nothing to press on"),
    judges: JUDGES,
    takes: &[SLEEVES],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(SLEEVES, &["wet"]) {
        return NotApplicable(reason::NO_WET_LINERS);
    }
    let over = Window::between(thou(1.0), thou(6.0)).aim(thou(4.0));
    a.window(over.judging(judged::PROTRUSION).text(text::PROTRUSION));
    a.window(touches(TOUCH).judging(judged::PROTRUSION).text(text::CONTACT));
    a.window(Window::at_most(thou(2.0)).aim(thou(1.0)).judging(judged::SPREAD).text(text::SPREAD));
    Answered
}
