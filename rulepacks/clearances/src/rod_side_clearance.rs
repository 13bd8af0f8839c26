//! Side clearance of the rods.

use crate::common::{TOUCH, by_use, contact, roller, touches, work};
use crate::facts::{BEARING, CARD_SIDE_HIGH, CARD_SIDE_LOW, ROD, RODS_A_PIN, USE};
use thou_sdk::prelude::*;

texts![
    TWO_RODS = Text {
        low: Remedy::say("Narrow the rods of pin {place}, never the crank's cheek."),
        high: Remedy::say("Swap in wider rods if the oil does not stay down; nothing breaks of it."),
        ..Text::new("two rods on the pin")
    },
    ONE_ROD = Text {
        low: Remedy::say("Narrow the rod of pin {place}, never the crank's cheek."),
        high: Remedy::say("Look how the rod is guided; swap in a wider one if the piston guides none of it."),
        ..Text::new("one rod on the pin")
    },
    CARD = Text {
        low: Remedy::say("Narrow the rods of pin {place}, never the crank's cheek."),
        high: Remedy::say("Look how the rod is guided, and read it again."),
        hold_basis: Some(Practice),
        ..Text::card("by the rods' card", "rod card")
    },
    ROLLERS = Text {
        low: Remedy::say("Press the crank apart again, or narrow the rod of pin {place}."),
        ..Text::new("in rollers; the rod's maker says how much, and no card of his is here")
    },
    CONTACT = Text {
        low: Remedy::say("Narrow the rods of pin {place}, never the crank's cheek."),
        ..contact("contact: the rods bind on pin {place}")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "rod-side-clearance",
    title: "Rod side clearance",
    operation: "rods-and-pistons",
    why: "Rods that rub side by side have no way out for their oil; rods far apart throw more of it at the bores.",
    source: "common practice, no source; factory service manuals: two steel rods 4.3 to 20 thou, one rod 3.9 to 18",
    hold_basis: Some(Practice),
    hold_source: Some(
        "common practice, no source: two steel rods 3 thou, one rod 2, two aluminium rods 8; contact: the rods bind",
    ),
    judges: &["rod.side-clearance"],
    needs: &[ROD, RODS_A_PIN, USE],
    takes: &[BEARING, CARD_SIDE_LOW, CARD_SIDE_HIGH],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if let (Some(low), Some(high)) = (f.get(CARD_SIDE_LOW), f.get(CARD_SIDE_HIGH)) {
        a.window(Window::between(low, high).never_below(low / 2.0).levels(Warn, Note).text(text::CARD));
        a.window(touches(TOUCH).text(text::CONTACT));
        return Answered;
    }
    if roller(f) {
        a.window(Window::new().never_below(thou(2.0)).text(text::ROLLERS));
        a.window(touches(TOUCH).text(text::CONTACT));
        return Answered;
    }
    let window = if f.of(RODS_A_PIN) < 1.5 {
        work(mm(0.10), mm(0.45)).never_below(thou(2.0)).text(text::ONE_ROD)
    } else if f.is(ROD, &["aluminium"]) {
        work(thou(15.0), thou(30.0)).never_below(thou(8.0)).text(text::TWO_RODS)
    } else {
        let high = by_use(f, thou(20.0), thou(20.0), thou(25.0));
        work(thou(6.0), high).never_below(thou(3.0)).text(text::TWO_RODS)
    };
    a.window(window.levels(Warn, Note));
    a.window(touches(TOUCH).text(text::CONTACT));
    Answered
}
