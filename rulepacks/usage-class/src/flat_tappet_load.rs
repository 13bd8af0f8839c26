//! The spring that a flat tappet can carry.

use crate::facts::LIFTER;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "flat-tappet-load",
    title: "Spring load on flat tappets",
    operation: "heads",
    why: "A flat tappet rubs on its lobe on a line of oil: too much spring wipes the lobe off in the first half hour.",
    basis: Published,
    source: "trade article",
    hold_source: Some("trade article, passed by 15 per cent"),
    judges: &["spring.seat-load.max", "spring.open-load.max"],
    needs: &[LIFTER],
    reasons: &["the lifters are not flat"],
    texts: &[
        Text {
            high: Remedy::say(
                "Lighter springs, or a roller cam. Break it in with the inner springs out. So much spring suits rollers.",
            ),
            ..Text::new("flat hydraulic, on the seat")
        },
        Text {
            high: Remedy::say(
                "Lighter springs, or a roller cam. Break it in with the inner springs out. So much spring suits rollers.",
            ),
            ..Text::new("flat hydraulic, open")
        },
        Text {
            high: Remedy::say(
                "Lighter springs, or a roller cam. Break it in with the inner springs out. So much spring suits rollers.",
            ),
            ..Text::new("flat solid, on the seat")
        },
        Text {
            high: Remedy::say(
                "Lighter springs, or a roller cam. Break it in with the inner springs out. So much spring suits rollers.",
            ),
            ..Text::new("flat solid, open")
        },
    ],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let (seat, open, text) = match f.choice(LIFTER) {
        Some("flat-hydraulic") => (135.0, 350.0, 0),
        Some("flat-solid") => (160.0, 385.0, 2),
        _ => return NotApplicable(0),
    };
    for (fact, load) in [(0, pounds(seat)), (1, pounds(open))] {
        a.window(Window::at_most(load).never_above(1.15 * load).judging(fact).text(text + fact));
    }
    Answered
}
