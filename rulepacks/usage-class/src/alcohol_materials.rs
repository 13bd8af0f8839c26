//! Alcohol against what the fuel system is made of.

use crate::facts::{FUEL, FUEL_SEALS};
use thou_sdk::prelude::*;

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "alcohol-materials",
    title: "Alcohol and the fuel system",
    operation: "combination",
    why: "Alcohol swells petrol seals and eats bare aluminium, magnesium and zinc: needles stick, jets fill with jelly, \
          and the engine goes lean or floods. Methanol burns without a flame that shows.",
    basis: Published,
    source: "makers' instructions for alcohol carburettors and pumps, from memory",
    needs: &[FUEL],
    takes: &[FUEL_SEALS],
    reasons: &["no alcohol in the fuel to speak of"],
    texts: &[
        Text {
            low: Remedy::say(
                "Alcohol-proof seals, diaphragms, hoses, filter and tank all through, plated parts; or petrol. As it \
                 is, the fuel system suits petrol alone.",
            ),
            points_at: &["fuel", "fuel.seals"],
            ..Text::new("alcohol through petrol seals")
        },
        Text {
            low: Remedy::say(
                "Look what the seals, diaphragms, hoses and filter are made of, and write it in fuel.seals.",
            ),
            points_at: &["fuel"],
            ..Text::new("alcohol, and the sheet does not say what the seals are")
        },
    ],
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(FUEL, &["e85", "ethanol", "methanol"]) {
        return NotApplicable(0);
    }
    match f.choice(FUEL_SEALS) {
        Some("alcohol-proof") => return Clear,
        Some(_) => a.finding(Warn, 0, &[]),
        None => a.finding(Note, 1, &[]),
    }
    Answered
}
