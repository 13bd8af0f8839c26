//! What is left of the spring at full lift.

use crate::common::{CONTACT, by_use};
use crate::facts::{CARD_BIND, CARD_LIFT, USE};
use thou_sdk::prelude::*;

const TALLER: Option<Remedy> = Remedy::solve(
    "Take shims out at {place}, to an installed height of {solve}, or swap the spring.",
    "spring.installed-height",
    "up",
);
const SHORTER: Option<Remedy> = Remedy::solve(
    "Shim {place} to an installed height of {solve}; a spring far from bind surges.",
    "spring.installed-height",
    "down",
);

judges![BIND_MARGIN = "spring.bind-margin", LIFT = "valve.lift.net"];

texts![
    SHOP = Text {
        low: TALLER,
        high: SHORTER,
        ..Text::new("before the coils touch; no one we know goes under 20 thou without the spring maker's word")
    },
    CARD_MARGIN = Text {
        low: TALLER,
        high: SHORTER,
        ..Text { hold_basis: Some(Maker), ..Text::card("before the coils touch", "spring card") }
    },
    CARD_LIFT = Text {
        hold_basis: Some(Maker),
        high: Remedy::say("Swap the spring, the rocker or the cam: this spring is not made for the lift at {place}."),
        ..Text::card("the spring's greatest lift", "spring card")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "coil-bind",
    title: "Coil bind",
    operation: "heads",
    why: "Coils that touch make the spring a post: the next thing to give is a pushrod, a rocker stud or the cam. \
          Coils far apart surge.",
    hold_basis: Some(Physics),
    hold_source: Some("the coils touch"),
    judges: JUDGES,
    needs: &[USE],
    takes: &[CARD_BIND, CARD_LIFT],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if let Some(margin) = f.get(CARD_BIND) {
        let window = Window::between(margin, thou(120.0)).aim(margin).never_below(margin).levels(Warn, Note);
        a.window(window.judging(judged::BIND_MARGIN).text(text::CARD_MARGIN));
    } else {
        let (low, aim) = by_use(f, (50.0, 65.0), (50.0, 65.0), (40.0, 50.0));
        let window = Window::between(thou(low), thou(120.0)).aim(thou(aim)).never_below(CONTACT).levels(Warn, Note);
        a.window(window.judging(judged::BIND_MARGIN).text(text::SHOP));
    }
    if let Some(lift) = f.get(CARD_LIFT) {
        a.window(Window::at_most(lift).never_above(lift).judging(judged::LIFT).text(text::CARD_LIFT));
    }
    Answered
}
