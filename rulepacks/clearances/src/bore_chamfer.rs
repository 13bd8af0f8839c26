//! The chamfer at the top of the bore.

use crate::facts::CHAMFER;
use thou_sdk::prelude::*;

reasons![NOT_READ = "no chamfer was read"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "bore-chamfer",
    title: "Chamfer of the bore",
    operation: "block",
    why: "A bore that was honed and not chamfered again has an edge that shaves the rings as the pistons go in.",
    source: "common practice, no source: 10 to 30 thou on diameter",
    judges: &["bore.chamfer.over-bore"],
    takes: &[CHAMFER],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say("Chamfer bore {place} again, then brush it, before a ring comes near."),
        ..Text::new("chamfer over the bore, on diameter")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.all(CHAMFER).iter().all(|chamfer| chamfer.is_nan()) {
        return NotApplicable(reason::NOT_READ);
    }
    a.window(Window::at_least(thou(5.0)));
    Answered
}
