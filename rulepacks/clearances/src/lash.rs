//! Lash of solid lifters, cold and as it will be hot.

use crate::common::{LiftersOf, TOUCH, UNNAMED_LIFTERS, contact, touches, valves};
use crate::facts::{CARD_LASH_EXHAUST, CARD_LASH_INLET, IS_INLET, LASH_GROWTH, LIFTER, VALVETRAIN};
use thou_sdk::prelude::*;

const SET: Option<Remedy> = Remedy::solve(
    "Set {place} to {solve} cold; read this engine's own growth once, hot against cold, and keep it.",
    "lash.cold",
    "either",
);
const READ: Option<Remedy> = Remedy::say(
    "Read this engine's own growth, hot against cold, and set {place} by the card less that; leave 2 thou cold.",
);
const OPEN: Option<Remedy> = Remedy::say(
    "Open the lash of {place} before it is turned: no plan for the hot lash is worth a valve held open cold.",
);
/// Cold, a valve with less than this is off its seat until the engine is warm.
const HELD_OPEN: f64 = thou(2.0);
/// Hot, no more than this over the card.
const OVER: f64 = thou(4.0);

judges![COLD = "lash.cold", HOT_DIFFERENCE = "lash.hot.difference"];

reasons![
    HYDRAULIC = "hydraulic lifters take up their own lash",
    NO_PUSHRODS = "no pushrods: these valves have their own rule",
    UNNAMED_LIFTERS,
];

texts![
    COLD = Text { low: OPEN, ..Text::new("cold, with the engine as cold as it is ever started") },
    CONTACT = Text { low: OPEN, ..contact("contact: the valve is held open cold") },
    NONE_HOT = Text { low: READ, ..contact("contact: nothing is left of the card's lash hot") },
    HOT = Text { low: READ, high: READ, ..Text::new("hot, as the growth has it, over the cam card's") },
    HOT_AND_SHUT_COLD = Text {
        low: SET,
        high: SET,
        ..Text::new("hot, as the growth has it, over the cam card's, and not held open cold")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "lash",
    title: "Valve lash",
    operation: "assembly",
    why: "The card's lash is a hot one, and a block and heads of aluminium open it as they warm: set cold by the card \
          it runs wide and hammers; set cold with nothing left, it holds the valve off its seat until it burns.",
    source: "common practice, no source: a cam maker's page has hot lash no more than 4 thou over or 8 under the card; growth by a cam maker's \
             table: -2, +6, +12 thou by block and head",
    hold_source: Some("common practice, no source: 1.5 thou cold; contact: a valve with no lash is held open"),
    judges: JUDGES,
    needs: &[VALVETRAIN],
    takes: &[LIFTER, LASH_GROWTH, CARD_LASH_INLET, CARD_LASH_EXHAUST, IS_INLET],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

const LIFTERS: LiftersOf = LiftersOf {
    these: &["flat-solid", "roller-solid"],
    others: reason::HYDRAULIC,
    overhead_cam: reason::NO_PUSHRODS,
    not_named: reason::UNNAMED_LIFTERS,
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if let Some(outcome) = LIFTERS.stop(f) {
        return outcome;
    }
    a.window(Window::at_least(HELD_OPEN).never_below(thou(1.5)).judging(judged::COLD).text(text::COLD));
    a.window(touches(TOUCH).judging(judged::COLD).text(text::CONTACT));
    let hot = Window::between(thou(-8.0), OVER).aim(0.0).judging(judged::HOT_DIFFERENCE).text(text::HOT);
    let (Some(growth), Some(inlet), Some(exhaust)) =
        (f.get(LASH_GROWTH), f.get(CARD_LASH_INLET), f.get(CARD_LASH_EXHAUST))
    else {
        a.window(hot);
        return Answered;
    };
    for (place, is_inlet) in valves(f) {
        let card = if is_inlet { inlet } else { exhaust };
        a.window(touches(TOUCH - card).judging(judged::HOT_DIFFERENCE).at(place).text(text::NONE_HOT));
        // A size to set to must not be one that holds the valve open cold.
        let least = HELD_OPEN + growth - card;
        let low = thou(-8.0).max(least);
        if low <= OVER {
            a.window(Window { low: Some(low), aim: Some(low.max(0.0)), ..hot }.at(place).text(text::HOT_AND_SHUT_COLD));
        } else {
            a.window(hot.at(place));
        }
    }
    Answered
}
