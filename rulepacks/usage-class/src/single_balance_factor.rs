//! The balance factor of a single.

use crate::facts::LAYOUT;
use thou_sdk::prelude::*;

reasons![BY_LAYOUT = "its factor is given by the layout"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "single-balance-factor",
    title: "Balance factor of a single",
    operation: "crank",
    why: "What the counterweight takes from along the bore it gives across it: the factor chooses where the frame shakes.",
    source: "common practice, no source: 50 to 70 % of the reciprocating mass, by the frame and its mounts",
    judges: &["balance.factor"],
    needs: &[LAYOUT],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say(
            "{fact:single.shake.along} is left along the bore, {fact:single.shake.across} across it: add to the counterweight, unless this frame likes it.",
        ),
        high: Remedy::say(
            "{fact:single.shake.along} is left along the bore, {fact:single.shake.across} across it: take from the counterweight, unless this frame likes it.",
        ),
        ..Text::new("a single, of the reciprocating mass")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(LAYOUT, &["single"]) {
        return NotApplicable(reason::BY_LAYOUT);
    }
    a.window(Window::between(percent(50.0), percent(70.0)).levels(Note, Note));
    Answered
}
