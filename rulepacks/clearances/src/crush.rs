//! Crush of the shells.

use crate::common::{ROLLER, roller};
use crate::facts::BEARING;
use thou_sdk::prelude::*;

const LOOSE: Option<Remedy> =
    Remedy::say("Swap the shells of {place}, or bring the housing to the low side of its band.");
const TIGHT: Option<Remedy> =
    Remedy::say("Swap the shells of {place}; look that the housing is not small and the cap not turned.");

judges![MAIN = "main.crush", ROD = "rod.crush"];

reasons![ROLLER];

texts![
    MAIN = Text { low: LOOSE, high: TIGHT, ..Text::new("a half shell of the mains") },
    ROD = Text { low: LOOSE, high: TIGHT, ..Text::new("a half shell of the rods") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "crush",
    title: "Bearing crush",
    operation: "crank",
    why: "Crush is what holds a shell: without it the shell turns with the journal and shuts its own oil hole.",
    hold_basis: Some(Physics),
    hold_source: Some("a shell without crush is not clamped; a tenth is the least that can be read"),
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
    let window = Window::between(thou(1.0), thou(3.0)).never_below(thou(0.1));
    a.window(window.judging(judged::MAIN).text(text::MAIN));
    a.window(window.judging(judged::ROD).text(text::ROD));
    Answered
}
