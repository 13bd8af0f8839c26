//! Clearance of valves that an overhead cam works.

use crate::common::{TOUCH, contact, touches, valves, work};
use crate::facts::{CARD_COLD_EXHAUST, CARD_COLD_INLET, IS_INLET, LIFTER, VALVETRAIN};
use thou_sdk::prelude::*;

const SHIM: Option<Remedy> = Remedy::solve("Swap the shim of {place}: clearance to {solve}.", "lash.cold", "either");

reasons![
    PUSHRODS = "pushrods: these valves have their own rule",
    HYDRAULIC = "hydraulic followers take up their own clearance",
];

texts![
    INLET = Text { low: SHIM, high: SHIM, ..Text::new("inlet, cold") },
    EXHAUST = Text { low: SHIM, high: SHIM, ..Text::new("exhaust, cold") },
    CARD = Text { low: SHIM, high: SHIM, ..Text::card("cold, around the middle of the card's range", "engine card") },
    CONTACT = Text { low: SHIM, ..contact("contact: the valve is held open cold") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "valve-clearance",
    title: "Valve clearance, overhead cam",
    operation: "assembly",
    why: "These clearances close as the seats wear: none left, and the valve stays off its seat and burns.",
    source: "common practice, no source; service manuals go from 0.05 to 0.34 mm at the inlet and from \
             0.08 to 0.37 at the exhaust, each engine within 0.03 to 0.05 of its own",
    hold_basis: Some(Practice),
    hold_source: Some("common practice, no source: 0.025 mm cold; contact: a valve with no clearance is held open"),
    judges: &["lash.cold"],
    needs: &[VALVETRAIN, IS_INLET],
    takes: &[LIFTER, CARD_COLD_INLET, CARD_COLD_EXHAUST],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// Makers leave this to either side of their middle figure.
const AROUND: f64 = mm(0.03);

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(VALVETRAIN, &["bucket", "finger"]) {
        return NotApplicable(reason::PUSHRODS);
    }
    if f.is(LIFTER, &["flat-hydraulic", "roller-hydraulic"]) {
        return NotApplicable(reason::HYDRAULIC);
    }
    for (place, is_inlet) in valves(f) {
        let (card, widest, text) = if is_inlet {
            (CARD_COLD_INLET, (0.05, 0.35), text::INLET)
        } else {
            (CARD_COLD_EXHAUST, (0.08, 0.45), text::EXHAUST)
        };
        let window = match f.get(card) {
            Some(middle) => work((middle - AROUND).max(mm(0.03)), middle.max(mm(0.03)) + AROUND).text(text::CARD),
            None => Window::between(mm(widest.0), mm(widest.1)).levels(Warn, Note).text(text),
        };
        a.window(window.never_below(mm(0.025)).at(place));
    }
    a.window(touches(TOUCH).text(text::CONTACT));
    Answered
}
