//! End play of the crank.

use crate::common::{by_use, contact, roller, touches, work};
use crate::facts::{BEARING, USE};
use thou_sdk::prelude::*;

reasons![ROLLER = "a crank in rollers is located by them: its maker says how much"];

const DRESS: Option<Remedy> =
    Remedy::say("Dress the thrust shell, never the crank's face, and find out why it closed.");

texts![
    SHOP = Text {
        low: DRESS,
        high: Remedy::say("Swap the thrust shell; look at the crank's face first."),
        ..Text::new("for this use; transbrakes and heavy clutches want the loose side")
    },
    CONTACT = Text { low: DRESS, ..contact("contact: no room for a film on the thrust faces") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "end-play",
    title: "Crank end play",
    operation: "crank",
    why: "The clutch or converter pushes the crank against one face: no room and the face has no oil, too much and \
          the rods are dragged along.",
    source: "common practice, no source; makers' figures by engine: 1.5 to 12.6 thou",
    hold_basis: Some(Practice),
    hold_source: Some(
        "common practice, no source: under 1.2 thou on the street, 2 raced, over 15; contact: half a thou, a film of a \
         quarter on each face, from memory",
    ),
    judges: &["crank.end-play"],
    needs: &[USE],
    takes: &[BEARING],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if roller(f) {
        return NotApplicable(reason::ROLLER);
    }
    let (low, high) = by_use(f, (2.5, 8.0), (5.0, 9.0), (6.0, 10.0));
    let never = by_use(f, 1.2, 2.0, 2.0);
    a.window(work(thou(low), thou(high)).never_below(thou(never)).never_above(thou(15.0)).text(text::SHOP));
    a.window(touches(thou(0.5)).text(text::CONTACT));
    Answered
}
