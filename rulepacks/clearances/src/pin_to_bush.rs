//! A floating pin in the rod.

use crate::common::{TOUCH, contact, touches};
use crate::facts::{PIN, PIN_FIT, ROD, SMALL_END};
use thou_sdk::prelude::*;

const HONE: Option<Remedy> = Remedy::solve("Hone the small end of {place} to {solve}.", "rod-bush", "up");

reasons![PRESSED = "the pin is pressed in the rod", NEEDLES = "the small end runs in needles: its maker says how much"];

texts![
    SHOP = Text {
        low: HONE,
        high: Remedy::say("Fit a new bush or an oversize pin to {place}."),
        ..Text::new("on diameter, for this rod and pin")
    },
    CONTACT = Text { low: HONE, ..contact("contact: the pin sticks in its bush") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "pin-to-bush",
    title: "Pin to rod bush",
    operation: "rods-and-pistons",
    why: "The small end gets what oil finds it: a pin that sticks in its bush drags the piston round and scuffs the \
          skirt.",
    source: "common practice, no source, in proportion to the pin; a trade article wants 1.0 to 1.2 thou and saw skirts \
             scuff at 0.6 to 0.7; factory service manuals, pins of 14 mm: 0.2 to 1.5",
    hold_basis: Some(Practice),
    hold_source: Some(
        "common practice, no source: aluminium rods under 0.8 thou, any over 3.5; contact: the pin sticks",
    ),
    judges: &["pin-to-rod"],
    needs: &[PIN_FIT, ROD],
    takes: &[PIN, SMALL_END],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// The pin that the figures are quoted for where the sheet does not give it.
const USUAL: f64 = inches(1.0);

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(PIN_FIT, &["floating"]) {
        return NotApplicable(reason::PRESSED);
    }
    if f.is(SMALL_END, &["needle"]) {
        return NotApplicable(reason::NEEDLES);
    }
    let window = if f.is(ROD, &["aluminium"]) {
        Window::between(thou(1.2), thou(2.0)).aim(thou(1.6)).never_below(thou(0.8))
    } else {
        let pin = 1e-3 * f.get(PIN).unwrap_or(USUAL);
        // a coated pin in the rod's own steel runs at the low end
        let (aim, high) = if f.is(SMALL_END, &["bare"]) { (0.9, 1.1) } else { (1.1, 1.6) };
        Window::between(0.7 * pin, high * pin).aim(aim * pin)
    };
    a.window(window.never_above(thou(3.5)).text(text::SHOP));
    a.window(touches(TOUCH).text(text::CONTACT));
    Answered
}
