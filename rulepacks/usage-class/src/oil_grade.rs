//! The oil's grade against the clearance it has to fill.

use crate::facts::{BEARING, OIL, ROD_JOURNAL};
use thou_sdk::prelude::*;

reasons![
    ROLLING = "rolling bearings have no oil film of this kind",
    NO_JOURNAL = "write crank.rod-journal: the clearance is judged by its size",
];

texts![
    GRADE_20 = Text {
        high: Remedy::say(
            "A 30 or 40 oil, or a tighter shell at {place}. This clearance suits an older school's bracket engine.",
        ),
        ..Text::new("oils of grade 20, by the journal's size")
    },
    GRADE_30_AND_40 = Text {
        high: Remedy::say("A 50 oil, or a tighter shell at {place}."),
        ..Text::new("oils of grade 30 and 40, by the journal's size")
    },
    GRADE_50 = Text {
        low: Remedy::say("A 30 or 40 oil, or more clearance at {place}."),
        ..Text::new("oils of grade 50 and more, by the journal's size")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "oil-grade",
    title: "Oil for the clearance",
    operation: "assembly",
    why: "Thin oil runs out of a wide bearing before it carries anything; thick oil in a tight one heats and starves it.",
    source: "common practice, no source: 20W-50 with 2.0 to 2.5 thou on 2.1 in, thin oils with tight bearings",
    judges: &["rod-bearing.clearance"],
    needs: &[OIL],
    takes: &[BEARING, ROD_JOURNAL],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(BEARING, &["roller"]) {
        return NotApplicable(reason::ROLLING);
    }
    let Some(journal) = f.get(ROD_JOURNAL) else { return CannotSay(reason::NO_JOURNAL) };
    match f.choice(OIL) {
        Some("0W-20" | "5W-20") => a.window(Window::at_most(0.001_1 * journal).text(text::GRADE_20)),
        Some("5W-50" | "15W-50" | "20W-50" | "50" | "60" | "70") => {
            a.window(Window::at_least(0.001 * journal).levels(Note, Warn).text(text::GRADE_50));
        }
        _ => a.window(Window::at_most(0.001_3 * journal).text(text::GRADE_30_AND_40)),
    }
    Answered
}
