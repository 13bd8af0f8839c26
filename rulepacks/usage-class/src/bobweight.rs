//! The balance card's bobweight against the parts on the scale.

use crate::common::{UNKNOWN_USE, usage};
use crate::facts::{CYLINDERS, LAYOUT, USE};
use thou_sdk::prelude::*;

reasons![UNKNOWN_USE, LONG_INLINE = "a crank in line of four throws and more is balanced without bobweights"];

texts![
    STREET = Text {
        high: Remedy::say(
            "It pulls {fact:unbalance.force} at top speed: balance again to {fact:bobweight.from-parts}, or fit the parts that the card had.",
        ),
        ..Text::new("street, a throw")
    },
    RACED = Text {
        high: Remedy::say(
            "It pulls {fact:unbalance.force} at top speed: balance again to {fact:bobweight.from-parts}, or fit the parts that the card had.",
        ),
        ..Text::new("bracket and all-out, a throw; up to 10 g suits the street")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "bobweight",
    title: "Bobweight, card against parts",
    operation: "crank",
    why: "Every gram that the card has and the parts have not turns as a force on the main caps, with the square of speed.",
    source: "common practice, no source",
    hold_basis: Some(Physics),
    hold_source: Some("m r ω²: 40 g on a throw of 1.875 in is about 270 lbf at 7,600 rpm, on every turn"),
    judges: &["bobweight.difference"],
    needs: &[USE, LAYOUT, CYLINDERS],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(usage) = usage(f) else { return CannotSay(reason::UNKNOWN_USE) };
    if f.is(LAYOUT, &["inline"]) && f.of(CYLINDERS) > 3.5 {
        return NotApplicable(reason::LONG_INLINE);
    }
    let (high, text) = usage.pick((10.0, text::STREET), (4.0, text::RACED), (4.0, text::RACED));
    a.window(Window::at_most(grams(high)).never_above(grams(40.0)).text(text));
    Answered
}
