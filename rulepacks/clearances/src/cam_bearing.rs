//! Oil clearance of the cam.

use crate::common::by_use;
use crate::facts::USE;
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "cam-bearing",
    title: "Cam bearing clearance",
    operation: "block",
    why: "A cam that binds in its tunnel shears its drive; a loose one drains the gallery that feeds the mains.",
    source: "common practice, no source; factory service manuals: 1.0 to 3.0 thou",
    judges: &["cam-bearing.clearance"],
    needs: &[USE],
    texts: &[Text {
        low: Remedy::say("Scrape or hone the bearing of {place} until the cam turns by hand."),
        high: Remedy::say("Swap the bearing of {place}; look at the journal and the tunnel."),
        ..Text::new("on diameter")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    a.window(Window::between(by_use(f, thou(1.0), thou(2.0), thou(2.0)), thou(4.0)));
    Answered
}
