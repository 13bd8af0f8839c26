//! End play of the crank.

use crate::common::{by_use, roller, work};
use crate::facts::{BEARING, USE};
use thou_sdk::prelude::*;

reasons![ROLLER = "a crank in rollers is located by them: its maker says how much"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "end-play",
    title: "Crank end play",
    operation: "crank",
    why: "The clutch or converter pushes the crank against one face: no room and the face has no oil, too much and \
          the rods are dragged along.",
    source: "common practice, no source; makers' figures by engine: 1.5 to 11 thou",
    judges: &["crank.end-play"],
    needs: &[USE],
    takes: &[BEARING],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say("Dress the thrust shell, never the crank's face, and find out why it closed."),
        high: Remedy::say("Swap the thrust shell; look at the crank's face first."),
        ..Text::new("for this use; transbrakes and heavy clutches want the loose side")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if roller(f) {
        return NotApplicable(reason::ROLLER);
    }
    let (low, high) = by_use(f, (4.0, 8.0), (5.0, 9.0), (6.0, 10.0));
    a.window(work(thou(low), thou(high)).never_below(thou(3.0)).never_above(thou(15.0)));
    Answered
}
