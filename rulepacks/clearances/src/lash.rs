//! Lash of solid lifters, cold and as it will be hot.

use crate::facts::{LIFTER, VALVETRAIN};
use thou_sdk::prelude::*;

const SET: Option<Remedy> = Remedy::solve(
    "Set {place} to {solve} cold; read this engine's own growth once, hot against cold, and keep it.",
    "lash.cold",
    "either",
);

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "lash",
    title: "Valve lash",
    operation: "assembly",
    why: "The card's lash is a hot one, and a block and heads of aluminium open it as they warm: set cold by the card \
          it runs wide and hammers; set cold with nothing left, it holds the valve off its seat until it burns.",
    basis: Published,
    source: "a cam maker's page: hot lash no more than 4 thou over or 8 under the card; growth by a cam maker's \
             table: -2, +6, +12 thou by block and head",
    hold_basis: Some(Physics),
    hold_source: Some("a valve with no lash cold is held open until the engine is warm"),
    judges: &["lash.cold", "lash.hot.difference"],
    needs: &[VALVETRAIN],
    takes: &[LIFTER],
    reasons: &[
        "hydraulic lifters take up their own lash",
        "no pushrods: these valves have their own rule",
        "the sheet does not name the lifters (valvetrain.lifter)",
    ],
    texts: &[
        Text { low: SET, ..Text::new("cold, with the engine as cold as it is ever started") },
        Text { low: SET, high: SET, ..Text::new("hot, as the growth has it, over the cam card's") },
    ],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(VALVETRAIN, &["bucket", "finger"]) {
        return NotApplicable(1);
    }
    if f.get(LIFTER).is_none() {
        return CannotSay(2);
    }
    if !f.is(LIFTER, &["flat-solid", "roller-solid"]) {
        return NotApplicable(0);
    }
    let held_open = thou(2.0);
    a.window(Window::at_least(held_open).never_below(held_open));
    a.window(Window::between(thou(-8.0), thou(4.0)).aim(0.0).judging(1).text(1));
    Answered
}
