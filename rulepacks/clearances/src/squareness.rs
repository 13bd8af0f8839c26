//! Bores and decks true to the crank.

use crate::common::raced;
use crate::facts::USE;
use thou_sdk::prelude::*;

judges![BORE = "bore.squareness", DECK = "deck.squareness"];

texts![
    BORE = Text {
        high: Remedy::say("Bore {place} again from the mains, not from the deck."),
        ..Text::new("bore, over its length")
    },
    DECK = Text { high: Remedy::say("Deck it true to the mains."), ..Text::new("deck, end to end") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "squareness",
    title: "Squareness to the crank",
    operation: "block",
    why: "A bore that leans runs its piston on one edge; a deck that leans gives every hole another squeeze.",
    source: "common practice, no source",
    hold_source: Some("common practice, no source: 20 thou"),
    judges: JUDGES,
    needs: &[USE],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let high = if raced(f) { thou(3.0) } else { thou(5.0) };
    for (judged, text) in [(judged::BORE, text::BORE), (judged::DECK, text::DECK)] {
        a.window(Window::at_most(high).never_above(thou(20.0)).judging(judged).text(text));
    }
    Answered
}
