//! What hangs on the crank at the balancer.

use crate::facts::{BALANCE, BALANCE_FITTED};
use thou_sdk::prelude::*;

reasons![INTERNAL = "balanced internally"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "external-fitted",
    title: "External weights at the balancer",
    operation: "crank",
    why: "A crank that wants weights outside is out by all of them without its own damper and flexplate, and theirs differ.",
    source: "common practice, no source",
    needs: &[BALANCE],
    takes: &[BALANCE_FITTED],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say("Spin it with its own damper and flexplate on, and write in balance.fitted that they were."),
        points_at: &["balance.kind"],
        ..Text::new("balanced externally, and the sheet does not say what was on the crank")
    }],
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(BALANCE, &["external"]) {
        return NotApplicable(reason::INTERNAL);
    }
    if f.flag(BALANCE_FITTED).is_some() {
        return Clear;
    }
    a.finding(Warn, TextNumber(0), &[]);
    Answered
}
