//! Main caps in their registers.

use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "cap-register",
    title: "Main cap register",
    operation: "block",
    why: "A cap that is loose in its register walks under load: the main is no longer round, and the bolts work loose.",
    source: "common practice, no source: 1 to 4 thou of press, where the block has registers",
    hold_source: Some("common practice, no source: 3 thou loose"),
    judges: &["main-cap.register"],
    texts: &[Text {
        low: Remedy::say("Have the register of {place} closed up or the cap dowelled, and line-hone the mains."),
        high: Remedy::say("Dress the cap of {place} until it taps in: one that is forced in cracks the block."),
        ..Text::new("press of the cap")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(_: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::between(0.0, thou(5.0)).never_below(thou(-3.0)));
    Answered
}
