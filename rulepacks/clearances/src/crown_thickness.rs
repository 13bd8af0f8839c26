//! Metal left in the crown.

use crate::common::added;
use crate::facts::{ADDER, BORE};
use thou_sdk::prelude::*;

const THIN: Option<Remedy> =
    Remedy::say("Ask the pistons' maker before {place} runs; a crown cut too thin is another piston.");

texts![
    PLAIN = Text { low: THIN, ..Text::new("one 25th of the bore") },
    ADDED = Text { low: THIN, ..Text::new("one 20th of the bore, for boost or nitrous") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "crown-thickness",
    title: "Crown thickness",
    operation: "rods-and-pistons",
    why: "A crown cut too thin for its pockets sags, cracks and burns through.",
    source: "common practice, no source; the pistons' maker says how deep a pocket may be cut",
    hold_source: Some("common practice, no source: one 40th of the bore"),
    judges: &["piston.crown"],
    needs: &[BORE],
    takes: &[ADDER],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let bore = f.of(BORE);
    let (low, text) = if added(f) { (bore / 20.0, text::ADDED) } else { (bore / 25.0, text::PLAIN) };
    a.window(Window::at_least(low).never_below(bore / 40.0).text(text));
    Answered
}
