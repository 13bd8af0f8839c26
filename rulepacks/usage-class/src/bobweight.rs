//! The balance card's bobweight against the parts on the scale.

use crate::common::{UNKNOWN_USE, usage};
use crate::facts::{BOBWEIGHT, CYLINDERS, LAYOUT, RECIPROCATING_MASS, RODS_A_PIN, USE};
use thou_sdk::prelude::*;

reasons![
    UNKNOWN_USE,
    LONG_INLINE = "a crank in line of four throws and more is balanced without bobweights",
    NO_BOBWEIGHT =
        "a throw for each rod, and no bobweight stated: its throws balance one another, or its maker says how",
];

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
    takes: &[RODS_A_PIN, BOBWEIGHT],
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
    if f.get(BOBWEIGHT).is_none() && f.get(RODS_A_PIN).is_some_and(|rods| rods < 1.5) && f.of(CYLINDERS) > 1.5 {
        return NotApplicable(reason::NO_BOBWEIGHT);
    }
    let (high, text) = usage.pick((10.0, text::STREET), (4.0, text::RACED), (4.0, text::RACED));
    // both pulls go with throw and speed squared, so the share is that of the masses
    let never = 0.15 * f.of(RECIPROCATING_MASS);
    a.window(Window::at_most(grams(high).min(never)).never_above(never).text(text));
    Answered
}
