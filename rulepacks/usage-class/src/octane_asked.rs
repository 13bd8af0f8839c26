//! The octane that the compression asks for against what is in the tank.

use crate::common::{PETROL, PRESSED, along};
use crate::compression_for_fuel::{LOOSE, taken_away};
use crate::facts::{ADDER, ADDER_POWER, COMPRESSION, CYLINDERS, FUEL, HEAD};
use thou_sdk::prelude::*;

reasons![
    ALCOHOL = "alcohol is not rated by its octane number",
    BOOSTED = "a pressed charge is another question: see boosted-compression",
    PAST_ALL_PETROL = "more compression than any petrol stands in any school",
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "octane-asked",
    title: "Octane asked for",
    operation: "combination",
    why: "Fuel is cheaper than pistons. Three numbers in hand are for a hot day, a lean jet and a drum that stood open.",
    source: "common practice, no source: the compression that each octane stands, read the other way round",
    judges: &["fuel.octane"],
    needs: &[COMPRESSION, FUEL, HEAD, CYLINDERS],
    takes: &[ADDER, ADDER_POWER],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say(
            "Buy petrol of {low} or more, {aim} to have three in hand, or bring the compression down. With this \
             petrol the compression suits none of the uses.",
        ),
        ..Text::new("what this compression asks for, the heads and the nitrous counted; aim three over it")
    }],
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(FUEL, PETROL) {
        return NotApplicable(reason::ALCOHOL);
    }
    if f.is(ADDER, PRESSED) {
        return NotApplicable(reason::BOOSTED);
    }
    let compression = f.of(COMPRESSION) + taken_away(f).0;
    if LOOSE.last().is_some_and(|(_, most)| compression > *most) {
        return CannotSay(reason::PAST_ALL_PETROL);
    }
    let turned: Vec<(f64, f64)> = LOOSE.iter().map(|(octane, ratio)| (*ratio, *octane)).collect();
    let asked = along(&turned, compression);
    a.window(Window::at_least(asked).aim(asked + 3.0));
    Answered
}
