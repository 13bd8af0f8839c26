//! End gap of the top ring.

use crate::common::work;
use crate::facts::{ADDER, BORE, CARD_TOP_GAP, CLOSING_GAP, USE};
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
             bracket engines",
    hold_basis: Some(Physics),
    hold_source: Some("thermal expansion: pi B (ring's own growth less the bore's), at the temperatures shown"),
    judges: &["ring.top.gap"],
    needs: &[BORE, USE],
    takes: &[ADDER, CLOSING_GAP, CARD_TOP_GAP],
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

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let bore = f.of(BORE);
    // The ring's maker knows its temperatures; ours are assumed, and yield to the card.
    if let Some(factor) = f.get(CARD_TOP_GAP) {
        let low = factor * bore;
        a.window(Window::between(low, 1.5 * low).aim(low).never_below(low).levels(Warn, Note).text(text::MAKER));
        return Answered;
    }
    let (low, high) = per_inch(f.choice(ADDER), f.choice(USE));
    let closing = f.get(CLOSING_GAP);
    let closes = closing.unwrap_or(0.0);
    let (low, high) = ((low * 1e-3 * bore).max(closes), (high * 1e-3 * bore).max(closes));
    a.window(Window { never_below: closing, ..work(low, high).levels(Warn, Note).text(text::SHOP) });
    Answered
}
