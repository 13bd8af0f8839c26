//! Cast pistons against pressure and speed.

use crate::facts::PISTON_ALLOY;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "piston-kind",
    title: "Cast pistons for the load",
    operation: "combination",
    why: "A cast piston is quiet and lasts, as long as nobody asks it for race pressure or race speed.",
    source: "common practice, no source; of the speed the looser school's",
    judges: &["bmep.at-power", "top-speed"],
    needs: &[PISTON_ALLOY],
    reasons: &["the pistons are not cast"],
    texts: &[
        Text {
            high: Remedy::say("Forged pistons. Cast ones suit a street engine of less torque."),
            ..Text::new("cast pistons")
        },
        Text {
            high: Remedy::solve(
                "Limiter to {solve}, or forged pistons. Cast ones suit a street engine.",
                "limiter",
                "down",
            ),
            ..Text::new("cast pistons, speed")
        },
    ],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(PISTON_ALLOY, &["cast"]) {
        return NotApplicable(0);
    }
    a.window(Window::at_most(psi(160.0)));
    a.window(Window::at_most(rpm(6_000.0)).judging(1).text(1));
    Answered
}
