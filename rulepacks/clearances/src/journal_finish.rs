//! Finish of the crank's journals.

use crate::common::{ROLLER, by_use, roller};
use crate::facts::{BEARING, USE};
use thou_sdk::prelude::*;

reasons![ROLLER];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "journal-finish",
    title: "Journal finish",
    operation: "crank",
    why: "Peaks left standing reach through the film and file the shells.",
    source: "common practice, no source; factory service manuals: about 12 microinches",
    judges: &["crank.roughness"],
    needs: &[USE],
    takes: &[BEARING],
    reasons: REASONS,
    texts: &[Text { high: Remedy::say("Polish {place}, the last time in the direction it runs."), ..Text::new("Ra") }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if roller(f) {
        return NotApplicable(reason::ROLLER);
    }
    let finish = by_use(f, microinches(10.0), microinches(10.0), microinches(8.0));
    a.window(Window::at_most(finish).never_above(microinches(20.0)));
    Answered
}
