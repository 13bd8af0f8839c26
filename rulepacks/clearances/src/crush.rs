//! Crush of the shells.

use crate::common::{ROLLER, TOUCH, contact, roller, touches};
use crate::facts::{BEARING, MAIN_HOUSING_LOW, ROD_HOUSING_LOW};
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
    CONTACT =
        Text { low: LOOSE, ..contact("contact: a shell that does not stand over its parting line is not clamped") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "crush",
    title: "Bearing crush",
    operation: "crank",
    why: "Crush is what holds a shell: without it the shell turns with the journal and shuts its own oil hole.",
    source: "common practice, no source; small shells from half a thou an inch of their housing",
    hold_basis: Some(Practice),
    hold_source: Some(
        "common practice, no source: over 6 thou the shell or the cap yields; contact: a shell without crush",
    ),
    judges: JUDGES,
    takes: &[BEARING, MAIN_HOUSING_LOW, ROD_HOUSING_LOW],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if roller(f) {
        return NotApplicable(reason::ROLLER);
    }
    for (judged, text, housing) in
        [(judged::MAIN, text::MAIN, MAIN_HOUSING_LOW), (judged::ROD, text::ROD, ROD_HOUSING_LOW)]
    {
        let low = f.get(housing).map_or(thou(1.0), |housing| (0.5e-3 * housing).min(thou(1.0)));
        a.window(Window::between(low, thou(3.0)).never_above(thou(6.0)).judging(judged).text(text));
        a.window(touches(TOUCH).judging(judged).text(text::CONTACT));
    }
    Answered
}
