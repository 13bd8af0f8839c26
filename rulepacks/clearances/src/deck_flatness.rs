//! Flatness of the two faces that hold the gasket.

use crate::common::added;
use crate::facts::{ADDER, GASKET};
use thou_sdk::prelude::*;

const FACE: Option<Remedy> = Remedy::say(
    "Face {place} and count what it takes: piston-to-head, both valves, compression and the intake face move with it.",
);

judges![DECK = "deck.flatness", HEAD = "head.flatness"];

texts![
    DECK = Text { high: FACE, ..Text::new("along the deck, for this gasket; across a bore no more than 1 thou") },
    HEAD = Text { high: FACE, ..Text::new("along the head, for this gasket; across a bore no more than 1 thou") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "deck-flatness",
    title: "Deck and head flatness",
    operation: "block",
    why: "A gasket follows a low place only as far as it springs back; past that the gas finds the way, and steel \
          layers and copper spring back least.",
    source: "common practice, no source; gasket guidance in trade articles: 2 to 4 thou along a V8 deck, 2 across; a \
             service manual of an aluminium V8: 4.3 in any 6 in, 8.7 in all",
    judges: JUDGES,
    needs: &[GASKET],
    takes: &[ADDER],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let high = match f.choice(GASKET) {
        Some("composite") => thou(4.0),
        Some("copper") => thou(2.0),
        _ => thou(3.0),
    };
    // one maker's manual lets a face that seals steel layers be 8.7 out in all
    let never = if f.is(GASKET, &["mls"]) && added(f) { thou(6.0) } else { thou(9.0) };
    let window = Window::at_most(high).never_above(never);
    a.window(window.judging(judged::DECK).text(text::DECK));
    a.window(window.judging(judged::HEAD).text(text::HEAD));
    Answered
}
