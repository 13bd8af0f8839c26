//! Roundness and taper of the crank's journals.

use crate::common::{ROLLER, by_use, roller};
use crate::facts::{BEARING, USE};
use thou_sdk::prelude::*;

const POLISH: Option<Remedy> = Remedy::say("Polish {place} if a few tenths will do, grind it if not.");

judges![
    MAIN_ROUND = "main-journal.out-of-round",
    MAIN_TAPER = "main-journal.taper",
    ROD_ROUND = "rod-journal.out-of-round",
    ROD_TAPER = "rod-journal.taper",
];

reasons![ROLLER];

texts![
    ROUND = Text { high: POLISH, ..Text::new("over the directions") },
    TAPER = Text { high: POLISH, ..Text::new("over the width of the journal") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "journal-roundness",
    title: "Journal roundness and taper",
    operation: "crank",
    why: "A film of a few tenths cannot follow a journal that is a few tenths out: it breaks once a turn, at the same \
          place.",
    source: "common practice, no source; factory service manuals, several makers (1984 to 2008): limits of 0.1 to 0.5 \
             thou",
    judges: JUDGES,
    needs: &[USE],
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
    let new = by_use(f, thou(0.3), thou(0.3), thou(0.2));
    for (judged, text) in [
        (judged::MAIN_ROUND, text::ROUND),
        (judged::MAIN_TAPER, text::TAPER),
        (judged::ROD_ROUND, text::ROUND),
        (judged::ROD_TAPER, text::TAPER),
    ] {
        let journal = Window::at_most(new).never_above(thou(1.0)).judging(judged).text(text);
        a.window(journal);
        a.window(Window { high: Some(thou(0.4)), ..journal }.reuse());
    }
    Answered
}
