//! The pin in the piston.

use crate::common::{by_use, contact, touches, work};
use crate::facts::{PIN, USE};
use thou_sdk::prelude::*;

const HONE: Option<Remedy> = Remedy::solve("Hone the pin bore of {place} to {solve}.", "pin-bore", "up");

texts![
    SHOP = Text {
        low: HONE,
        high: Remedy::say("Swap pins between the pistons, or fit an oversize pin to {place}."),
        ..Text::new("on diameter, for this use and pin")
    },
    CONTACT = Text { low: HONE, ..contact("contact: the pin grips even where the bosses are warm") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "pin-to-piston",
    title: "Pin to piston",
    operation: "rods-and-pistons",
    why: "A pin that grips its piston holds the skirt against the wall; a loose one hammers the bosses open.",
    source: "common practice, no source, in proportion to the pin; factory service manuals, pins of 13 to 24 mm: 0.1 to 2.4 \
             thou",
    hold_basis: Some(Practice),
    hold_source: Some(
        "common practice, no source: a pin more than a tenth larger than its hole at 20 °C, over 3 thou of clearance; contact: thermal expansion, \
         bosses and pin 130 K warmer, 10e-6 a kelvin apart (aluminium and steel, ASM Handbook, from memory)",
    ),
    judges: &["pin-to-piston"],
    needs: &[USE],
    takes: &[PIN],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// The pin that the figures are quoted for where the sheet does not give it.
const USUAL: f64 = inches(0.927);
/// What the bosses open round their pin over its diameter, hot.
const OPENS: f64 = 10.0e-6 * 130.0;

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let pin = f.get(PIN).unwrap_or(USUAL);
    let (low, high) = if pin < mm(20.0) {
        (thou(0.1), thou(0.9))
    } else {
        let (low, high) = by_use(f, (0.3, 0.9), (0.6, 1.1), (0.8, 1.3));
        (low * 1e-3 * pin, high * 1e-3 * pin)
    };
    a.window(work(low, high).never_below(thou(-0.1)).never_above(thou(3.0)).text(text::SHOP));
    a.window(touches(-OPENS * pin).text(text::CONTACT));
    Answered
}
