//! Valve stems in their guides.

use crate::common::{TOUCH, boosted, by_use, contact, touches, valves, work};
use crate::facts::{ADDER, EXHAUST, GUIDE, GUIDE_WIDEST, IS_INLET, STEM, STEM_THINNEST, USE};
use thou_sdk::prelude::*;

const HONE: Option<Remedy> = Remedy::solve("Hone the guide of {place} to {solve}.", "guide-bore", "up");
const RENEW: Option<Remedy> = Remedy::say("Swap the valve if its stem is worn, or fit a new guide to {place}.");

judges![CLEARANCE = "stem-to-guide", WIDEST = "stem-to-guide.widest"];

texts![
    INLET = Text { low: HONE, high: RENEW, ..Text::new("inlet, for this stem and guide") },
    EXHAUST = Text { low: HONE, high: RENEW, ..Text::new("exhaust, for this stem, valve and guide") },
    WIDEST = Text { high: RENEW, ..Text::new("guide and stem where they are worn most") },
    CONTACT = Text { low: HONE, ..contact("contact: the stem sticks in its guide") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "stem-to-guide",
    title: "Stem to guide",
    operation: "heads",
    why: "A tight guide grips a hot stem, and the piston finds the valve; a loose one lets the valve strike its seat \
          askew and pours oil down the stem.",
    source: "common practice, no source, in proportion to the stem; factory service manuals: inlet 0.4 to 2.4 thou, exhaust \
             1.0 to 3.5",
    hold_basis: Some(Practice),
    hold_source: Some(
        "common practice, no source: inlet under 1.0 thou an inch of stem and over 5 thou, exhaust under 2.4 and over 6.5; \
         contact: the stem sticks",
    ),
    judges: JUDGES,
    needs: &[STEM, GUIDE, EXHAUST, IS_INLET, USE],
    takes: &[ADDER, GUIDE_WIDEST, STEM_THINNEST],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let stem = f.of(STEM) * 1e-3;
    let inlet = (2.0 * stem, thou(1.6));
    // the widest exhaust is a figure of thick stems, and of small air-cooled heads as well
    let exhaust = match f.choice(EXHAUST) {
        Some("titanium") => inlet,
        Some("nickel-alloy") if boosted(f) => (5.8 * stem, (8.2 * stem).max(thou(2.8))),
        Some("sodium") => (4.0 * stem + thou(0.3), thou(2.5)),
        _ => (by_use(f, 3.5, 4.0, 4.0) * stem, thou(2.4)),
    };
    let iron = if f.is(GUIDE, &["iron"]) { thou(0.3) } else { 0.0 };
    let read = |fact, place: u32| f.all(fact).get(place as usize).is_some_and(|size| !size.is_nan());
    for (place, is_inlet) in valves(f) {
        let ((low, high), (never, loose), text) = if is_inlet {
            (inlet, (1.0 * stem, thou(5.0)), text::INLET)
        } else {
            (exhaust, (2.4 * stem, thou(6.5)), text::EXHAUST)
        };
        let low = low + iron;
        let high = (high + iron).max(low);
        let new = work(low, high).never_below(never.min(low)).never_above(loose).at(place).text(text);
        a.window(new);
        a.window(Window { high: Some(high + thou(1.0)), aim: None, ..new }.reuse());
        if read(GUIDE_WIDEST, place) && read(STEM_THINNEST, place) {
            let widest = Window::at_most(high + thou(1.0)).never_above(loose).judging(judged::WIDEST);
            a.window(widest.at(place).text(text::WIDEST));
            a.window(Window { high: Some(high + thou(2.0)), ..widest }.at(place).text(text::WIDEST).reuse());
        }
    }
    a.window(touches(TOUCH).text(text::CONTACT));
    a.window(touches(TOUCH).text(text::CONTACT).reuse());
    Answered
}
