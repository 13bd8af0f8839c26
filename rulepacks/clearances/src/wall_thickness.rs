//! Metal left behind the bore.

use crate::common::{added, by_use};
use crate::facts::{ADDER, BLOCK, BORE, FILL, USE};
use thou_sdk::prelude::*;

judges![THRUST = "bore.wall.thrust", ANYWHERE = "bore.wall.minimum"];

reasons![SLEEVED = "the bore runs in a sleeve or on plating: the wall that counts is the sleeve maker's"];

texts![
    THRUST = Text {
        low: Remedy::say("Sleeve {place}, fill the block, go up less, or shift the bore towards the thick side."),
        ..Text::new("on the thrust side, finished")
    },
    ANYWHERE = Text {
        low: Remedy::say("Sleeve {place}, go up less, or shift the bore towards the thick side."),
        ..Text::new("anywhere around the bore")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "wall-thickness",
    title: "Cylinder wall",
    operation: "block",
    why: "The piston leans on the thrust wall at every firing: a thin one breathes, the rings lose it, and in the end \
          it cracks into the water.",
    source: "common practice, no source, in proportion to the bore; trade articles call 0.125 in the thinnest to keep in a \
             V8; small fours are cast at 0.100 to 0.120",
    judges: JUDGES,
    needs: &[USE],
    takes: &[ADDER, BLOCK, FILL, BORE],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(BLOCK, &["aluminium-sleeved", "aluminium-plated"]) {
        return NotApplicable(reason::SLEEVED);
    }
    let bore = f.get(BORE).unwrap_or(inches(4.0));
    let filled = f.is(FILL, &["half", "full"]);
    let breathing = by_use(f, 0.035, 0.045, 0.050);
    let (thrust, never) = match (added(f), filled) {
        (true, false) => (0.055, 0.031),
        (true, true) => (breathing, 0.031),
        _ => (breathing, 0.025),
    };
    a.window(Window::at_least(thrust * bore).never_below(never * bore).judging(judged::THRUST).text(text::THRUST));
    a.window(Window::at_least(0.025 * bore).judging(judged::ANYWHERE).text(text::ANYWHERE));
    Answered
}
