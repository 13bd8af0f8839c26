//! Rods straight and not twisted.

use crate::common::by_use;
use crate::facts::USE;
use thou_sdk::prelude::*;

const OUT: Option<Remedy> =
    Remedy::say("Read {place} again on clean arbors; swap the rod, or have it straightened and crack tested.");

judges![BEND = "rod.bend", TWIST = "rod.twist"];

texts![
    BENT = Text { high: OUT, ..Text::new("bend over 4 in of arbor") },
    TWISTED = Text { high: OUT, ..Text::new("twist over 4 in of arbor") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "rod-straightness",
    title: "Rod straightness",
    operation: "rods-and-pistons",
    why: "A bent rod runs its piston crooked up the bore and its shells on their edges.",
    basis: Published,
    source: "factory service manuals, over 100 mm: bend 0.05 mm and twist 0.15 (a V8), 0.16 and 0.24 (a V6), twist 0.15 (a \
             twin); raced: common practice, no source",
    hold_basis: Some(Practice),
    hold_source: Some("common practice, no source, more than any manual's limit: bend 10 thou, twist 12"),
    judges: JUDGES,
    needs: &[USE],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let twist = by_use(f, thou(6.0), thou(3.0), thou(3.0));
    a.window(Window::at_most(thou(2.0)).never_above(thou(10.0)).judging(judged::BEND).text(text::BENT));
    a.window(Window::at_most(twist).never_above(thou(12.0)).judging(judged::TWIST).text(text::TWISTED));
    Answered
}
