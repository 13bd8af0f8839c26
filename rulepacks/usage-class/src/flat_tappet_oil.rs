//! Oil for flat lifters.

use crate::facts::{ADDITIVE, LIFTER, VALVETRAIN};
use thou_sdk::prelude::*;

reasons![NOT_FLAT = "no flat lifters on a pushrod cam"];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "flat-tappet-oil",
    title: "Oil for flat lifters",
    operation: "assembly",
    why: "A flat lifter slides on its lobe under more load than any bearing has: it lives on what the oil lays down there, and today's \
          oils for cars lay down little.",
    source: "common practice, no source: an oil or an additive for flat tappets, at the run-in above all",
    takes: &[LIFTER, VALVETRAIN, ADDITIVE],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say(
            "An oil for flat tappets, or its additive, from the first start; write which in oil.additive.",
        ),
        points_at: &["lifter.type"],
        ..Text::new("flat lifters, and the sheet names no additive for them")
    }],
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(LIFTER, &["flat-hydraulic", "flat-solid"]) || !f.is(VALVETRAIN, &["pushrod"]) {
        return NotApplicable(reason::NOT_FLAT);
    }
    if f.flag(ADDITIVE).is_some() {
        return Clear;
    }
    a.finding(Warn, TextNumber(0), &[]);
    Answered
}
