//! The clamp that is stated against the torque that is to make it.

use crate::facts::{HEAD_CLAMP, HEAD_DIAMETER, HEAD_METHOD, HEAD_TORQUE};
use thou_sdk::prelude::*;

reasons![NOT_BY_TORQUE = "no torque, clamp and thread of the head fasteners to set against one another"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "nut-factor",
    title: "Clamp for the torque",
    operation: "assembly",
    why: "The head is held by the clamp, and the wrench reads torque: where the two do not belong together, the joint is not what \
          its figures say.",
    source: "Shigley's Mechanical Engineering Design, table 8-15, from memory: 0.09 with the best of lubricants, 0.20 as it comes; common practice, \
             no source, 0.10 to 0.20 with what engines are put together with",
    judges: &["head-fastener.nut-factor"],
    takes: &[HEAD_TORQUE, HEAD_CLAMP, HEAD_DIAMETER, HEAD_METHOD],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say("Look at torque, clamp and thread again: no lubricant makes this clamp of this torque."),
        high: Remedy::say(
            "Look at torque, clamp and thread again: the torque makes more clamp than this, and may yield the fastener.",
        ),
        ..Text::new("torque over clamp and diameter")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    let known = [HEAD_TORQUE, HEAD_CLAMP, HEAD_DIAMETER].into_iter().all(|fact| f.get(fact).is_some());
    if !known || f.is(HEAD_METHOD, &["angle", "stretch", "yield"]) {
        return NotApplicable(reason::NOT_BY_TORQUE);
    }
    a.window(Window::between(0.10, 0.20));
    Answered
}
