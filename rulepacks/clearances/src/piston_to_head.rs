//! Piston to head at the top.

use crate::common::{by_use, work};
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
    TAKEN_UP_BY_PARTS = Text {
        low: GASKET,
        high: THINNER,
        hold_basis: Some(Physics),
        ..Text::new("for this rod, use and speed; the hold is what the parts take up at the over-rev, times 1.5")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "piston-to-head",
    title: "Piston to head",
    operation: "mock-up",
    why: "At speed the rod stretches, the oil films give, and the piston rocks: cold clearance is what it has to do \
          that in. Wide apart, the squish does nothing and the end of the charge knocks.",
    source: "a factory performance manual: 35 thou at least for steel; trade guides: 50 at least for aluminium rods, \
             46 good, over 60 not; common practice between and by use",
    hold_basis: Some(Published),
    hold_source: Some(
        "trade guidance: 50 thou for aluminium rods, 30 for steel (one engine hit at 22), 33 for titanium; or what \
         the parts take up at the over-rev (stretch, oil clearances, rock) times 1.5, a factor of our own, where that \
         is more",
    ),
    judges: &["piston-to-head"],
    needs: &[USE, ROD],
    takes: &[TOP_SPEED, STROKE, TAKEN_UP],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

/// What an engine is left beside what its parts take up; ours, no source.
const FACTOR: f64 = 1.5;

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let steel = by_use(f, (38.0, 48.0), (38.0, 45.0), (35.0, 42.0));
    let ((low, high), floor) = match f.choice(ROD) {
        Some("aluminium") => ((55.0, 65.0), 50.0),
        Some("titanium") => ((steel.0 + 3.0, steel.1 + 5.0), 33.0),
        _ => (steel, 30.0),
    };
    let faster = faster(f);
    let (low, high) = (thou(low + faster), thou(high + faster));
    let floor = thou(floor);
    let parts = f.get(TAKEN_UP).map_or(0.0, |taken| FACTOR * taken);
    let (never, text) = if parts > floor { (parts, text::TAKEN_UP_BY_PARTS) } else { (floor, text::FLOOR) };
    a.window(work(low.max(never), high.max(never)).never_below(never).levels(Warn, Note).text(text));
    Answered
}

/// Thou to add for speed: one for each 500 rpm past 7,500, as V8 practice has it. A shorter stroke than that V8's pulls
/// on its rods as hard at the speed times the root of the strokes' ratio (r w^2), so its speed counts less.
fn faster(f: &Facts<'_>) -> f64 {
    let stroke = f.get(STROKE).map_or(1.0, |stroke| (stroke / inches(3.75)).min(1.0));
    f.get(TOP_SPEED).map_or(0.0, |speed| ((speed * stroke.sqrt() - rpm(7_500.0)) / rpm(500.0)).max(0.0))
}
