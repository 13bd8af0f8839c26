//! The line of the main housings.

use crate::common::{ROLLER, roller};
use crate::facts::BEARING;
use thou_sdk::prelude::*;

const HONE: Option<Remedy> =
    Remedy::say("Line hone or bore the mains; the crank goes up, so read the deck clearances again.");

judges![ADJACENT = "main.alignment.adjacent", OVERALL = "main.alignment.overall"];

reasons![ROLLER];

texts![
    ADJACENT = Text { high: HONE, ..Text::new("from one main to the next") },
    OVERALL = Text { high: HONE, ..Text::new("over all mains, for these shells") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "main-alignment",
    title: "Main alignment",
    operation: "block",
    why: "A crank in a crooked line bends once a turn, and the high mains carry it all.",
    source: "common practice, no source: unsigned trade articles on bearings have 0.5 thou from one main to the next, 1.0 in all, 2.0 with bi-metal shells",
    hold_source: Some("common practice, no source: twice that"),
    judges: JUDGES,
    takes: &[BEARING],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if roller(f) {
        return NotApplicable(reason::ROLLER);
    }
    let adjacent = thou(0.5);
    let overall = if f.is(BEARING, &["bi-metal"]) { thou(2.0) } else { thou(1.0) };
    a.window(Window::at_most(adjacent).never_above(2.0 * adjacent).judging(judged::ADJACENT).text(text::ADJACENT));
    a.window(Window::at_most(overall).never_above(2.0 * overall).judging(judged::OVERALL).text(text::OVERALL));
    Answered
}
