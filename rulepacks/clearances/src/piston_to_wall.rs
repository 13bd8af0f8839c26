//! Piston to wall, at the maker's gauge point.

use crate::facts::{ADDER, BLOCK, BORE, CARD_FIT_HIGH, CARD_FIT_LOW, PISTON_ALLOY, USE};
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "piston-to-wall",
    title: "Piston to wall",
    operation: "block",
    why: "A piston grows more than the bore around it: too tight, it scuffs before the engine is warm; too loose, it \
          rocks, and the rings cannot seal.",
    basis: Basis::Practice,
    source: "common practice, no source; the order of the alloys agrees in every source, the numbers do not",
    judges: &["piston-to-wall"],
    needs: &[BORE, PISTON_ALLOY, USE],
    takes: &[BLOCK, ADDER, CARD_FIT_LOW, CARD_FIT_HIGH],
    texts: &[
        Text {
            low: Remedy::solve("Hone {place} to {solve}, or put a smaller piston there.", "bore.diameter", "up"),
            high: Remedy::say("Put a larger piston in {place}; metal cannot be put back."),
            ..Text::new("for this alloy and use")
        },
        Text {
            low: Remedy::solve("Hone {place} to {solve}, or put a smaller piston there.", "bore.diameter", "up"),
            high: Remedy::say("Put a larger piston in {place}; metal cannot be put back."),
            ..Text::card("the piston's card", "piston card")
        },
    ],
    assess,
    ..Rule::WINDOW
};

/// thou of clearance per inch of bore: cast, hypereutectic, 4032, 2618 by street, bracket, all-out.
fn per_inch(alloy: &str, usage: &str) -> (f64, f64) {
    match (alloy, usage) {
        ("2618", "street") => (0.8, 1.1),
        ("2618", "bracket") => (1.0, 1.35),
        ("2618", _) => (1.05, 1.45),
        ("4032", _) => (0.6, 0.9),
        _ => (0.4, 0.55),
    }
}

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if let (Some(low), Some(high)) = (f.get(CARD_FIT_LOW), f.get(CARD_FIT_HIGH)) {
        a.window(Window::between(low, high).never_below(low).levels(Hold, Warn).text(1));
        return Answered;
    }
    let (alloy, usage) = (f.choice(PISTON_ALLOY).unwrap_or(""), f.choice(USE).unwrap_or(""));
    let (mut low, mut high) = per_inch(alloy, usage);
    if f.is(ADDER, &["nitrous", "turbo", "blower"]) {
        (low, high) = (low + 0.25, high + 0.5);
    }
    let tighter = if f.is(BLOCK, &["aluminium-sleeved"]) { thou(0.5) } else { 0.0 };
    let bore = f.of(BORE);
    let (low, high) = (bore * low * 1e-3 - tighter, bore * high * 1e-3 - tighter);
    a.window(Window::between(low, high).aim((low + high) / 2.0).never_below(0.6 * low).levels(Warn, Warn));
    Answered
}
