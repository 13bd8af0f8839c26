//! Metal left at the edge of the valve.

use crate::common::{boosted, valves};
use crate::facts::{ADDER, IS_INLET};
use thou_sdk::prelude::*;

const SWAP: Option<Remedy> = Remedy::say("Swap the valve of {place}; a thin edge cannot be cut thicker.");

texts![
    INLET = Text { low: SWAP, ..Text::new("inlet edge") },
    EXHAUST = Text { low: SWAP, ..Text::new("exhaust edge") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "valve-margin",
    title: "Valve margin",
    operation: "heads",
    why: "The thin edge is the hottest metal in the engine: it glows, lights the charge early, and burns away.",
    basis: Published,
    source: "factory service manuals: new 1.0 mm inlet and 1.2 exhaust, used down to 0.6 and 0.7; common practice \
             under boost",
    judges: &["valve.margin"],
    needs: &[IS_INLET],
    takes: &[ADDER],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    for (place, is_inlet) in valves(f) {
        let (new, used) = if is_inlet { (40.0, 24.0) } else { (47.0, 28.0) };
        let used = if boosted(f) { 40.0 } else { used };
        let text = if is_inlet { text::INLET } else { text::EXHAUST };
        a.window(Window::at_least(thou(new)).at(place).text(text));
        a.window(Window::at_least(thou(used)).at(place).text(text).reuse());
    }
    Answered
}
