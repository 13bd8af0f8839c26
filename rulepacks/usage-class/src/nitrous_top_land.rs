//! Nitrous against the metal above the top ring.

use crate::common::as_eight;
use crate::facts::{ADDER, ADDER_POWER, BORE, CYLINDERS};
use thou_sdk::prelude::*;

reasons![
    LITTLE_NITROUS = "no nitrous, or less than asks for a taller land",
    NO_SHOT = "write intent.adder-power: how much is it jetted for?",
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "nitrous-top-land",
    title: "Top land for the nitrous",
    operation: "rods-and-pistons",
    why: "The top land is what the heat meets first: a thin one sags onto its ring and breaks off.",
    source: "common practice, no source: a sixteenth of the bore",
    hold_source: Some("common practice, no source: a land of a 25th of the bore does not outlast the bottle"),
    judges: &["piston.top-land-height"],
    needs: &[ADDER, CYLINDERS, BORE],
    takes: &[ADDER_POWER],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say(
            "Pistons with the top ring lower, {aim} if you order them, or a smaller jet. As they are, they suit a \
             bracket engine on its own breath.",
        ),
        ..Text::new("more than 200 hp of nitrous on eight cylinders")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(ADDER, &["nitrous"]) {
        return NotApplicable(reason::LITTLE_NITROUS);
    }
    let Some(shot) = f.get(ADDER_POWER) else { return CannotSay(reason::NO_SHOT) };
    if as_eight(shot, f) <= hp(200.0) {
        return NotApplicable(reason::LITTLE_NITROUS);
    }
    let bore = f.of(BORE);
    a.window(Window::at_least(bore / 16.0).aim(bore * 3.0 / 40.0).never_below(bore / 25.0));
    Answered
}
