//! The air of the dyno's room.

use crate::facts::{DYNO_PULLS, ROOM_AIR};
use thou_sdk::prelude::*;

reasons![NOT_STATED = "no pulls, or nothing said of the room's air"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "dyno-room",
    title: "Air of the dyno room",
    operation: "hand-over",
    why: "An engine that breathes its own heat makes less from pull to pull, and one that breathes its own exhaust stops; so does whoever stands in there.",
    source: "common practice, no source: the room no more than 20 K (36 °F) warmer",
    judges: &["dyno.room-rise"],
    takes: &[DYNO_PULLS, ROOM_AIR],
    reasons: REASONS,
    texts: &[Text {
        high: Remedy::say("More air through the room, and a carbon monoxide alarm in it; or correct dyno.room-air."),
        ..Text::new("how much warmer the room's air leaves")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.get(DYNO_PULLS).is_none() || f.flag(ROOM_AIR).is_none() {
        return NotApplicable(reason::NOT_STATED);
    }
    a.window(Window::at_most(20.0));
    Answered
}
