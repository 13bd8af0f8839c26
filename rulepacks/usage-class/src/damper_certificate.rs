//! The damper's certificate.

use crate::facts::{DAMPER, SANCTIONED};
use thou_sdk::prelude::*;

reasons![NOT_SANCTIONED = "no sanctioning body looks at it", NO_DAMPER = "it has no damper"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "damper-certificate",
    title: "Damper certificate",
    operation: "hand-over",
    why: "A damper that bursts goes through the hood and the driver's legs; the certificate says until when its maker \
          stands for it.",
    basis: Standard,
    source: "the certificate's own date; whether one is asked for says this year's book of your own sanctioning body",
    judges: &["damper.certificate-left"],
    takes: &[SANCTIONED, DAMPER],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say(
            "Have it inspected again, or a new one, before the next event. Without it the engine suits use outside a sanctioned class.",
        ),
        ..Text::new("a month to go at least")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.flag(SANCTIONED) != Some(true) {
        return NotApplicable(reason::NOT_SANCTIONED);
    }
    if f.is(DAMPER, &["none"]) {
        return NotApplicable(reason::NO_DAMPER);
    }
    a.window(Window::at_least(months(1.0)).never_below(0.0));
    Answered
}
