//! The springs against each other and against their card.

use crate::common::by_use;
use crate::facts::{CARD_HEIGHT, CARD_SEAT_LOAD, USE};
use thou_sdk::prelude::*;

const HEIGHT: Option<Remedy> = Remedy::solve("Shim {place} to {solve}.", "spring.installed-height", "either");
const LOAD: Option<Remedy> = Remedy::say("Shim {place}, or swap its spring; then look at the bind margin again.");

judges![
    HEIGHT_SPREAD = "spring.installed-height.spread",
    LOAD_SPREAD = "spring.seat-load.spread",
    HEIGHT = "spring.installed-height",
    LOAD = "spring.seat-load",
];

texts![
    HEIGHT_SPREAD = Text {
        high: Remedy::say("Shim the tall ones; no more than 60 thou of flat shim in all."),
        ..Text::new("shortest height to tallest")
    },
    LOAD_SPREAD = Text {
        high: Remedy::say("Swap springs between the valves, then shim."),
        ..Text::new("softest to hardest on the seat, as a share of their mean")
    },
    HEIGHT = Text {
        low: HEIGHT,
        high: HEIGHT,
        whose: Some("spring card"),
        ..Text::new("the card's height, and what a shop allows around it")
    },
    LOAD = Text {
        low: LOAD,
        high: LOAD,
        whose: Some("spring card"),
        ..Text::new("the card's load on the seat, and what a shop allows around it")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "spring-set",
    title: "Spring heights and loads",
    operation: "heads",
    why: "The weakest spring sets the speed at which a valve floats, and the strongest wears its lobe.",
    source: "common practice, no source; a looser school sets heights within 20 thou",
    judges: JUDGES,
    needs: &[USE],
    takes: &[CARD_HEIGHT, CARD_SEAT_LOAD],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let height = by_use(f, thou(10.0), thou(5.0), thou(5.0));
    let load = by_use(f, 0.05, 0.05, 0.03);
    a.window(Window::at_most(2.0 * height).judging(judged::HEIGHT_SPREAD).text(text::HEIGHT_SPREAD));
    a.window(Window::at_most(load).judging(judged::LOAD_SPREAD).text(text::LOAD_SPREAD));
    let around = |wanted: f64, tolerance: f64| Window::between(wanted - tolerance, wanted + tolerance).aim(wanted);
    if let Some(wanted) = f.get(CARD_HEIGHT) {
        a.window(around(wanted, height).judging(judged::HEIGHT).text(text::HEIGHT));
    }
    if let Some(wanted) = f.get(CARD_SEAT_LOAD) {
        a.window(around(wanted, load * wanted).judging(judged::LOAD).text(text::LOAD));
    }
    Answered
}
