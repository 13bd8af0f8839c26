//! The limiter against the speed at which the rod bolts let go.

use crate::facts::{BEARING, CLAMP_MARGIN, OVER_REV, ROD_BOLT_CLAMP};
use crate::rod_bolt_load::bolted;
use thou_sdk::prelude::*;

reasons![
    NO_CLAMP = "the rod bolts' clamp is not known: see rod-bolt-load",
    NO_BOLTS = "a rolling big end on a built-up crank has no bolts",
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "limiter",
    title: "Limiter",
    operation: "hand-over",
    why: "A limiter catches a missed gear late: it belongs well under the speed at which the rods' joint opens.",
    source: "common practice, no source: 200 rpm under",
    hold_basis: Some(Physics),
    hold_source: Some("reciprocating load goes with the square of speed: a twentieth past this it is the bolts' clamp"),
    judges: &["limiter"],
    needs: &[OVER_REV],
    takes: &[CLAMP_MARGIN, BEARING, ROD_BOLT_CLAMP],
    reasons: REASONS,
    texts: &[Text {
        high: Remedy::say("Set it to {high} or less, or a stronger bolt, or a lighter piston."),
        ..Text::new("from where the rod bolts' clamp is used up at the over-rev")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !bolted(f) {
        return NotApplicable(reason::NO_BOLTS);
    }
    let Some(margin) = f.get(CLAMP_MARGIN) else { return CannotSay(reason::NO_CLAMP) };
    let opens = f.of(OVER_REV) * margin.sqrt() / 1.05;
    a.window(Window::at_most(opens - rpm(200.0)).never_above(opens));
    Answered
}
