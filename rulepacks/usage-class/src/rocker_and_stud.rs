//! What the rockers stand on against the spring.

use crate::facts::ROCKER;
use thou_sdk::prelude::*;

reasons![NO_STUDS = "shaft rockers, or none"];

texts![
    PRESSED = Text {
        high: Remedy::say("Screwed studs. Pressed ones suit a mild street engine."),
        ..Text::new("pressed studs")
    },
    SCREWED = Text {
        high: Remedy::say("Shaft rockers. Studs suit a street or bracket engine up to {high} open."),
        ..Text::new("screwed studs with a girdle")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "rocker-and-stud",
    title: "Rocker studs for the spring",
    operation: "heads",
    why: "A pressed stud pulls out and a screwed one bends: either way lash grows and the valve is not where the cam says.",
    source: "common practice, no source; of screwed studs the looser school's, with a girdle; aluminium rockers are a life part",
    judges: &["spring.open-load.max"],
    needs: &[ROCKER],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    match f.choice(ROCKER) {
        Some("pressed-stud") => a.window(Window::at_most(pounds(250.0)).text(text::PRESSED)),
        Some("stud") => a.window(Window::at_most(pounds(500.0)).text(text::SCREWED)),
        _ => return NotApplicable(reason::NO_STUDS),
    }
    Answered
}
