//! Manifold vacuum at idle, for the street and for the cam.

use crate::common::{UNKNOWN_USE, Usage, usage};
use crate::facts::{CYLINDERS, DURATION, USE};
use thou_sdk::prelude::*;

reasons![UNKNOWN_USE, NOT_STREET = "only the street asks for it, and of the cam of six cylinders or more"];

texts![
    STREET = Text {
        low: Remedy::say("Less overlap, or a vacuum pump for the brakes. As it is, it suits a bracket engine."),
        ..Text::new("street")
    },
    CAM = Text {
        low: Remedy::say(
            "Look for a leak under the manifold, the cam's timing, lash and idle ignition: this cam has more than that."
        ),
        ..Text::new("half of what an engine with this duration usually has")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "idle-vacuum",
    title: "Vacuum at idle",
    operation: "hand-over",
    why: "The brakes, the crankcase valve and the carburettor's idle circuits live on it.",
    source: "common practice, no source: 15 inHg with 224 degrees at 0.050 in of lift, 7 with 268, a line between and beyond",
    judges: &["idle.vacuum"],
    needs: &[USE],
    takes: &[CYLINDERS, DURATION],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let Some(usage) = usage(f) else { return CannotSay(reason::UNKNOWN_USE) };
    let mut outcome = NotApplicable(reason::NOT_STREET);
    if usage == Usage::Street {
        a.window(Window::at_least(inches_of_mercury(12.0)).levels(Note, Note).text(text::STREET));
        outcome = Answered;
    }
    // a gauge follows each breath of fewer cylinders, and many a four has a throttle each
    let steady = f.get(CYLINDERS).is_some_and(|n| n >= 6.0);
    if let Some(duration) = f.get(DURATION).filter(|_| steady) {
        let usual = 15.0 - 8.0 * (duration - degrees(224.0)) / degrees(44.0);
        a.window(Window::at_least(inches_of_mercury((usual / 2.0).clamp(1.5, 9.0))).text(text::CAM));
        outcome = Answered;
    }
    outcome
}
