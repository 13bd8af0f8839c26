//! Load on the rods' bearings against what their metal lives under.

use crate::common::{ROLLING, shells};
use crate::facts::BEARING;
use thou_sdk::prelude::*;

reasons![ROLLING];

texts![
    BI_METAL = Text {
        high: Remedy::say("Tri-metal shells, a wider or larger bearing, or less pressure; these carry {high}."),
        ..Text::new("bi-metal shells, peak load on the projected area")
    },
    TRI_METAL = Text {
        high: Remedy::say("A wider or larger bearing, or less pressure or speed; these carry {high}."),
        ..Text::new("tri-metal shells, peak load on the projected area")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "rod-bearing-load",
    title: "Load on the rod bearings",
    operation: "combination",
    why: "A shell loaded past what its metal stands cracks under its skin and sheds it, whatever the oil does.",
    source: "fatigue strength of shells, from memory of bearing makers' tables: about 8,000 psi for bi-metal and 10,000 psi \
             for tri-metal; peak load over the projected area, at the shift or the torque under the cycle's own pressure",
    hold_source: Some(
        "common practice, no source: nearly twice what the strongest shells are sold for; the model is good to 15 %",
    ),
    judges: &["rod-bearing.load.unit"],
    needs: &[BEARING],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(BEARING, &["roller"]) {
        return NotApplicable(reason::ROLLING);
    }
    a.window(shells(f, text::BI_METAL, text::TRI_METAL));
    Answered
}
