//! What our shop leaves between the parts.
use thou_sdk::prelude::*;

thou_sdk::facts! {
    /// What the engine is for.
    USE: choice one "use" ["street", "bracket", "all-out"];
}

const END_PLAY: Rule = Rule {
    id: "end-play",
    title: "Crank end play",
    operation: "crank",
    why: "Too little wipes the thrust bearing when the converter pushes.",
    basis: Shop,
    source: "our own numbers",
    judges: &["crank.end-play"],
    needs: &[USE],
    texts: &[Text::new("our band").low("Dress the thrust face.").high("Fit another thrust bearing.")],
    assess: |facts, answer| {
        let low = thou(if facts.is(USE, &["street"]) { 4.0 } else { 5.0 });
        answer.window(Window::between(low, thou(8.0)));
        Answered
    },
    ..Rule::WINDOW
};

thou_sdk::pack!(Pack::new("our-shop", "Our numbers", "What our shop leaves.", FACTS, &[&END_PLAY]));
