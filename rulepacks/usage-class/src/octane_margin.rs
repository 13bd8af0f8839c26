//! Octane in the tank against what the modelled cycle asks for.

use crate::common::{PETROL, PRESSED};
use crate::facts::{ADDER, FUEL, OCTANE_GIVEN, OCTANE_NEEDED, OCTANE_NEEDED_AT_TORQUE};
use thou_sdk::prelude::*;

reasons![
    ALCOHOL = "alcohol is not rated by its octane number: its evaporation cools the charge, see fuel.charge-cooling",
    LATER_TIMING = "a pressed charge, or nitrous, is timed later than for most power, which this cycle does not know",
    OUTSIDE_THE_FIT = "the formula was fitted to octane numbers of 80 to 100: compare with a known good engine",
];

texts![
    WITHIN = Text {
        low: Remedy::say(
            "The cycle asks for more octane than this petrol has: more of it, less compression, a cooler charge, or \
             power given away in the timing. The model is good to some five numbers: a known good engine of this kind \
             says more.",
        ),
        ..Text::new("octane given less octane needed, by a model good to some five numbers; three in hand")
    },
    PAST_THE_FIT = Text {
        low: Remedy::say(
            "The cycle asks for more than 100, past what the formula was fitted to: this petrol is short by so much or \
             more. Race petrol, less compression, a cooler charge, or alcohol.",
        ),
        ..Text::new(
            "octane given less 100: the cycle needs that or more, so it is short by this or more; three in hand"
        )
    },
];

/// The rule.
pub(crate) const RULE: Rule = Rule {
    id: "octane-margin",
    title: "Octane in hand",
    operation: "combination",
    why: "The last of the charge waits for the flame under all the pressure there is; what it needs grows with the \
          charge trapped and with the time it has, so full throttle at the torque peak asks for most.",
    basis: Published,
    source: "Livengood and Wu 1955 with Douaud and Eyzat 1978 (SAE 780080), on a one-zone cycle timed for most power",
    judges: &["octane.margin"],
    needs: &[FUEL],
    takes: &[ADDER, OCTANE_GIVEN, OCTANE_NEEDED, OCTANE_NEEDED_AT_TORQUE],
    reasons: REASONS,
    texts: TEXTS,
    assess,
    ..Rule::WINDOW
};

fn assess(f: &Facts<'_>, a: &mut Answer) -> Outcome {
    if !f.is(FUEL, PETROL) {
        return NotApplicable(reason::ALCOHOL);
    }
    if f.is(ADDER, PRESSED) || f.is(ADDER, &["nitrous"]) {
        return NotApplicable(reason::LATER_TIMING);
    }
    // under 80 nothing is better than at 80
    if f.get(OCTANE_GIVEN).is_some_and(|octane| octane > 100.0) {
        return NotApplicable(reason::OUTSIDE_THE_FIT);
    }
    let needed = [OCTANE_NEEDED, OCTANE_NEEDED_AT_TORQUE].map(|fact| f.get(fact));
    let past = needed.into_iter().flatten().any(|octane| octane >= 100.0);
    let text = if past { text::PAST_THE_FIT } else { text::WITHIN };
    a.window(Window::at_least(0.0).aim(3.0).text(text));
    Answered
}
