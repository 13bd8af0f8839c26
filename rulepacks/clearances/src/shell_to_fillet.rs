//! Shell edges clear of the journal fillets.

use crate::common::{ROLLER, roller};
use crate::facts::BEARING;
use thou_sdk::prelude::*;

const NARROW: Option<Remedy> =
    Remedy::say("Swap in shells with a chamfer for {place}, chamfer side to the cheek, or narrow them.");

judges![MAIN = "main.shell-to-fillet", ROD = "rod.shell-to-fillet"];

reasons![ROLLER];

texts![
    MAIN = Text { low: NARROW, ..Text::new("each side of the main shells") },
    ROD = Text { low: NARROW, ..Text::new("each side of the rod shells") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "shell-to-fillet",
    title: "Shell edge to fillet",
    operation: "crank",
    why: "A shell that rides up the fillet is wedged off its housing: it heats, and it marks the crank where the \
          crank breaks.",
    basis: Physics,
    source: "geometry, at both ends of the end play",
    judges: JUDGES,
    takes: &[BEARING],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if roller(f) {
        return NotApplicable(reason::ROLLER);
    }
    let clear = thou(10.0);
    let window = Window::at_least(clear).never_below(clear);
    a.window(window.judging(judged::MAIN).text(text::MAIN));
    a.window(window.judging(judged::ROD).text(text::ROD));
    Answered
}
