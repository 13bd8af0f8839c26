//! The balance card's bobweight against the parts on the scale.

use crate::common::{UNKNOWN_USE, usage};
use crate::facts::{CYLINDERS, LAYOUT, RECIPROCATING_MASS, USE};
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
    hold_source: Some("common practice, no source: three twentieths of one piston's pull, turning, at any speed"),
    judges: &["bobweight.difference"],
    needs: &[USE, LAYOUT, CYLINDERS, RECIPROCATING_MASS],
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
    // both pulls go with throw and speed squared, so the share is that of the masses
    let never = 0.15 * f.of(RECIPROCATING_MASS);
    a.window(Window::at_most(grams(high).min(never)).never_above(never).text(text));
    Answered
}
