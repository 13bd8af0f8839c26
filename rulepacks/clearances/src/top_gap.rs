//! End gap of the top ring.

use crate::common::{TOUCH, added, blown_alcohol, contact, raced, touches, work};
use crate::facts::{ADDER, BORE, CARD_TOP_GAP, CLOSING_GAP, CLOSING_LEAST, FUEL, PISTON_ALLOY, TOP_LAND, USE};
use thou_sdk::prelude::*;

const FILE: Option<Remedy> = Remedy::solve(
    "File the top ring of {place} to {solve}, square and deburred; read it at the same depth.",
    "ring.top.gap",
    "up",
);
const RENEW: Option<Remedy> =
    Remedy::say("Swap in an oversize ring at {place} if leak-down asks for it; it costs a little, nothing breaks.");

texts![
    SHOP = Text {
        low: FILE,
        high: RENEW,
        ..Text::new("for this bore, use and adder; not a figure to file to where the ring's maker gives one")
    },
    HIGH_RING = Text {
        low: FILE,
        high: RENEW,
        ..Text::new(
            "for high-silicon pistons with their top ring high, or where the sheet does not say how high it sits"
        )
    },
    CONTACT = Text { low: FILE, ..contact("contact: the ends meet however cool ring and bore run") },
    MAKER = Text {
        low: FILE,
        high: RENEW,
        hold_basis: Some(Maker),
        ..Text::card("the card's gap for this bore", "ring card")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "top-gap",
    title: "Top ring gap",
    operation: "rings",
    why: "Ring ends that meet when hot have nowhere to go: the ring seizes and lifts the land off the piston.",
    source: "two trade sources that differ by half a thou per inch of bore: the range spans both; common practice for \
             bracket engines; a piston maker's note for high-silicon pistons: half as much again to twice",
    hold_basis: Some(Practice),
    hold_source: Some(
        "common practice, no source, in thou an inch of bore: 1.4 on the street, under the 1.7 of service manuals, 3.0 raced, \
         5.0 with an adder off the street, what a mild one on it starts at, 5.5 for high-silicon pistons raced; contact: thermal expansion at the least \
         temperatures, thou facts ring.closing-gap.least",
    ),
    judges: &["ring.top.gap"],
    needs: &[BORE, USE],
    takes: &[ADDER, FUEL, CLOSING_GAP, CLOSING_LEAST, CARD_TOP_GAP, PISTON_ALLOY, TOP_LAND],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// Thou per inch of bore. Where both sources give one figure, it is the low and half a thou is left above it.
fn per_inch(adder: Option<&str>, usage: Option<&str>) -> (f64, f64) {
    match (adder, usage) {
        (None | Some("none"), Some("street")) => (4.0, 4.5),
        (None | Some("none"), Some("bracket")) => (4.5, 5.5),
        (None | Some("none"), _) => (5.5, 6.0),
        // A street engine with an adder is a moderate one or a raced one: the range spans both.
        (_, Some("street")) => (5.0, 6.5),
        (Some("blower"), _) => (7.0, 7.5),
        _ => (6.0, 6.5),
    }
}

/// High-silicon pistons hold the heat at the crown: with the ring near it, half as much again to twice the gap.
fn high_ring(f: &Facts<'_>) -> bool {
    let low = f.get(TOP_LAND).is_some_and(|land| land >= 0.0625 * f.of(BORE));
    f.is(PISTON_ALLOY, &["hypereutectic"]) && !low
}

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let bore = f.of(BORE);
    let touch = f.get(CLOSING_LEAST).unwrap_or(0.0).max(TOUCH);
    // The ring's maker knows its temperatures; ours are assumed, and yield to the card.
    if let Some(factor) = f.get(CARD_TOP_GAP) {
        let low = factor * bore;
        a.window(Window::between(low, 1.5 * low).aim(low).never_below(low).levels(Warn, Note).text(text::MAKER));
        a.window(touches(touch).text(text::CONTACT));
        return Answered;
    }
    let (mut low, mut high) = per_inch(f.choice(ADDER), f.choice(USE));
    let mut never = match (raced(f), added(f)) {
        (false, _) => 1.4,
        (true, false) => 3.0,
        (true, true) => 5.0,
    };
    if blown_alcohol(f) {
        high = 8.5;
    }
    let high_ring = high_ring(f);
    if high_ring {
        (low, high) = if raced(f) { (8.0, 10.0) } else { (6.5, 8.0) };
        never = if raced(f) { 5.5 } else { never };
    }
    let closes = f.get(CLOSING_GAP).unwrap_or(0.0);
    let of_bore = |factor: f64| factor * 1e-3 * bore;
    let (low, high, never) = (of_bore(low).max(closes), of_bore(high).max(closes), of_bore(never));
    let text = if high_ring { text::HIGH_RING } else { text::SHOP };
    a.window(work(low, high).never_below(never).levels(Warn, Note).text(text));
    a.window(touches(touch).text(text::CONTACT));
    Answered
}
