//! What is left of the spring at full lift.

use crate::common::{CONTACT, by_use, contact, touches};
use crate::facts::{CARD_BIND, CARD_LIFT, SPRING_STYLE, USE};
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
    SHOP = Text { low: TALLER, high: SHORTER, ..Text::new("before the coils touch") },
    CONTACT = Text { low: TALLER, ..contact("contact: the coils touch") },
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
    source: "common practice, no source; springs that narrow at the top are run nearer",
    hold_basis: Some(Practice),
    hold_source: Some(
        "common practice, no source: 20 thou without the spring maker's word, a card less 10 thou, which a spring tester \
         and a height gauge can be apart; contact: the coils touch, nearer than the thinnest blade of a feeler set",
    ),
    judges: JUDGES,
    needs: &[USE],
    takes: &[CARD_BIND, CARD_LIFT, SPRING_STYLE],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if let Some(margin) = f.get(CARD_BIND) {
        let window = Window::between(margin, thou(120.0))
            .aim(margin)
            .never_below((margin - thou(10.0)).max(0.0))
            .levels(Warn, Note);
        a.window(window.judging(judged::BIND_MARGIN).text(text::CARD_MARGIN));
    } else {
        let (low, aim) = if f.is(SPRING_STYLE, &["beehive", "conical"]) {
            (30.0, 50.0)
        } else {
            by_use(f, (50.0, 65.0), (50.0, 65.0), (40.0, 50.0))
        };
        let window = Window::between(thou(low), thou(120.0)).aim(thou(aim)).never_below(thou(20.0)).levels(Warn, Note);
        a.window(window.judging(judged::BIND_MARGIN).text(text::SHOP));
    }
    a.window(touches(CONTACT).judging(judged::BIND_MARGIN).text(text::CONTACT));
    if let Some(lift) = f.get(CARD_LIFT) {
        a.window(Window::at_most(lift).never_above(lift).judging(judged::LIFT).text(text::CARD_LIFT));
    }
    Answered
}
