//! Octane that the engine needs beside what it is given, and the clamp on the head at the modelled pressure.

use super::cylinder::{AT_POWER, AT_TORQUE, Cycles, Solved};
use crate::builder::Builder;
use crate::typed::{Si, Unavailable};
use std::sync::Arc;
use thou_mechanics::bolt;
use thou_mechanics::knock::{self, EndGas, Octane};
use thou_sheet::Axis::One;
use uom::si::f64::{Force, Length, Pressure, Ratio, ThermodynamicTemperature as Temperature};

const END_GAS: &str = "the cycle of cylinder.modelled-peak; unburned charge compressed without loss, Livengood and Wu \
     1955, Douaud and Eyzat 1978 (SAE 780080), petrols of 80 to 100 octane";
const ALCOHOL: &str = "the formula is for petrols, and alcohol is not rated by it: see fuel.charge-cooling for what its \
     evaporation takes out of the charge, and go by a known good engine";

fn needed(s: &Solved) -> Result<Ratio, Unavailable> {
    if !s.petrol {
        return Err(Unavailable::Outside(ALCOHOL));
    }
    // as low and as high as the formula was fitted
    let (low, high) = (*knock::CALIBRATED.start(), *knock::CALIBRATED.end());
    Ok(Ratio::si(match s.end_gas().octane_needed() {
        Octane::Within(number) => number,
        Octane::Below(_) => low,
        Octane::Above(_) => high,
    }))
}

pub(super) fn facts(b: &mut Builder, cycles: &Arc<Cycles>) {
    octane(b, cycles);
    clamp(b);
}

fn octane(b: &mut Builder, cycles: &Arc<Cycles>) {
    let (low, high) = (*knock::CALIBRATED.start(), *knock::CALIBRATED.end());
    b.derive(
        "end-gas.temperature",
        "temperature",
        One,
        "Greatest temperature of the charge before the flame reaches it, at power.",
        END_GAS,
        AT_POWER,
        cycles.read(|s| Temperature::si(s.end_gas().temperature)),
    );
    b.derive(
        "end-gas.pressure",
        "pressure",
        One,
        "Pressure at that moment.",
        END_GAS,
        AT_POWER,
        cycles.read(|s| Pressure::si(s.end_gas().pressure)),
    );
    b.stated("fuel.ron", "octane", "fuel.ron", "Research octane.");
    b.stated("fuel.mon", "octane", "fuel.mon", "Motor octane.");
    b.usual(
        "octane.motor-share",
        "ratio",
        "How much of the difference between research and motor octane this engine feels: half is the mean on the pump.",
        "Kalghatgi 2001 (SAE 2001-01-3584), from memory",
        ["adder"],
        |words| match words {
            ["turbo" | "blower"] => Some((-0.2, 0.4)),
            _ => Some((0.3, 0.6)),
        },
    );
    b.derive(
        "octane.given",
        "octane",
        One,
        "Octane of the fuel as this engine feels it.",
        "octane index, RON less K of the sensitivity; Kalghatgi 2001 (SAE 2001-01-3584)",
        ["fuel.ron", "fuel.mon", "octane.motor-share"],
        |ron: Ratio, mon: Ratio, k: Ratio| Ratio::si(knock::octane_index(ron.value, mon.value, k.value)),
    )
    .or("mean of research and motor, as the pump has it", ["fuel.octane"], |octane: Ratio| octane);
    b.derive(
        "knock.at-hundred",
        "ratio",
        One,
        "The integral of self-ignition at power for a petrol of 100 octane: to compare engines by; 1 goes off by itself.",
        END_GAS,
        AT_POWER,
        cycles.read(|s| if s.petrol { Ok(Ratio::si(s.end_gas().at_hundred)) } else { Err(Unavailable::Outside(ALCOHOL)) }),
    );
    b.derive(
        "knock.integral",
        "ratio",
        One,
        "The integral of self-ignition at power with this fuel: 1 goes off by itself. Good to some 20 %, and better as a \
         comparison with a known good engine.",
        END_GAS,
        ["knock.at-hundred", "octane.given"],
        |hundred: Ratio, octane: Ratio| {
            if !knock::CALIBRATED.contains(&octane.value) {
                return Err(Unavailable::Outside("the formula was fitted to octane numbers of 80 to 100"));
            }
            let gas = EndGas { temperature: f64::NAN, pressure: f64::NAN, at_hundred: hundred.value };
            Ok(Ratio::si(gas.integral(octane.value)))
        },
    );
    b.derive(
        "octane.needed",
        "octane",
        One,
        "Octane at which the last of the charge just does not go off by itself at power, timed for \
         most power; 80 or less, 100 or more is all that the formula can say there. Good to some five numbers, \
         and better as a comparison with a known good engine.",
        END_GAS,
        AT_POWER,
        cycles.read(needed),
    )
    .clipped(low, high);
    b.derive(
        "octane.needed.at-torque",
        "octane",
        One,
        "The same where the torque is wanted.",
        END_GAS,
        AT_TORQUE,
        cycles.read(needed),
    )
    .clipped(low, high);
    b.derive(
        "octane.margin",
        "octane",
        One,
        "Octane of the fuel over what power and, where it is stated, torque need.",
        "difference of two octane numbers",
        ["octane.given", "octane.needed", "octane.needed.at-torque"],
        |given: Ratio, power: Ratio, torque: Option<Ratio>| {
            let needed = torque.map_or(power, |t| t.max(power));
            if needed.value >= *knock::CALIBRATED.end() && given.value > *knock::CALIBRATED.end() {
                return Err(Unavailable::Outside("both are past 100, which the formula was not fitted to"));
            }
            Ok(given - needed)
        },
    );
}

