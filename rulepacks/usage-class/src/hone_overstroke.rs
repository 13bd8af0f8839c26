//! How far the stones run out of the bore.

use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "hone-overstroke",
    title: "Overstroke of the hone",
    operation: "block",
    why: "Stones that stop short leave the ends tight; stones that run far out open the ends and rock.",
    source: "honing handbooks, from memory: a third to a half of the stone at each end",
    judges: &["hone.overstroke.share"],
    texts: &[Text {
        low: Remedy::say("A longer stroke: the ends of the bore stay tight."),
        high: Remedy::say("A shorter stroke: the ends of the bore open like a bell."),
        ..Text::new("of the stone, at each end")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(_: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::between(1.0 / 3.0, 0.5).levels(Note, Note));
    Answered
}
