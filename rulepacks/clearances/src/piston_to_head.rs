//! Piston to head at the top.

use crate::common::{CONTACT, by_use, contact, stroke_scale, touches, work};
use crate::facts::{ROD, STROKE, TAKEN_UP, TOP_SPEED, USE};
use thou_sdk::prelude::*;

const GASKET: Option<Remedy> = Remedy::solve(
    "Swap the gasket for a thicker one, to {solve}, or cut the piston of {place}; then work the compression out again.",
    "gasket.thickness",
    "either",
);
const THINNER: Option<Remedy> = Remedy::solve(
    "Swap the gasket for a thinner one, to {solve}, and read both valves again with it.",
    "gasket.thickness",
    "either",
);

texts![
    FLOOR = Text {
        low: GASKET,
        high: THINNER,
        ..Text::new("for this rod, use and speed, with the gasket it was read with")
    },
    CONTACT =
        Text { low: GASKET, ..contact("contact: what the parts take up hot at the over-rev, with nothing to spare") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "piston-to-head",
    title: "Piston to head",
    operation: "mock-up",
    why: "At speed the rod stretches, the oil films give, and the piston rocks: cold clearance is what it has to do \
          that in. Wide apart, the squish does nothing and the end of the charge knocks.",
    source: "a factory performance manual: 35 thou at least for steel in a V8; trade guides: 50 at least for aluminium \
             rods, 46 good, over 60 not; small singles 20 to 32; common practice between, by use, and in proportion to a \
             stroke under 3.50 in",
    hold_basis: Some(Practice),
    hold_source: Some(
        "common practice, no source: steel 28 thou in a V8 (one of 26 just touched, one of 22 hit), titanium 30, aluminium \
         47, in proportion to a shorter stroke; contact: the sum of what the parts take up, thou facts \
         piston-to-head.taken-up",
    ),
    judges: &["piston-to-head"],
    needs: &[USE, ROD],
    takes: &[TOP_SPEED, STROKE, TAKEN_UP],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// Small race singles are built to this.
const LEAST: f64 = mm(0.5);

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let steel = by_use(f, (38.0, 48.0), (38.0, 45.0), (35.0, 42.0));
    let ((low, high), floor) = match f.choice(ROD) {
        Some("aluminium") => ((50.0, 65.0), 47.0),
        Some("titanium") => ((steel.0 + 3.0, steel.1 + 5.0), 30.0),
        _ => (steel, 28.0),
    };
    let (scale, faster) = (stroke_scale(f), thou(faster(f)));
    let low = (thou(low) * scale).max(LEAST) + faster;
    let high = thou(high) + faster;
    // what shops leave over a short stroke is a little more than in proportion
    let never = (thou(floor) * scale).max(thou(17.0)).min(low);
    let taken = f.get(TAKEN_UP).unwrap_or(0.0).max(CONTACT);
    a.window(work(low.max(taken), high.max(taken)).never_below(never).levels(Warn, Note).text(text::FLOOR));
    a.window(touches(taken).text(text::CONTACT));
    Answered
}

/// Thou to add for speed: one for each 500 rpm past 7,500, as V8 practice has it. A shorter stroke than that V8's pulls
/// on its rods as hard at the speed times the root of the strokes' ratio (r w^2), so its speed counts less.
fn faster(f: &Facts<'_>) -> f64 {
    let stroke = f.get(STROKE).map_or(1.0, |stroke| (stroke / inches(3.75)).min(1.0));
    f.get(TOP_SPEED).map_or(0.0, |speed| ((speed * stroke.sqrt() - rpm(7_500.0)) / rpm(500.0)).max(0.0))
}
