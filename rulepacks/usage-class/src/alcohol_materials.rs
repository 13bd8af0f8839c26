//! Alcohol against what the fuel system is made of.

use crate::facts::{FUEL, FUEL_SEALS};
use thou_sdk::prelude::*;

reasons![NO_ALCOHOL = "no alcohol in the fuel to speak of"];

texts![
    PETROL_SEALS = Text {
        low: Remedy::say(
            "Alcohol-proof seals, diaphragms, hoses, filter and tank all through, plated parts; or petrol. As it \
                 is, the fuel system suits petrol alone.",
        ),
        points_at: &["fuel", "fuel.seals"],
        ..Text::new("alcohol through petrol seals")
    },
    UNKNOWN_SEALS = Text {
        low: Remedy::say("Look what the seals, diaphragms, hoses and filter are made of, and write it in fuel.seals."),
        points_at: &["fuel"],
        ..Text::new("alcohol, and the sheet does not say what the seals are")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "alcohol-materials",
    title: "Alcohol and the fuel system",
    operation: "combination",
    why: "Alcohol swells petrol seals and eats bare aluminium, magnesium and zinc: needles stick, jets fill with jelly, \
          and the engine goes lean or floods. Methanol burns without a flame that shows.",
    source: "common practice, no source, as makers of alcohol carburettors and pumps have it",
    needs: &[FUEL],
    takes: &[FUEL_SEALS],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::FINDING
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(FUEL, &["e85", "ethanol", "methanol"]) {
        return NotApplicable(reason::NO_ALCOHOL);
    }
    match f.choice(FUEL_SEALS) {
        Some("alcohol-proof") => return Clear,
        Some(_) => a.finding(Warn, text::PETROL_SEALS, &[]),
        None => a.finding(Note, text::UNKNOWN_SEALS, &[]),
    }
    Answered
}
