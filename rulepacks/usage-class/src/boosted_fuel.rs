//! Pump petrol under boost: its octane, its mixture and how warm it comes in.

use crate::common::PRESSED;
use crate::facts::{ADDER, ADDER_COOLED, BOOST, FUEL, LAMBDA, OCTANE};
use thou_sdk::prelude::*;

reasons![NOT_BOOSTED = "no pump petrol under boost"];

texts![
    LOW_OCTANE = Text {
        low: Remedy::say("Premium, or less boost; write in fuel.octane what it is really run on."),
        points_at: &["fuel.octane", "boost"],
        ..Text::new("less than 91 under boost")
    },
    WARM = Text {
        low: Remedy::say("A cooler for the charge, water or alcohol in it, race petrol or E85; or less boost."),
        points_at: &["adder.cooled", "boost"],
        ..Text::new("more than 7 psi of a charge that nothing cools")
    },
    LEAN = Text {
        low: Remedy::say("Richer at full boost, and by the probe; or correct fuel.lambda."),
        points_at: &["fuel.lambda.stated"],
        ..Text::new("leaner at full boost than 0.92")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "boosted-fuel",
    title: "Pump petrol under boost",
    operation: "combination",
    why: "Boost, heat and a lean mixture add up in the last of the charge, and the rings pay for the sum.",
    source: "common practice, no source: premium, cooled from 7 psi, lambda 0.75 to 0.88",
    needs: &[FUEL],
    takes: &[ADDER, BOOST, ADDER_COOLED, OCTANE, LAMBDA],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(ADDER, PRESSED) || !f.is(FUEL, &["petrol-pump"]) {
        return NotApplicable(reason::NOT_BOOSTED);
    }
    let warm = f.flag(ADDER_COOLED) == Some(false) && f.get(BOOST).is_some_and(|boost| boost > psi(7.0));
    let mut outcome = Clear;
    for (wrong, text) in [
        (f.get(OCTANE).is_some_and(|octane| octane < 91.0), text::LOW_OCTANE),
        (warm, text::WARM),
        (f.get(LAMBDA).is_some_and(|lambda| lambda > 0.92), text::LEAN),
    ] {
        if wrong {
            a.finding(Warn, text, &[]);
            outcome = Answered;
        }
    }
    outcome
}
