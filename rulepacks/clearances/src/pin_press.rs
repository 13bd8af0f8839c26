//! A pin pressed in the rod.

use crate::common::work;
use crate::facts::PIN_FIT;
use thou_sdk::prelude::*;

reasons![FLOATS = "the pin floats"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "pin-press",
    title: "Pin pressed in the rod",
    operation: "rods-and-pistons",
    why: "Nothing but the press holds the pin: when it walks, it ploughs the bore.",
    source: "common practice, no source; service manual of an iron V6: 0.2 to 0.8 thou of press",
    hold_basis: Some(Physics),
    hold_source: Some("a pin without interference is not held by the rod"),
    judges: &["pin-to-rod"],
    needs: &[PIN_FIT],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::solve("Hone the small end of {place} to {solve}.", "rod-bush", "up"),
        high: Remedy::say("Swap in an oversize pin or another rod at {place}; metal cannot be put back."),
        ..Text::new("less than nothing: the pin is larger than its hole")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(PIN_FIT, &["pressed"]) {
        return NotApplicable(reason::FLOATS);
    }
    a.window(work(thou(-1.5), thou(-0.8)).never_above(0.0));
    Answered
}
