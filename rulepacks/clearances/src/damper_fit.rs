//! The damper's hub on the crank's snout.

use crate::facts::{DAMPER, HUB};
use thou_sdk::prelude::*;

reasons![NO_DAMPER = "no damper"];

const SWAP: Option<Remedy> = Remedy::say("Swap the hub, or have the snout plated and ground.");
const HONE: Option<Remedy> = Remedy::say("Hone the hub.");

texts![
    PRESSED = Text { low: SWAP, high: HONE, ..Text::new("interference of a pressed hub, in hand against snout") },
    CLAMPED = Text {
        low: SWAP,
        high: HONE,
        ..Text::new("interference, hub in hand against snout: the bolt or the taper holds it, so it may slip on")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "damper-fit",
    title: "Damper on the snout",
    operation: "crank",
    why: "A hub that can move on the snout does not damp, frets it, and works its key and bolt loose.",
    source: "common practice, no source; a damper maker as quoted on a list: 0.7 to 0.9 thou for steel hubs",
    hold_basis: Some(Practice),
    hold_source: Some(
        "common practice, no source: a pressed hub, or one that the sheet says nothing of, without interference; any over \
         2.5 thou",
    ),
    judges: &["damper.interference"],
    takes: &[DAMPER, HUB],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.is(DAMPER, &["none"]) {
        return NotApplicable(reason::NO_DAMPER);
    }
    let window = if f.is(HUB, &["clamped"]) {
        Window::between(thou(-1.0), thou(1.5)).text(text::CLAMPED)
    } else {
        Window::between(thou(0.5), thou(1.5)).aim(thou(0.8)).never_below(0.0).text(text::PRESSED)
    };
    a.window(window.never_above(thou(2.5)));
    Answered
}
