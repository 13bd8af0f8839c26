//! Oil clearance of the cam.

use crate::common::{TOUCH, contact, touches};
use crate::facts::CAM_IN;
use thou_sdk::prelude::*;

const SCRAPE: Option<Remedy> = Remedy::say("Scrape or hone the bearing of {place} until the cam turns by hand.");

reasons![NEEDLES = "needles: there is no oil clearance"];

texts![
    SHOP = Text {
        low: SCRAPE,
        high: Remedy::say("Swap the bearing of {place}; look at the journal and the tunnel."),
        ..Text::new("on diameter")
    },
    CONTACT = Text { low: SCRAPE, ..contact("contact: the cam binds") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "cam-bearing",
    title: "Cam bearing clearance",
    operation: "block",
    why: "A cam that binds in its tunnel shears its drive; a loose one drains the gallery that feeds the mains.",
    source: "common practice, no source; factory service manuals: 0.9 to 3.8 thou",
    hold_basis: Some(Practice),
    hold_source: Some("common practice, no source: under 0.5 thou, over 6; contact: the cam binds"),
    judges: &["cam-bearing.clearance"],
    takes: &[CAM_IN],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(CAM_IN, &["needle"]) {
        return NotApplicable(reason::NEEDLES);
    }
    a.window(Window::between(thou(1.0), thou(4.0)).never_below(thou(0.5)).never_above(thou(6.0)).text(text::SHOP));
    a.window(touches(TOUCH).text(text::CONTACT));
    Answered
}
