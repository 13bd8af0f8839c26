//! Hot oil pressure at working speed.

use crate::facts::{BEARING, MAIN_JOURNAL, RELIEF, WORKING_SPEED};
use thou_sdk::prelude::*;

texts![
    SPEED = Text {
        low: Remedy::say(
            "Find where it goes: clearance, pickup, bypass, oil temperature; or accept it by name as this engine's plan.",
        ),
        ..Text::new("hot, in all, at the speed it works up to")
    },
    RELIEF = Text {
        high: Remedy::say(
            "The relief valve opens long before: look at oil.relief-setting, at the spring in the pump and at the gauge.",
        ),
        ..Text::new("no more than the relief valve lets by, and a quarter")
    },
];

reasons![ROLLING = "rolling bearings live on a trickle, not on pressure"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "oil-pressure",
    title: "Hot oil pressure at working speed",
    operation: "hand-over",
    why: "The oil has to climb out to the crankpins against the crank's own spin before a bearing drinks any of it; what \
          counts beside is that it does not fall against this engine's own. If it falls, shut it off; do not rev it to see.",
    source: "common practice, no source: 10 psi to the 1,000 rpm on mains of 2.45 in, less on smaller ones; a trade article has \
             tight engines on thin oil at half of it on purpose, so a plan of the builder's is accepted by name",
    hold_source: Some(
        "common practice, no source: two fifths of that, about what fills the crank's drillings at speed",
    ),
    judges: &["oil.pressure.at-work"],
    needs: &[WORKING_SPEED],
    takes: &[BEARING, MAIN_JOURNAL, RELIEF],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(BEARING, &["roller"]) {
        return NotApplicable(reason::ROLLING);
    }
    let size = f.get(MAIN_JOURNAL).map_or(1.0, |journal| (journal / inches(2.45)).min(1.0));
    let of = |amount: f64| psi(amount) * f.of(WORKING_SPEED) / rpm(1_000.0) * size;
    a.window(Window::at_least(of(8.0)).aim(of(10.0)).never_below(of(4.0)).text(text::SPEED));
    if let Some(relief) = f.get(RELIEF) {
        a.window(Window::at_most(1.25 * relief).text(text::RELIEF));
    }
    Answered
}
