//! End clearance of the oil pump.

use crate::common::{TOUCH, contact, touches};
use thou_sdk::prelude::*;

const LAP: Option<Remedy> = Remedy::say("Lap the gears, or shim the cover.");

texts![
    SHOP = Text {
        low: LAP,
        high: Remedy::say("Lap the body down to the gears, or swap the pump."),
        ..Text::new("gears below the body")
    },
    CONTACT = Text { low: LAP, ..contact("contact: the gears rub on the cover") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "oil-pump",
    title: "Oil pump end clearance",
    operation: "assembly",
    why: "The pump leaks over the ends of its gears first: every thou there is oil that goes round instead of up.",
    hold_basis: Some(Practice),
    hold_source: Some("common practice, no source: under 0.5 thou, over 6; contact: the gears rub"),
    judges: &["oil-pump.end-clearance"],
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(_: &Facts<'_>, a: &mut Answer) -> Outcome {
    let end = Window::between(thou(1.0), thou(4.0)).aim(thou(2.0));
    a.window(end.never_below(thou(0.5)).never_above(thou(6.0)).text(text::SHOP));
    a.window(touches(TOUCH).text(text::CONTACT));
    Answered
}
