//! Wet liners over the deck.

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
    a.window(Window::between(thou(2.0), thou(6.0)).aim(thou(4.0)).judging(judged::PROTRUSION).text(text::PROTRUSION));
    a.window(Window::at_most(thou(1.0)).judging(judged::SPREAD).text(text::SPREAD));
    Answered
}
