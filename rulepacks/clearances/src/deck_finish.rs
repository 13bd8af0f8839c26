//! Finish of the two faces that hold the gasket.

use crate::common::added;
use crate::facts::{ADDER, BLOCK, GASKET, HEAD};
use thou_sdk::prelude::*;

const SMOOTH: Option<Remedy> =
    Remedy::say("Face {place} again with a fresh insert: burnished metal lets a gasket creep.");
const ROUGH: Option<Remedy> = Remedy::say("Face {place} again with a slower feed and the right insert.");

judges![DECK = "deck.roughness", HEAD = "head.roughness"];

texts![
    DECK = Text { low: SMOOTH, high: ROUGH, ..Text::new("Ra of the deck, for this gasket") },
    HEAD = Text { low: SMOOTH, high: ROUGH, ..Text::new("Ra of the head, for this gasket") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "deck-finish",
    title: "Deck and head finish",
    operation: "block",
    why: "The gasket's own coating has to fill the tool marks: steel layers fill little, composites need some bite.",
    source: "common practice, no source: gasket guidance in unsigned trade articles (Ra): steel layers 20 to 30 or up to 50, composite 50 to 60 on \
             aluminium and 60 to 100 on iron",
    hold_source: Some("common practice, no source"),
    judges: JUDGES,
    needs: &[GASKET],
    takes: &[ADDER, BLOCK, HEAD],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// Ra in microinches under a composite; both metals' range where the sheet does not say which.
fn composite(aluminium: Option<bool>) -> (f64, f64) {
    match aluminium {
        Some(true) => (50.0, 60.0),
        Some(false) => (60.0, 100.0),
        None => (50.0, 100.0),
    }
}

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let deck = f.choice(BLOCK).map(|b| b.starts_with("aluminium"));
    let head = f.choice(HEAD).map(|h| h == "aluminium");
    for (judged, text, aluminium) in [(judged::DECK, text::DECK, deck), (judged::HEAD, text::HEAD, head)] {
        let composite_gasket = f.is(GASKET, &["composite"]);
        let (low, high) = if composite_gasket { composite(aluminium) } else { (10.0, 50.0) };
        let leaks = if added(f) { 60.0 } else { 100.0 };
        a.window(Window {
            never_above: f.is(GASKET, &["mls"]).then_some(microinches(leaks)),
            ..Window::between(microinches(low), microinches(high))
                .levels(if composite_gasket { Warn } else { Note }, Warn)
                .judging(judged)
                .text(text)
        });
    }
    Answered
}
