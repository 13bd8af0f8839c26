//! How straight the crank is.

use crate::common::{by_use, roller};
use crate::facts::{BEARING, MAIN_CLEARANCE, USE};
use thou_sdk::prelude::*;

const SEND: Option<Remedy> = Remedy::say(
    "Send it out to be straightened, and crack tested again afterwards; read {place} again on the same blocks.",
);

texts![
    END_MAINS = Text { high: SEND, ..Text::new("total reading, on the end mains") },
    THIRD_OF_CLEARANCE = Text { high: SEND, ..Text::new("total reading: a third of this main's own clearance") },
    BUILT_UP = Text {
        basis: Some(Published),
        high: Remedy::say("True the crank: tap the flywheels until both ends agree, and read it again."),
        ..Text::new("total reading of a built-up crank, as service manuals have it")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "crank-straightness",
    title: "Crank straightness",
    operation: "crank",
    why: "What the crank is out, every main has less of its clearance once a turn.",
    source: "common practice, no source; factory service manuals, several makers (1984 to 2008): 1.2 to 2.4 thou; \
             built-up cranks to 2.0 and 3.1 worn",
    judges: &["crank.straightness"],
    needs: &[USE],
    takes: &[BEARING, MAIN_CLEARANCE],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if roller(f) {
        let new = Window::at_most(mm(0.03)).never_above(mm(0.10)).text(text::BUILT_UP);
        a.window(new);
        a.window(Window { high: Some(mm(0.05)), ..new }.reuse());
        return Answered;
    }
    let high = by_use(f, thou(2.0), thou(1.0), thou(1.0));
    let clearances = f.all(MAIN_CLEARANCE);
    if clearances.is_empty() {
        a.window(Window::at_most(high).never_above(thou(3.0)).text(text::END_MAINS));
    }
    for (place, clearance) in (0u32..).zip(clearances) {
        let third = clearance / 3.0;
        let (high, text) = if third < high { (third, text::THIRD_OF_CLEARANCE) } else { (high, text::END_MAINS) };
        a.window(Window::at_most(high).never_above(thou(3.0)).at(place).text(text));
    }
    Answered
}
