//! The kind of shells against the power.

use crate::common::for_eight;
use crate::facts::{BEARING, CYLINDERS};
use thou_sdk::prelude::*;

reasons![NOT_BI_METAL = "the shells are not bi-metal"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "bearing-kind",
    title: "Shells for the power",
    operation: "combination",
    why: "An aluminium shell lasts for ever under a load that it carries and cracks out of its back under one that it does not.",
    source: "common practice, no source: bi-metal to about 500 hp on eight cylinders, tri-metal above; counted by cylinder here; rod-bearing-load has the load itself",
    judges: &["target.power"],
    needs: &[BEARING, CYLINDERS],
    reasons: REASONS,
    texts: &[Text {
        high: Remedy::say(
            "Tri-metal shells, coated if it starts cold and often. These suit a street engine up to {high}.",
        ),
        ..Text::new("bi-metal shells")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(BEARING, &["bi-metal"]) {
        return NotApplicable(reason::NOT_BI_METAL);
    }
    a.window(Window::at_most(for_eight(hp(500.0), f)).levels(Note, Note));
    Answered
}
