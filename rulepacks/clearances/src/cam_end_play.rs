//! How far the cam can walk.

use crate::common::{LiftersOf, UNNAMED_LIFTERS};
use crate::facts::{LIFTER, VALVETRAIN};
use thou_sdk::prelude::*;

reasons![
    FLAT_LIFTERS = "the tapered lobes of flat lifters hold the cam back",
    OVERHEAD_CAM = "an overhead cam's end play is its maker's: no common figure is known",
    UNNAMED_LIFTERS,
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "cam-end-play",
    title: "Cam end play",
    operation: "mock-up",
    why: "Nothing but the thrust button holds a roller cam; where it walks, a helical gear turns the ignition and the \
          wheels run on the edge of their lobes.",
    source: "common practice, no source; a trade article: past 10 thou the timing moves",
    judges: &["cam.end-play"],
    needs: &[VALVETRAIN],
    takes: &[LIFTER],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say("Dress the button or the thrust plate, or shim the cover out."),
        high: Remedy::say("Shim the button or swap in a longer one."),
        ..Text::new("with the cover on")
    }],
    assess,
    ..Rule::WINDOW
};

const LIFTERS: LiftersOf = LiftersOf {
    these: &["roller-hydraulic", "roller-solid"],
    others: reason::FLAT_LIFTERS,
    overhead_cam: reason::OVERHEAD_CAM,
    not_named: reason::UNNAMED_LIFTERS,
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if let Some(outcome) = LIFTERS.stop(f) {
        return outcome;
    }
    a.window(Window::between(thou(4.0), thou(10.0)));
    Answered
}
