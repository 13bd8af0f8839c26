//! The age of an elastomer ring.

use crate::facts::DAMPER;
use thou_sdk::prelude::*;

reasons![NO_ELASTOMER = "no elastomer ring"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "damper-age",
    title: "Age of the damper's ring",
    operation: "receiving",
    why: "Rubber hardens on the shelf too: the ring slips, the timing mark moves with it, and one day the outside leaves.",
    source: "common practice, no source",
    judges: &["damper.age"],
    needs: &[DAMPER],
    reasons: REASONS,
    texts: &[Text {
        high: Remedy::say("A new one, or have it bonded again. At this age it suits a show car."),
        ..Text::new("elastomer ring, from its date of making")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(DAMPER, &["elastomer"]) {
        return NotApplicable(reason::NO_ELASTOMER);
    }
    a.window(Window::at_most(months(120.0)));
    Answered
}
