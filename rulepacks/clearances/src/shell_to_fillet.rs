//! Shell edges clear of the journal fillets.

use crate::common::{ROLLER, TOUCH, contact, roller, touches};
use crate::facts::BEARING;
use thou_sdk::prelude::*;

const NARROW: Option<Remedy> =
    Remedy::say("Swap in shells with a chamfer for {place}, chamfer side to the cheek, or narrow them.");

judges![MAIN = "main.shell-to-fillet", ROD = "rod.shell-to-fillet"];

reasons![ROLLER];

texts![
    MAIN = Text { low: NARROW, ..Text::new("each side of the main shells") },
    ROD = Text { low: NARROW, ..Text::new("each side of the rod shells") },
    CONTACT = Text { low: NARROW, ..contact("contact: the shell rides the fillet at one end of the end play") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "shell-to-fillet",
    title: "Shell edge to fillet",
    operation: "crank",
    why: "A shell that rides up the fillet is wedged off its housing: it heats, and it marks the crank where the \
          crank breaks.",
    source: "common practice, no source, at both ends of the end play",
    hold_basis: Some(Practice),
    hold_source: Some("common practice, no source: 4 thou; contact: geometry"),
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
    for (judged, text) in [(judged::MAIN, text::MAIN), (judged::ROD, text::ROD)] {
        a.window(Window::at_least(thou(10.0)).never_below(thou(4.0)).judging(judged).text(text));
        a.window(touches(TOUCH).judging(judged).text(text::CONTACT));
    }
    Answered
}
