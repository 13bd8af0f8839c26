//! What the balancing machine left, by the standard's grade.

use thou_sdk::prelude::*;

use crate::facts::GRADE;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "balance-grade",
    title: "Balance quality grade",
    operation: "crank",
    why: "A grade is a speed of the mass centre: it holds for a heavy crank and a light one, a slow one and a fast one.",
    basis: Standard,
    source: "ISO 21940-11:2016: G 16 for crank drives balanced in themselves on rigid mounts, G 40 on elastic ones; a rigid rotor; shops work far closer",
    judges: &["balance.residual.grade"],
    needs: &[GRADE],
    texts: &[Text {
        high: Remedy::say("Balance it again: the grade allows {fact:balance.permissible} in both planes together."),
        ..Text::new("the grade asked, in mm/s, both planes counted on one side")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::at_most(f.of(GRADE)).levels(Note, Warn));
    Answered
}
