//! Cast pistons against pressure.

use crate::facts::{PISTON_ALLOY, VALVES};
use thou_sdk::prelude::*;

reasons![NOT_CAST = "the pistons are not cast"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "piston-kind",
    title: "Cast pistons for the load",
    operation: "combination",
    why: "A cast piston is quiet and lasts, as long as nobody asks it for race pressure.",
    source: "common practice, no source; late engines of four valves run 190 psi on cast ones; for the speed see mean-piston-speed",
    judges: &["bmep.at-power"],
    needs: &[PISTON_ALLOY],
    takes: &[VALVES],
    reasons: REASONS,
    texts: &[Text {
        high: Remedy::say("Forged pistons. Cast ones suit a street engine of less torque."),
        ..Text::new("cast pistons")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(PISTON_ALLOY, &["cast"]) {
        return NotApplicable(reason::NOT_CAST);
    }
    let four = f.get(VALVES).is_some_and(|valves| valves > 3.5);
    a.window(Window::at_most(psi(if four { 190.0 } else { 160.0 })));
    Answered
}
