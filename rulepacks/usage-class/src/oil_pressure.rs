//! Hot oil pressure against the speed.

use crate::facts::BEARING;
use thou_sdk::prelude::*;

reasons![ROLLING = "rolling bearings live on a trickle, not on pressure"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "oil-pressure",
    title: "Hot oil pressure",
    operation: "hand-over",
    why: "Pressure is what is left over after the bearings have drunk; what counts is that it does not fall against \
          this engine's own. If it falls, shut it off; do not rev it to see.",
    source: "common practice, no source: 10 psi to the 1,000 rpm; a trade article has tight engines on thin oil at half \
             of it on purpose, so a plan of the builder's is accepted by name",
    judges: &["oil.pressure.per-thousand"],
    takes: &[BEARING],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say(
            "Find where it goes: clearance, pickup, bypass, oil temperature; or accept it by name as this engine's plan.",
        ),
        ..Text::new("for each 1,000 rpm, hot")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(BEARING, &["roller"]) {
        return NotApplicable(reason::ROLLING);
    }
    a.window(Window::at_least(psi(8.0)).aim(psi(10.0)).never_below(psi(5.0)));
    Answered
}
