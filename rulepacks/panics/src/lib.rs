//! A rule that goes wrong in the middle, as its author's own assertion has it. `tests/packs/panics.wasm` is its build.
use thou_sdk::prelude::*;

thou_sdk::facts! {
    /// The bore's size before the last cut.
    BORE: length one "bore.nominal";
}

const SLEEVE: Rule = Rule {
    id: "sleeve",
    title: "Sleeve",
    operation: "block",
    why: "It is there to go wrong.",
    judges: &["piston-to-wall"],
    needs: &[BORE],
    texts: &[Text::new("never said")],
    assess: |facts, answer| {
        let bore = facts.of(BORE);
        assert!(bore > mm(60.0), "no sleeve is made for a bore of {:.1} mm", bore * 1e3);
        answer.window(Window::between(bore * 0.001, bore * 0.002));
        Answered
    },
    ..Rule::WINDOW
};

thou_sdk::pack!(Pack {
    id: "panics",
    title: "Goes wrong",
    about: "A pack that panics for a test.",
    facts: FACTS,
    rules: &[&SLEEVE],
    ..Pack::EMPTY
});
