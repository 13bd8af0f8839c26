//! The octane that the compression asks for against what is in the tank.

use crate::common::{PETROL, along};
use crate::compression_for_fuel::{LOOSE, PAST, taken_away};
use crate::facts::{ADDER, ADDER_POWER, BORE, COMPRESSION, CYLINDERS, FUEL, HEAD, VALVES};
use thou_sdk::prelude::*;

reasons![ALCOHOL = "alcohol is not rated by its octane number",];

texts![
    ASKED = Text {
        low: Remedy::say("Buy petrol of {low} or more, {aim} to have three in hand, or bring the compression down."),
        ..Text::new("what this compression asks for, bore, valves, heads and nitrous counted; aim three over it")
    },
    PAST_ALL_PETROL = Text {
        low: Remedy::say("Bring the compression down, or methanol: no petrol of any school stands this much."),
        ..Text::new("more compression than the best petrol stands in any school: this octane would be the least of it")
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "octane-asked",
    title: "Octane asked for",
    operation: "combination",
    why: "Fuel is cheaper than pistons. Three numbers in hand are for a hot day, a lean jet and a drum that stood open.",
    source: "common practice, no source: the compression that each octane stands, read the other way round",
    hold_source: Some(
        "common practice, no source: two ratios past the loosest school on pump petrol, three on race petrol",
    ),
    judges: &["fuel.octane"],
    needs: &[COMPRESSION, FUEL, HEAD, CYLINDERS],
    takes: &[ADDER, ADDER_POWER, BORE, VALVES],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(FUEL, PETROL) {
        return NotApplicable(reason::ALCOHOL);
    }
    // what presses the charge in asks for no less than the same compression without it
    let compression = f.of(COMPRESSION) + taken_away(f).0;
    let turned: Vec<(f64, f64)> = LOOSE.iter().map(|(octane, ratio)| (*ratio, *octane)).collect();
    let asked = along(&turned, compression);
    let past = LOOSE.last().is_some_and(|(_, most)| compression > *most);
    let window = Window::at_least(asked).aim(asked + 3.0).text(if past { text::PAST_ALL_PETROL } else { text::ASKED });
    // the same end as compression-for-fuel has it; what 87 stands by then is no end
    let [pump, race] = PAST;
    let end = compression - if f.is(FUEL, &["petrol-pump"]) { pump } else { race };
    let ends = LOOSE.first().is_some_and(|(_, least)| end > *least);
    a.window(if ends { window.never_below(along(&turned, end)) } else { window });
    Answered
}
