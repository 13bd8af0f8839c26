//! Blow-by at power.

use crate::facts::BLOW_BY;
use thou_sdk::prelude::*;

reasons![NOT_READ = "nobody read it"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "blow-by",
    title: "Blow-by",
    operation: "hand-over",
    why: "Gas that passes the rings heats them, blows the oil off the bore and presses on the pan; it shows a ring that fails \
          before power does.",
    source: "common practice, no source: about a hundredth of what the pistons draw; more with wide gaps, and it counts most \
             against this engine's own",
    hold_source: Some(
        "common practice, no source: a tenth of the charge past the rings is a broken ring or a burned piston",
    ),
    judges: &["blow-by.share"],
    takes: &[BLOW_BY],
    reasons: REASONS,
    texts: &[Text {
        high: Remedy::say("Leak-down hole by hole, and listen at the breather; then gaps, ring seal and bores."),
        ..Text::new("of what the pistons draw at power")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.get(BLOW_BY).is_none() {
        return NotApplicable(reason::NOT_READ);
    }
    a.window(Window::at_most(percent(2.0)).never_above(percent(10.0)));
    Answered
}
