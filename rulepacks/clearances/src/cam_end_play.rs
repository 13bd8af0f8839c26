//! How far the cam can walk.

use crate::common::{LiftersOf, TOUCH, UNNAMED_LIFTERS, contact, touches};
use crate::facts::{LIFTER, RETENTION, VALVETRAIN};
use thou_sdk::prelude::*;

reasons![
    FLAT_LIFTERS = "the tapered lobes of flat lifters hold the cam back",
    OVERHEAD_CAM = "an overhead cam's end play is its maker's: no common figure is known",
    UNNAMED_LIFTERS,
];

const DRESS: Option<Remedy> = Remedy::say("Dress the button or the thrust plate, or shim the cover out.");

texts![
    BUTTON = Text {
        low: DRESS,
        high: Remedy::say("Shim the button or swap in a longer one."),
        ..Text::new("with the cover on")
    },
    PLATE = Text { low: DRESS, high: Remedy::say("Swap the thrust plate."), ..Text::new("in its thrust plate") },
    CONTACT = Text { low: DRESS, ..contact("contact: the cam binds endways") },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "cam-end-play",
    title: "Cam end play",
    operation: "mock-up",
    why: "Nothing but the thrust button holds a roller cam; where it walks, a helical gear turns the ignition and the \
          wheels run on the edge of their lobes.",
    source: "common practice, no source; a trade article: past 10 thou the timing moves; service manual of an \
             aluminium V8 with a thrust plate: 1 to 12",
    hold_basis: Some(Practice),
    hold_source: Some(
        "common practice, no source: under 0.5 thou in a plate, 1 on a button, over 20; contact: the cam binds",
    ),
    judges: &["cam.end-play"],
    needs: &[VALVETRAIN],
    takes: &[LIFTER, RETENTION],
    reasons: REASONS,
    texts: TEXTS,
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
    let window = if f.is(RETENTION, &["plate"]) {
        Window::between(thou(1.0), thou(12.0)).never_below(thou(0.5)).text(text::PLATE)
    } else {
        Window::between(thou(4.0), thou(10.0))
            .never_below(thou(if f.is(RETENTION, &["button"]) { 1.0 } else { 0.5 }))
            .text(text::BUTTON)
    };
    a.window(window.never_above(thou(20.0)));
    a.window(touches(TOUCH).text(text::CONTACT));
    Answered
}
