//! Octane in the tank against what the modelled cycle asks for.

use crate::common::{PETROL, PRESSED};
use crate::facts::{ADDER, FUEL, OCTANE_GIVEN};
use thou_sdk::prelude::*;

reasons![
    ALCOHOL = "alcohol is not rated by its octane number: its evaporation cools the charge, see fuel.charge-cooling",
    LATER_TIMING = "a pressed charge, or nitrous, is timed later than for most power, which this cycle does not know",
    OUTSIDE_THE_FIT = "the formula was fitted to octane numbers of 80 to 100: compare with a known good engine",
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
    needs: &[FUEL, OCTANE_GIVEN],
    takes: &[ADDER],
    reasons: REASONS,
    texts: &[Text {
        low: Remedy::say(
            "The cycle asks for more octane than this petrol has: more of it, less compression, a cooler charge, or \
             power given away in the timing. The model is good to some five numbers: a known good engine of this kind \
             says more.",
        ),
        ..Text::new("octane given less octane needed, by a model good to some five numbers; three in hand")
    }],
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
    if !(80.0..=100.0).contains(&f.of(OCTANE_GIVEN)) {
        return NotApplicable(reason::OUTSIDE_THE_FIT);
    }
    a.window(Window::at_least(0.0).aim(3.0));
    Answered
}
