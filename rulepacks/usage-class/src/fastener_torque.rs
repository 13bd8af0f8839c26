//! Torque against the card, and against the thread.

use crate::facts::{
    HEAD_CARD_TORQUE, HEAD_METHOD, HEAD_THREAD, HEAD_TORQUE, MAIN_CARD_TORQUE, MAIN_METHOD, MAIN_THREAD, MAIN_TORQUE,
    ROD_BOLT_CARD_TORQUE, ROD_BOLT_METHOD, ROD_BOLT_THREAD, ROD_BOLT_TORQUE,
};
use thou_sdk::prelude::*;

judges![
    MAIN_CARD = "main-fastener.torque-over-card",
    HEAD_CARD = "head-fastener.torque-over-card",
    ROD_BOLT_CARD = "rod-bolt.torque-over-card",
    MAIN_THREAD = "main-fastener.torque-stress",
    HEAD_THREAD = "head-fastener.torque-stress",
    ROD_BOLT_THREAD = "rod-bolt.torque-stress",
];

reasons![NOT_BY_TORQUE = "no joint is tightened by a torque that the sheet has with its thread or its card"];

const CARD: Option<Remedy> =
    Remedy::say("Tighten it as the card says, with the card's lubricant; or correct the sheet.");
const THREAD: Option<Remedy> =
    Remedy::say("Look at torque, unit and thread again: this torque belongs to another size.");

texts![
    MAIN_CARD = Text {
        low: CARD,
        high: CARD,
        hold_basis: Some(Practice),
        ..Text::card("the main caps: torque over the card's", "joint card")
    },
    HEAD_CARD = Text {
        low: CARD,
        high: CARD,
        hold_basis: Some(Practice),
        ..Text::card("the heads: torque over the card's", "joint card")
    },
    ROD_BOLT_CARD = Text {
        low: CARD,
        high: CARD,
        hold_basis: Some(Practice),
        ..Text::card("the rod bolts: torque over the card's", "joint card")
    },
    MAIN_THREAD = Text {
        low: THREAD,
        high: THREAD,
        ..Text::new("the main caps: stress in the thread that the torque stands for, at a nut factor of 0.2")
    },
    HEAD_THREAD = Text {
        low: THREAD,
        high: THREAD,
        ..Text::new("the heads: stress in the thread that the torque stands for, at a nut factor of 0.2")
    },
    ROD_BOLT_THREAD = Text {
        low: THREAD,
        high: THREAD,
        ..Text::new("the rod bolts: stress in the thread that the torque stands for, at a nut factor of 0.2")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "fastener-torque",
    title: "Torque of the joints",
    operation: "assembly",
    why: "A joint holds by its clamp alone: too little and it opens and frets, too much and the fastener yields.",
    source: "common practice, no source: within a twentieth of the card; threads are given 45 to 150 ksi at a nut factor of 0.2",
    hold_source: Some(
        "common practice, no source: a fifth off the card; a thread that is hardly tight, or past any bolt's strength",
    ),
    judges: JUDGES,
    takes: &[
        MAIN_TORQUE,
        MAIN_METHOD,
        MAIN_CARD_TORQUE,
        MAIN_THREAD,
        HEAD_TORQUE,
        HEAD_METHOD,
        HEAD_CARD_TORQUE,
        HEAD_THREAD,
        ROD_BOLT_TORQUE,
        ROD_BOLT_METHOD,
        ROD_BOLT_CARD_TORQUE,
        ROD_BOLT_THREAD,
    ],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// A joint: its torque, how it is tightened, its card's torque and its thread.
type Joint = ([Fact; 4], [JudgedNumber; 2], [TextNumber; 2]);

const JOINTS: [Joint; 3] = [
    (
        [MAIN_TORQUE, MAIN_METHOD, MAIN_CARD_TORQUE, MAIN_THREAD],
        [judged::MAIN_CARD, judged::MAIN_THREAD],
        [text::MAIN_CARD, text::MAIN_THREAD],
    ),
    (
        [HEAD_TORQUE, HEAD_METHOD, HEAD_CARD_TORQUE, HEAD_THREAD],
        [judged::HEAD_CARD, judged::HEAD_THREAD],
        [text::HEAD_CARD, text::HEAD_THREAD],
    ),
    (
        [ROD_BOLT_TORQUE, ROD_BOLT_METHOD, ROD_BOLT_CARD_TORQUE, ROD_BOLT_THREAD],
        [judged::ROD_BOLT_CARD, judged::ROD_BOLT_THREAD],
        [text::ROD_BOLT_CARD, text::ROD_BOLT_THREAD],
    ),
];

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let mut outcome = NotApplicable(reason::NOT_BY_TORQUE);
    for ([torque, method, card, thread], judged, text) in JOINTS {
        // tightened by a torque that nobody wrote down: what is judged says which field is missing
        if f.is(method, &["torque"]) && f.get(torque).is_none() && f.get(thread).is_some() {
            a.window(Window::between(psi(45e3), psi(150e3)).judging(judged[1]).text(text[1]));
            outcome = Answered;
            continue;
        }
        // by angle or stretch the torque only begins it
        if f.get(torque).is_none() || f.is(method, &["angle", "stretch", "yield"]) {
            continue;
        }
        if f.get(card).is_some() {
            let window = Window::between(0.95, 1.05).never_below(0.8).never_above(1.2).levels(Warn, Warn);
            a.window(window.judging(judged[0]).text(text[0]));
            outcome = Answered;
        }
        if f.get(thread).is_some() {
            let ksi = |x: f64| psi(1_000.0 * x);
            let window = Window::between(ksi(45.0), ksi(150.0)).never_below(ksi(30.0)).never_above(ksi(220.0));
            a.window(window.judging(judged[1]).text(text[1]));
            outcome = Answered;
        }
    }
    outcome
}
