//! Valves straight.

use thou_sdk::prelude::*;

const SWAP: Option<Remedy> = Remedy::say("Swap the valve of {place}: a bent stem breaks, it is not straightened.");
const GRIND: Option<Remedy> = Remedy::say("Grind the face of {place} again; swap the valve if its stem is bent.");

judges![STEM = "valve.stem-runout", FACE = "valve.face-runout"];

texts![
    STEM = Text { high: SWAP, ..Text::new("total reading of the stem") },
    FACE = Text { high: GRIND, ..Text::new("total reading of the face") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "valve-straightness",
    title: "Valve straightness",
    operation: "heads",
    why: "A bent valve seats on one side and bends at every closing until its head comes off.",
    source: "common practice, no source",
    hold_source: Some("common practice, no source: a stem or a face 10 thou out"),
    judges: JUDGES,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(_: &Facts<'_>, a: &mut Answer) -> Outcome {
    for (judged, text) in [(judged::STEM, text::STEM), (judged::FACE, text::FACE)] {
        a.window(Window::at_most(thou(2.0)).never_above(thou(10.0)).judging(judged).text(text));
    }
    Answered
}
