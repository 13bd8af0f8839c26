//! What the springs lost in the run-in.

use crate::facts::RUN_IN_LOAD;
use thou_sdk::prelude::*;

reasons![NOT_READ = "no seat loads after the run-in"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "spring-run-in",
    title: "Springs after the run-in",
    operation: "hand-over",
    why: "A new spring gives a few pounds in its first heat and then stays; one that gives much more was never set, or is cracking.",
    source: "common practice, no source: 2 to 5 % in the first heat",
    judges: &["spring.load-loss"],
    takes: &[RUN_IN_LOAD],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say("Read {place} again on the same tester at the same height; if it stays, another spring."),
        ..Text::new("loads at the build against those after the run-in: less than nothing is what the run-in took")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.all(RUN_IN_LOAD).iter().all(|load| load.is_nan()) {
        return NotApplicable(reason::NOT_READ);
    }
    a.window(Window::at_least(-0.10));
    Answered
}
