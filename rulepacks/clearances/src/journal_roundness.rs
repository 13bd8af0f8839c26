//! Roundness and taper of the crank's journals.

use crate::common::{ROLLER, by_use, roller};
use crate::facts::{BEARING, USE};
use thou_sdk::prelude::*;

const POLISH: Option<Remedy> = Remedy::say("Polish {place} if a few tenths will do, grind it if not.");

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "journal-roundness",
    title: "Journal roundness and taper",
    operation: "crank",
    why: "A film of a few tenths cannot follow a journal that is a few tenths out: it breaks once a turn, at the same \
          place.",
    source: "common practice, no source; factory service manuals, several makers (1984 to 2008): limits of 0.1 to 0.5 \
             thou",
    judges: &["main-journal.out-of-round", "main-journal.taper", "rod-journal.out-of-round", "rod-journal.taper"],
    needs: &[USE],
    takes: &[BEARING],
    reasons: &[ROLLER],
    texts: &[
        Text { high: POLISH, ..Text::new("over the directions") },
        Text { high: POLISH, ..Text::new("over the width of the journal") },
    ],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if roller(f) {
        return NotApplicable(0);
    }
    let new = by_use(f, thou(0.3), thou(0.3), thou(0.2));
    for (fact, text) in [(0, 0), (1, 1), (2, 0), (3, 1)] {
        a.window(Window::at_most(new).judging(fact).text(text));
        a.window(Window::at_most(thou(0.4)).judging(fact).text(text).reuse());
    }
    Answered
}
