//! Valve stems in their guides.

use crate::common::{boosted, valves, work};
use crate::facts::{ADDER, EXHAUST, GUIDE, IS_INLET, STEM};
use thou_sdk::prelude::*;

const HONE: Option<Remedy> = Remedy::solve("Hone the guide of {place} to {solve}.", "guide-bore", "up");
const RENEW: Option<Remedy> = Remedy::say("Swap the valve if its stem is worn, or fit a new guide to {place}.");

texts![
    INLET = Text { low: HONE, high: RENEW, ..Text::new("inlet, for this stem and guide") },
    EXHAUST = Text { low: HONE, high: RENEW, ..Text::new("exhaust, for this stem, valve and guide") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "stem-to-guide",
    title: "Stem to guide",
    operation: "heads",
    why: "A tight guide grips a hot stem, and the piston finds the valve; a loose one lets the valve strike its seat \
          askew and pours oil down the stem.",
    source: "common practice, no source; factory service manuals: inlet 0.8 to 2.4 thou, exhaust 1.2 to 3.5",
    judges: &["stem-to-guide"],
    needs: &[STEM, GUIDE, EXHAUST, IS_INLET],
    takes: &[ADDER],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let inlet = (1.0, 1.6);
    let exhaust = match f.choice(EXHAUST) {
        Some("titanium") => inlet,
        Some("nickel-alloy") if boosted(f) => (2.0, 2.8),
        _ => (1.4, 2.2),
    };
    // The limits are those of an 11/32 stem; 5/16 and 7 mm stems want 0.2 thou less.
    let thin = if f.of(STEM) < inches(0.330) { 0.2 } else { 0.0 };
    let iron = if f.is(GUIDE, &["iron"]) { 0.3 } else { 0.0 };
    for (place, is_inlet) in valves(f) {
        let (low, high) = if is_inlet { inlet } else { exhaust };
        let (low, high) = (thou(low - thin + iron), thou(high - thin + iron));
        let (never_below, text) = if is_inlet { (None, text::INLET) } else { (Some(thou(0.9)), text::EXHAUST) };
        let new = Window { never_below, ..work(low, high).at(place).text(text) };
        a.window(new);
        a.window(Window { high: Some(high + thou(1.0)), aim: None, ..new }.reuse());
    }
    Answered
}
