//! Metal left at the edge of the valve.

use crate::common::{boosted, valves};
use crate::facts::{ADDER, INLET_HEAD, IS_INLET};
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
    source: "factory service manuals: new 1.0 mm inlet and 1.2 exhaust, used down to 0.6 and 0.7, small heads \
             new from 0.5 and 0.8, used to 0.4; common practice under boost",
    hold_basis: Some(Practice),
    hold_source: Some(
        "common practice, no source, less than service manuals' limits: inlet 14 thou, exhaust 18, boosted exhaust 32",
    ),
    judges: &["valve.margin"],
    needs: &[IS_INLET],
    takes: &[ADDER, INLET_HEAD],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let small = f.get(INLET_HEAD).is_some_and(|head| head < mm(32.0));
    for (place, is_inlet) in valves(f) {
        let (new, used) = match (is_inlet, small) {
            (true, false) => (40.0, 24.0),
            (true, true) => (20.0, 16.0),
            (false, false) => (47.0, 28.0),
            (false, true) => (31.0, 20.0),
        };
        let used = if boosted(f) { 40.0 } else { used };
        let (never, text) = match (is_inlet, boosted(f)) {
            (true, _) => (14.0, text::INLET),
            (false, false) => (18.0, text::EXHAUST),
            (false, true) => (32.0, text::EXHAUST),
        };
        let edge = |low: f64| Window::at_least(thou(low.max(never))).never_below(thou(never)).at(place).text(text);
        a.window(edge(new));
        a.window(edge(used).reuse());
    }
    Answered
}
