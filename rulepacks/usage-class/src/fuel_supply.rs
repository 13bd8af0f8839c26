//! What the pump gives against what the power drinks.

use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "fuel-supply",
    title: "Fuel supply",
    operation: "combination",
    why: "An engine that outruns its pump goes lean at the top of the last gear, where nothing forgives it.",
    source: "common practice, no source: a quarter more than the need; pump flow at the running pressure and voltage",
    hold_basis: Some(Physics),
    hold_source: Some("the power times its specific consumption: less than that is lean"),
    judges: &["fuel.margin"],
    texts: &[Text {
        low: Remedy::solve(
            "Needs {fact:fuel.need-volume}, has {fact:fuel.pump-flow}: pump to {solve} at the pressure and voltage it \
             runs at, lines and filter to match; or less power.",
            "fuel.pump-flow",
            "up",
        ),
        ..Text::new("pump flow over need, in any use")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(_: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::at_least(1.15).aim(1.25).never_below(1.0));
    Answered
}
