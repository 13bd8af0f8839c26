//! The first of the certificates to lapse.

use crate::facts::{CERTIFICATES, SANCTIONED};
use thou_sdk::prelude::*;

reasons![NONE = "no certificates on the sheet"];

texts![
    SANCTIONED = Text {
        low: Remedy::say("Have the part inspected again, or a new one, before the next event."),
        ..Text::new("until the first certificate lapses, of an engine that a body looks at")
    },
    UNSANCTIONED = Text {
        low: Remedy::say("Have the part inspected again, or a new one."),
        basis: Some(Practice),
        ..Text::new("until the first certificate lapses; no body looks at this engine")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "certificates",
    title: "Certificates",
    operation: "hand-over",
    why: "A stamp says until when its maker stands for a part that can come through the floor.",
    basis: Standard,
    source: "the certificates' own dates; whether they are asked for says this year's book of your own sanctioning body",
    judges: &["certificates.left"],
    takes: &[CERTIFICATES, SANCTIONED],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if f.get(CERTIFICATES).is_none_or(|count| count < 0.5) {
        return NotApplicable(reason::NONE);
    }
    a.window(if f.flag(SANCTIONED) == Some(true) {
        Window::at_least(months(1.0)).never_below(0.0).text(text::SANCTIONED)
    } else {
        Window::at_least(0.0).text(text::UNSANCTIONED)
    });
    Answered
}
