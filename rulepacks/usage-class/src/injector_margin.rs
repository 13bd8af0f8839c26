//! What the injectors give against what the power drinks.

use crate::facts::{ADDER, INJECTORS};
use thou_sdk::prelude::*;

reasons![
    NO_INJECTORS = "no injectors on the sheet",
    NITROUS =
        "with nitrous a part of the fuel may come by its own jets: hold the injectors against the power without it",
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "injector-margin",
    title: "Injectors",
    operation: "combination",
    why: "An injector that is open all the time meters nothing: past that the engine is lean, and just before it the \
          flow jumps from cycle to cycle.",
    source: "common practice, no source: 80 to 85 % of the time open at most; flow at the pressure across the injector",
    hold_basis: Some(Physics),
    hold_source: Some("open all the time they flow less than the power needs: lean"),
    judges: &["fuel.injector-margin"],
    takes: &[INJECTORS, ADDER],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::solve(
            "Open {fact:fuel.injector-duty} of the time: injectors of {solve} at their rated pressure, or more pressure \
             if pump and rail stand it; or less power.",
            "injector.flow",
            "up",
        ),
        ..Text::new("injectors wide open over need, in any use")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.get(INJECTORS).is_none() {
        return NotApplicable(reason::NO_INJECTORS);
    }
    if f.is(ADDER, &["nitrous"]) {
        return NotApplicable(reason::NITROUS);
    }
    // 85 % and 80 % of the time
    a.window(Window::at_least(1.0 / 0.85).aim(1.25).never_below(1.0));
    Answered
}
