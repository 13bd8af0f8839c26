//! How often fasteners are tightened.

use crate::facts::{
    HEAD_CARD_USES, HEAD_METHOD, HEAD_USES, MAIN_CARD_USES, MAIN_USES, ROD_BOLT_CARD_USES, ROD_BOLT_METHOD,
    ROD_BOLT_USES,
};
use thou_sdk::prelude::*;

judges![
    MAIN_CARD = "main-fastener.uses-over-card",
    HEAD_CARD = "head-fastener.uses-over-card",
    ROD_BOLT_CARD = "rod-bolt.uses-over-card",
    ROD_BOLT = "rod-bolt.times-tightened",
    HEAD = "head-fastener.times-tightened",
];

reasons![NOT_COUNTED = "no card says how often, and rod bolts were not counted"];

const NEW: Option<Remedy> = Remedy::say("New ones, and count from there.");

texts![
    MAIN_CARD = Text { high: NEW, ..Text::card("the main caps: tightenings over what the card allows", "joint card") },
    HEAD_CARD = Text { high: NEW, ..Text::card("the heads: tightenings over what the card allows", "joint card") },
    ROD_BOLT_CARD =
        Text { high: NEW, ..Text::card("the rod bolts: tightenings over what the card allows", "joint card") },
    ROD_BOLT = Text { high: NEW, ..Text::new("the rod bolts, this time included; no card says how often") },
    HEAD_YIELD = Text { high: NEW, ..Text::new("head bolts that are tightened to yield: once") },
    YIELD = Text { high: NEW, ..Text::new("rod bolts that are tightened to yield: once") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "fastener-uses",
    title: "Tightenings of the fasteners",
    operation: "assembly",
    why: "Each time takes a little of a bolt's stretch and of its thread's finish; what is left nobody sees from outside.",
    source: "common practice, no source: rod bolts eight times, and to yield once",
    hold_source: Some(
        "common practice, no source: nobody puts rod bolts in for a sixteenth time, nor yielded ones for a third",
    ),
    judges: JUDGES,
    takes: &[
        MAIN_USES,
        HEAD_USES,
        ROD_BOLT_USES,
        MAIN_CARD_USES,
        HEAD_CARD_USES,
        ROD_BOLT_CARD_USES,
        ROD_BOLT_METHOD,
        HEAD_METHOD,
    ],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let mut outcome = NotApplicable(reason::NOT_COUNTED);
    for (uses, card, judged, text) in [
        (MAIN_USES, MAIN_CARD_USES, judged::MAIN_CARD, text::MAIN_CARD),
        (HEAD_USES, HEAD_CARD_USES, judged::HEAD_CARD, text::HEAD_CARD),
        (ROD_BOLT_USES, ROD_BOLT_CARD_USES, judged::ROD_BOLT_CARD, text::ROD_BOLT_CARD),
    ] {
        if f.get(uses).is_some() && f.get(card).is_some() {
            a.window(Window::new().never_above(1.0).judging(judged).text(text));
            outcome = Answered;
        }
    }
    if f.is(HEAD_METHOD, &["yield"]) && f.get(HEAD_USES).is_some() && f.get(HEAD_CARD_USES).is_none() {
        a.window(Window::at_most(1.0).judging(judged::HEAD).text(text::HEAD_YIELD));
        outcome = Answered;
    }
    if f.get(ROD_BOLT_USES).is_some() && f.get(ROD_BOLT_CARD_USES).is_none() {
        let window = if f.is(ROD_BOLT_METHOD, &["yield"]) {
            Window::at_most(1.0).never_above(2.0).text(text::YIELD)
        } else {
            Window::at_most(8.0).never_above(15.0).text(text::ROD_BOLT)
        };
        a.window(window.judging(judged::ROD_BOLT));
        outcome = Answered;
    }
    outcome
}
