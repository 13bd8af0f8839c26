//! Mean effective pressure against what engines make of their air.

use crate::common::{UNKNOWN_USE, usage};
use crate::facts::{ADDER, FUEL, TARGET_TORQUE, USE};
use thou_sdk::prelude::*;

judges![AT_POWER = "bmep.at-power.an-atmosphere", AT_TORQUE = "bmep.at-torque.an-atmosphere"];

reasons![UNKNOWN_USE];

const CHECK: Option<Remedy> = Remedy::say(
    "Look at power, torque, their speeds, displacement and boost again: one of them is a slip, or this engine is not going to \
     make it on its air.",
);

texts![
    AT_POWER =
        Text { high: CHECK, ..Text::new("at power, for each atmosphere in the manifold, by the use and the fuel") },
    AT_TORQUE =
        Text { high: CHECK, ..Text::new("at torque, for each atmosphere in the manifold, by the use and the fuel") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "mean-pressure",
    title: "Mean pressure that is possible",
    operation: "combination",
    why: "An engine makes no more of a cylinder of air than the best of its kind have made; a power past that is a wish, and \
          everything that is judged by it with it.",
    source: "common practice, no source: road engines of four valves come to 190 psi at power, drag engines to 225; a twelfth more \
             at torque, a tenth more on alcohol; whatever the boost, for each atmosphere of it, since a pressed charge is warmer",
    hold_source: Some("common practice, no source: an eighth past the best that is known of"),
    judges: JUDGES,
    needs: &[USE, FUEL],
    takes: &[ADDER, TARGET_TORQUE],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(usage) = usage(f) else { return CannotSay(reason::UNKNOWN_USE) };
    let alcohol = if f.is(FUEL, &["e85", "ethanol", "methanol"]) { 1.1 } else { 1.0 };
    let best = psi(usage.pick(190.0, 210.0, 225.0)) * alcohol;
    let window = |most: f64| Window::at_most(most).never_above(most * 9.0 / 8.0);
    a.window(window(best).judging(judged::AT_POWER).text(text::AT_POWER));
    // how much of the torque nitrous brings is nowhere stated
    if f.get(TARGET_TORQUE).is_some() && !f.is(ADDER, &["nitrous"]) {
        a.window(window(best * 13.0 / 12.0).judging(judged::AT_TORQUE).text(text::AT_TORQUE));
    }
    Answered
}
