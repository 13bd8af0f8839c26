//! The spring that a flat tappet can carry.

use crate::facts::{LIFTER, ROCKER_RATIO};
use thou_sdk::prelude::*;

judges![SEAT = "spring.seat-load.max", OPEN = "spring.open-load.max"];

reasons![NOT_FLAT = "the lifters are not flat"];

texts![
    HYDRAULIC_SEAT = Text {
        high: Remedy::say(
            "Lighter springs, or a roller cam. Break it in with the inner springs out. So much spring suits rollers.",
        ),
        ..Text::new("flat hydraulic, on the seat")
    },
    HYDRAULIC_OPEN = Text {
        high: Remedy::say(
            "Lighter springs, or a roller cam. Break it in with the inner springs out. So much spring suits rollers.",
        ),
        ..Text::new("flat hydraulic, open")
    },
    SOLID_SEAT = Text {
        high: Remedy::say(
            "Lighter springs, or a roller cam. Break it in with the inner springs out. So much spring suits rollers.",
        ),
        ..Text::new("flat solid, on the seat")
    },
    SOLID_OPEN = Text {
        high: Remedy::say(
            "Lighter springs, or a roller cam. Break it in with the inner springs out. So much spring suits rollers.",
        ),
        ..Text::new("flat solid, open")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "flat-tappet-load",
    title: "Spring load on flat tappets",
    operation: "heads",
    why: "A flat tappet rubs on its lobe on a line of oil: too much spring wipes the lobe off in the first half hour.",
    source: "common practice, no source; at the valve with rockers of 1.5; the lobe has it times the rocker's ratio",
    hold_basis: Some(Practice),
    hold_source: Some("common practice, no source: a quarter past that; tool-steel tappets on oiled faces carry more"),
    judges: JUDGES,
    needs: &[LIFTER],
    takes: &[ROCKER_RATIO],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let (seat, open) = match f.choice(LIFTER) {
        Some("flat-hydraulic") => ((135.0, text::HYDRAULIC_SEAT), (350.0, text::HYDRAULIC_OPEN)),
        Some("flat-solid") => ((160.0, text::SOLID_SEAT), (385.0, text::SOLID_OPEN)),
        _ => return NotApplicable(reason::NOT_FLAT),
    };
    for (judged, (load, text)) in [(judged::SEAT, seat), (judged::OPEN, open)] {
        let load = pounds(load) * 1.5 / f.get(ROCKER_RATIO).unwrap_or(1.5);
        a.window(Window::at_most(load).never_above(1.25 * load).judging(judged).text(text));
    }
    Answered
}
