//! Piston to wall, at the maker's gauge point.

use crate::common::{added, work};
use crate::facts::{ADDER, BLOCK, BORE, CARD_FIT_HIGH, CARD_FIT_LOW, COATING, FUEL, PISTON_ALLOY, USE};
use thou_sdk::prelude::*;

reasons![
    THICK_COATING = "a thick skirt coating wears in to its own fit, some start with none at all: only the piston's card \
                says how much",
];

texts![
    SHOP = Text {
        low: Remedy::solve("Hone {place} to {solve}, or swap a smaller piston in.", "bore.diameter", "up"),
        high: Remedy::say("Swap a larger piston into {place}; metal cannot be put back."),
        ..Text::new("for this alloy and use")
    },
    MAKER = Text {
        low: Remedy::solve("Hone {place} to {solve}, or swap a smaller piston in.", "bore.diameter", "up"),
        high: Remedy::say("Swap a larger piston into {place}; metal cannot be put back."),
        ..Text::card("at the card's gauge point", "piston card")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "piston-to-wall",
    title: "Piston to wall",
    operation: "block",
    why: "A piston grows more than the bore around it: too tight, it scuffs before the engine is warm; too loose, it \
          rocks, and the rings cannot seal.",
    basis: Practice,
    source: "common practice, no source; factory manuals and a trade article (2014) agree on the order of the alloys, \
             not on the numbers; another renews a piston worn 2 thou past its fit",
    judges: &["piston-to-wall"],
    needs: &[BORE, PISTON_ALLOY, USE],
    takes: &[BLOCK, ADDER, FUEL, COATING, CARD_FIT_LOW, CARD_FIT_HIGH],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// What a used piston may have worn past the fit of a new one before a trade article would renew it.
const WORN: f64 = thou(2.0);

/// Thou of clearance per inch of bore. No second school is known for 4032 beyond the street: its range stands.
fn per_inch(alloy: Option<&str>, usage: Option<&str>) -> (f64, f64) {
    match (alloy, usage) {
        (Some("2618"), Some("street")) => (0.8, 1.1),
        (Some("2618"), Some("bracket")) => (1.0, 1.35),
        (Some("2618"), _) => (1.05, 1.45),
        (Some("4032"), _) => (0.6, 0.9),
        _ => (0.4, 0.55),
    }
}

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if let (Some(low), Some(high)) = (f.get(CARD_FIT_LOW), f.get(CARD_FIT_HIGH)) {
        a.window(work(low, high).never_below(low).text(text::MAKER));
        a.window(Window::between(low, high + WORN).never_below(low).text(text::MAKER).reuse());
        return Answered;
    }
    if f.is(COATING, &["thick"]) {
        return CannotSay(reason::THICK_COATING);
    }
    let plated = f.is(BLOCK, &["aluminium-plated"]);
    let (mut low, mut high) = if plated { (0.4, 0.65) } else { per_inch(f.choice(PISTON_ALLOY), f.choice(USE)) };
    if added(f) {
        let blown_alcohol = f.is(ADDER, &["blower"]) && f.is(FUEL, &["methanol", "ethanol"]);
        low += 0.25;
        high += if blown_alcohol { 1.0 } else { 0.5 };
    }
    let bore = f.of(BORE) * 1e-3;
    let (mut low, mut high) = (low * bore, high * bore);
    if f.is(BLOCK, &["aluminium-sleeved"]) {
        // An aluminium block opens around its sleeves: finished 0.5 to 1.0 thou tighter cold, but not to
        // interference in a small bore.
        low = (low - thou(1.0)).max(0.0);
        high -= thou(0.5);
    }
    let new = work(low, high).never_below(0.6 * low).never_above(2.5 * high).text(text::SHOP);
    a.window(new);
    // what a worn skirt may reach is more than a small bore may ever be built to
    let never_above = new.never_above.map(|n| n.max(high + WORN));
    a.window(Window { high: Some(high + WORN), aim: None, never_above, ..new }.reuse());
    Answered
}
