//! What the main jets flow against what the power drinks.

use crate::facts::{ADDER, JETS};
use thou_sdk::prelude::*;

reasons![
    NO_JETS = "no jets on the sheet",
    NITROUS = "with nitrous a part of the fuel comes by its own jets: hold the main jets against the power without it",
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "main-jets",
    title: "Main jets",
    operation: "combination",
    why: "Jets that flow less than the power drinks make the mixture leaner than it was planned, and lean melts pistons; \
          jets that flow more wash the bores. A figure to start from: mixture and plugs on the dyno decide.",
    source: "common practice, no source: a twentieth leaner to an eighth richer than planned for a first pull",
    judges: &["fuel.jet-margin"],
    takes: &[JETS, ADDER],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::solve("Lean of the plan: main jets of {solve} for the first pull.", "jet.bore", "up"),
        high: Remedy::solve("Rich of the plan: main jets of {solve} for the first pull.", "jet.bore", "down"),
        ..Text::new("all main jets over the need, in any use")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.get(JETS).is_none() {
        return NotApplicable(reason::NO_JETS);
    }
    if f.is(ADDER, &["nitrous"]) {
        return NotApplicable(reason::NITROUS);
    }
    a.window(Window::between(0.95, 1.125).aim(1.05).levels(Warn, Note));
    Answered
}
