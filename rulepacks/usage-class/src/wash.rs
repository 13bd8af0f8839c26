//! The wash between the cutting and the assembly.

use crate::facts::{ASSEMBLIES, BLOCK_CUTS};
use thou_sdk::prelude::*;

reasons![NOT_YET = "the block was not cut by this sheet, or it is not assembled yet"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "wash",
    title: "Wash before assembly",
    operation: "assembly",
    why: "Honing leaves the stone's grit in the hatch; whatever is not washed out laps rings, bores and shells.",
    source: "common practice, no source",
    judges: &["block.washed-before-assembly"],
    takes: &[BLOCK_CUTS, ASSEMBLIES],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say(
            "Take it down and wash it with hot water, soap and brushes, galleries too; and write down when.",
        ),
        ..Text::new("from the wash to the assembly")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if [BLOCK_CUTS, ASSEMBLIES].into_iter().any(|count| f.get(count).is_none_or(|n| n < 0.5)) {
        return NotApplicable(reason::NOT_YET);
    }
    a.window(Window::new().never_below(0.0));
    Answered
}
