//! How far the crank can walk.

use crate::USE;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
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
