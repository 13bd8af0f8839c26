//! Piston to wall, at the maker's gauge point.

use crate::common::{added, blown_alcohol, work};
use crate::facts::{ADDER, BLOCK, BORE, CARD_FIT_HIGH, CARD_FIT_LOW, COATING, FUEL, PISTON_ALLOY, USE};
use thou_sdk::prelude::*;

texts![
    SHOP = Text {
        low: Remedy::solve("Hone {place} to {solve}, or swap a smaller piston in.", "bore.diameter", "up"),
        high: Remedy::say("Swap a larger piston into {place}; metal cannot be put back."),
        ..Text::new("for this alloy and use")
    },
    THICK_COATING = Text {
        high: Remedy::say("Swap a larger piston into {place}; metal cannot be put back."),
        ..Text::new("a thick coating wears in to its own fit, some start with none at all: only the card says how much")
    },
    MAKER = Text {
        low: Remedy::solve("Hone {place} to {solve}, or swap a smaller piston in.", "bore.diameter", "up"),
        high: Remedy::say("Swap a larger piston into {place}; metal cannot be put back."),
        hold_basis: Some(Maker),
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
             not on the numbers, factory manuals have cast pistons at 0.17 to 0.97 thou an inch; another renews a piston \
             worn 2 thou past its fit",
    hold_basis: Some(Practice),
    hold_source: Some(
        "common practice, no source, in thou an inch of bore: under 0.08 cast, plated or dry-film coated, 0.35 of 4032, 0.5 \
         of 2618 and 0.6 with an adder; over 2.0, or 2.5 times the fit; a card less 0.3 thou, which two gauges can be \
         apart. No contact: a skirt gives, and its oval and profile are not on the sheet",
    ),
    judges: &["piston-to-wall"],
    needs: &[BORE, PISTON_ALLOY, USE],
    takes: &[BLOCK, ADDER, FUEL, COATING, CARD_FIT_LOW, CARD_FIT_HIGH],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// What a used piston may have worn past the fit of a new one before a trade article would renew it.
const WORN: f64 = thou(2.0);

/// What two gauges, or two parts 5 K apart, can make of one fit.
const GAUGES: f64 = thou(0.3);
/// Never over, in thou an inch of bore.
const LOOSE: f64 = 2.0;

/// Thou of clearance per inch of bore. No second school is known for 4032 beyond the street: its range stands.
fn per_inch(alloy: Option<&str>, usage: Option<&str>) -> (f64, f64) {
    match (alloy, usage) {
        (Some("2618"), Some("street")) => (0.8, 1.1),
        // short skirts with a profile go in at the low end
        (Some("2618"), Some("bracket")) => (0.85, 1.35),
        (Some("2618"), _) => (0.85, 1.45),
        (Some("4032"), _) => (0.6, 0.9),
        _ => (0.25, 0.55),
    }
}

/// Never under, in thou an inch of bore.
fn tight(f: &Facts<'_>) -> f64 {
    if f.is(BLOCK, &["aluminium-plated"]) || f.is(COATING, &["dry-film"]) {
        return 0.08;
    }
    match f.choice(PISTON_ALLOY) {
        Some("2618") if added(f) => 0.6,
        Some("2618") => 0.5,
        Some("4032") => 0.35,
        _ => 0.08,
    }
}

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let bore = f.of(BORE) * 1e-3;
    if let (Some(low), Some(high)) = (f.get(CARD_FIT_LOW), f.get(CARD_FIT_HIGH)) {
        let worn = high + WORN;
        let never_above = Some((LOOSE * bore).max(worn));
        let fit = Window { never_below: Some(low - GAUGES), never_above, ..work(low, high).text(text::MAKER) };
        a.window(fit);
        a.window(Window { high: Some(worn), aim: None, ..fit }.reuse());
        return Answered;
    }
    if f.is(COATING, &["thick"]) {
        let loose = Window::new().never_above(LOOSE * bore).text(text::THICK_COATING);
        a.window(loose);
        a.window(loose.reuse());
        return Answered;
    }
    let plated = f.is(BLOCK, &["aluminium-plated"]);
    let (mut low, mut high) = if plated { (0.25, 0.65) } else { per_inch(f.choice(PISTON_ALLOY), f.choice(USE)) };
    if added(f) {
        low += 0.25;
        high += if blown_alcohol(f) { 1.0 } else { 0.5 };
    }
    let mut tight = tight(f) * bore;
    let (mut low, mut high) = (low * bore, high * bore);
    if f.is(BLOCK, &["aluminium-sleeved"]) {
        // An aluminium block opens around its sleeves: finished 0.5 to 1.0 thou tighter cold, but not to
        // interference in a small bore.
        low = (low - thou(1.0)).max(0.0);
        high -= thou(0.5);
        tight = (tight - thou(1.0)).max(0.0);
    }
    let loose = (LOOSE * bore).max(2.5 * high);
    let new = work(low, high).never_below(tight.min(low)).never_above(loose).text(text::SHOP);
    a.window(new);
    // what a worn skirt may reach is more than a small bore may ever be built to
    let never_above = Some(loose.max(high + WORN));
    a.window(Window { high: Some(high + WORN), aim: None, never_above, ..new }.reuse());
    Answered
}
