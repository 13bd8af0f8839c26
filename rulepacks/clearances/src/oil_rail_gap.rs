//! End gap of the oil rails.

use crate::common::{TOUCH, contact, touches};
use crate::facts::{BLOCK, BORE};
use thou_sdk::prelude::*;

const FILE: Option<Remedy> = Remedy::solve("File the rails of {place} to {solve}.", "ring.rail.gap", "up");

judges![GAP = "ring.rail.gap", WIDEST = "ring.rail.gap.widest"];

texts![
    SHOP = Text {
        low: FILE,
        high: Remedy::say("Swap the rails of {place} if it burns oil."),
        ..Text::new("the smaller of the two rails, for this bore")
    },
    WIDE = Text {
        high: Remedy::say("Swap the rails of {place}: these belong to another bore."),
        ..Text::new("the wider of the two rails; past any maker's range")
    },
    CONTACT = Text { low: FILE, ..contact("contact: the ends meet however cool rail and bore run") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "oil-rail-gap",
    title: "Oil rail gap",
    operation: "rings",
    why: "A rail that butts buckles off its expander and scores the bore; a wide one leaves a stripe of oil.",
    source: "trade sources: 15 thou at least, makers to 50, on bores of about 4.00 in, and in proportion; service manuals, \
             several makers: from 4 to 10 thou on bores of 58 to 100 mm up to 30",
    hold_basis: Some(Practice),
    hold_source: Some(
        "common practice, no source: 1.0 thou an inch of bore, or 5 thou where that is less, under the lowest of service \
         manuals; contact: thermal expansion, a rail 20 K hotter than a bore of iron at 60 K",
    ),
    judges: JUDGES,
    needs: &[BORE],
    takes: &[BLOCK],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// What rail and iron bore close of the gap over the bore at the least: pi (ar dTr - ab dTb), coefficients from memory.
const CLOSES: f64 = std::f64::consts::PI * (11.0e-6 * 80.0 - 10.8e-6 * 60.0);

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let bore = f.of(BORE);
    let never = (1.0e-3 * bore).min(thou(5.0));
    let gap = Window::between(3.75e-3 * bore, 12.5e-3 * bore).never_below(never).levels(Warn, Note);
    a.window(gap.text(text::SHOP));
    // an aluminium block's bore opens with the rail
    let iron = !f.choice(BLOCK).is_some_and(|b| b.starts_with("aluminium"));
    let touch = if iron { CLOSES * bore } else { TOUCH };
    a.window(touches(touch).text(text::CONTACT));
    a.window(Window::at_most(18.0e-3 * bore).judging(judged::WIDEST).text(text::WIDE));
    Answered
}