fn clamp(b: &mut Builder) {
    b.derive(
        "gasket.clamp-ratio.modelled",
        "ratio",
        One,
        "Clamp round a cylinder over what lifts the head there, at the modelled peak pressure.",
        "clamp over peak pressure on the gasket's own bore, which is where it seals; static",
        ["head-fastener.count", "head-fastener.clamp", "cylinder.peak-pressure", "gasket.bore"],
        |count: Ratio, clamp: Force, pressure: Pressure, bore: Length| {
            let lift = bolt::lift_off(pressure.value, bore.value);
            Ratio::si(bolt::clamp_ratio(count.value, clamp.value, lift))
        },
    );
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use crate::value::Bound;
    use crate::{Catalogue, SheetFacts};
    use std::path::Path;
    use thou_sheet::Sheet;

    #[test]
    fn past_its_fit_the_octane_is_a_bound_and_what_is_made_of_it_too() {
        let text = include_str!("../../../../sample-builds/street.json");
        let sheet = Sheet::parse_unheld("street.json", text, Path::new(".")).map_err(|e| e.to_string()).unwrap();
        let facts = SheetFacts::new(Catalogue::standard(), &sheet);
        let [power, torque, margin] = ["octane.needed", "octane.needed.at-torque", "octane.margin"];
        let known = |facts: &SheetFacts<'_>, id: &str| facts.one(id).map(|n| (n.value, n.bound)).unwrap();
        // 80 is the least that the formula says, and the torque asks for more: the margin is a figure
        assert_eq!(known(&facts, power), (80.0, Some(Bound::OrLess)));
        assert_eq!(known(&facts, torque).1, None);
        assert_eq!(known(&facts, margin), (92.0 - known(&facts, torque).0, None));
        // 14 : 1 on 92 octane asks for more than the formula can say
        let squeezed = facts.values_with(&[("compression.mean", 0, 14.0)]);
        assert_eq!(known(&squeezed, torque), (100.0, Some(Bound::OrMore)));
        assert_eq!(known(&squeezed, margin), (-8.0, Some(Bound::OrLess)));
        // nothing to speak of: both are under what the formula says, and what is in hand is so much or more
        let eased = facts.values_with(&[("compression.mean", 0, 7.0)]);
        assert_eq!(known(&eased, margin), (12.0, Some(Bound::OrMore)));
    }
}
