//! Cast pistons against pressure and speed.

use crate::facts::PISTON_ALLOY;
use thou_sdk::prelude::*;

judges![PRESSURE = "bmep.at-power", SPEED = "top-speed"];

reasons![NOT_CAST = "the pistons are not cast"];

texts![
    CAST = Text {
        high: Remedy::say("Forged pistons. Cast ones suit a street engine of less torque."),
        ..Text::new("cast pistons")
    },
    CAST_SPEED = Text {
        high: Remedy::solve(
            "Limiter to {solve}, or forged pistons. Cast ones suit a street engine.",
            "limiter",
            "down",
        ),
        ..Text::new("cast pistons, speed")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "piston-kind",
    title: "Cast pistons for the load",
    operation: "combination",
    why: "A cast piston is quiet and lasts, as long as nobody asks it for race pressure or race speed.",
    source: "common practice, no source; of the speed the looser school's",
    judges: JUDGES,
    needs: &[PISTON_ALLOY],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(PISTON_ALLOY, &["cast"]) {
        return NotApplicable(reason::NOT_CAST);
    }
    a.window(Window::at_most(psi(160.0)).judging(judged::PRESSURE).text(text::CAST));
    a.window(Window::at_most(rpm(6_000.0)).judging(judged::SPEED).text(text::CAST_SPEED));
    Answered
}
