//! Load on the main bearings against what their metal lives under.

use crate::common::{ROLLING, shells, uneven_firing};
use crate::facts::{BEARING, FIRING_ORDER, SECONDARY_SHARE};
use thou_sdk::prelude::*;

reasons![ROLLING, UNEVEN = "it fires unevenly: what its mains carry is not worked out"];

texts![
    BI_METAL = Text {
        high: Remedy::say("Tri-metal shells, less speed or pressure, or lighter rods and pistons; these carry {high}."),
        ..Text::new("bi-metal shells, peak load on the projected area of a main")
    },
    TRI_METAL = Text {
        high: Remedy::say("Less speed or pressure, or lighter rods and pistons; these carry {high}."),
        ..Text::new("tri-metal shells, peak load on the projected area of a main")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "main-bearing-load",
    title: "Load on the main bearings",
    operation: "combination",
    why: "Two throws meet at a main between them: where both pull one way it may have more to bear than any rod's shell.",
    source: "fatigue strength of shells, from memory of bearing makers' tables: about 8,000 psi for bi-metal and 10,000 psi \
             for tri-metal; half of the load of each throw beside the main over the projected area, under the cycle's own pressure",
    hold_source: Some(
        "common practice, no source: nearly twice what the strongest shells are sold for; the model is good to 15 %",
    ),
    judges: &["main-bearing.load.unit"],
    needs: &[BEARING],
    takes: &[FIRING_ORDER, SECONDARY_SHARE],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(BEARING, &["roller"]) {
        return NotApplicable(reason::ROLLING);
    }
    if uneven_firing(f) {
        return NotApplicable(reason::UNEVEN);
    }
    a.window(shells(f, text::BI_METAL, text::TRI_METAL));
    Answered
}
