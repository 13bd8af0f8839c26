//! What holds the head down against what lifts it.

use crate::common::PRESSED;
use crate::facts::{ADDER, GASKET, PEAK};
use thou_sdk::prelude::*;

judges![STATED = "gasket.clamp-ratio", MODELLED = "gasket.clamp-ratio.modelled"];

const MORE: Option<Remedy> = Remedy::solve(
    "Clamp to {solve} a fastener: bigger or stronger studs, or more of them; or ring the block. This clamp suits an engine \
     of less peak pressure.",
    "head-fastener.clamp",
    "up",
);

texts![
    STATED = Text { low: MORE, ..Text::new("clamp over lift at the peak pressure that the sheet has, in any use") },
    RINGED = Text {
        low: MORE,
        basis: Some(Practice),
        ..Text::new("clamp over lift at the peak pressure that the sheet has; copper under boost, with a ring to seal")
    },
    MODELLED =
        Text { low: MORE, ..Text::new("clamp over lift at the modelled peak pressure, since the sheet has none") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "head-clamp",
    title: "Head clamp against pressure",
    operation: "heads",
    why: "The gasket seals on what is left of the clamp when the cylinder fires; at the same torque one stud holds a \
          third more than the next, so two times is nothing in hand.",
    source: "common practice, no source: three times the lift, counted at rest; rings in the block hold at less",
    hold_basis: Some(Practice),
    hold_source: Some("common practice, no source: half of what is wanted"),
    judges: JUDGES,
    takes: &[PEAK, GASKET, ADDER],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.get(PEAK).is_none() {
        a.window(Window::at_least(2.5).aim(3.0).judging(judged::MODELLED).text(text::MODELLED));
    } else if f.is(GASKET, &["copper"]) && f.is(ADDER, PRESSED) {
        a.window(Window::at_least(1.6).aim(2.5).never_below(1.3).judging(judged::STATED).text(text::RINGED));
    } else {
        a.window(Window::at_least(2.5).aim(3.0).never_below(1.5).judging(judged::STATED).text(text::STATED));
    }
    Answered
}
