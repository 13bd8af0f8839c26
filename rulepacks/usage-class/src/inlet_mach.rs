//! Inlet Mach index.

use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "inlet-mach",
    title: "Inlet valve for the speed",
    operation: "combination",
    why: "Past this index the inlet valve chokes: more speed brings no more air, and no cam helps it.",
    basis: Published,
    source: "C. F. Taylor, The Internal-Combustion Engine in Theory and Practice, vol. 1, ch. 6, from memory: filling falls from 0.5 to 0.6 on",
    judges: &["inlet.mach-index"],
    texts: &[Text {
        high: Remedy::say(
            "A larger inlet valve, more lift, or peak power at a lower speed. The head suits a slower or smaller engine.",
        ),
        ..Text::new("at peak power")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(_: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::at_most(0.6).levels(Note, Note));
    Answered
}
