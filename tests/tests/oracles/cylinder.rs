//! Checks of gases, of the cycle, of knock and of the charge.

use super::Inputs;
use std::f64::consts::PI;
use thou_mechanics::cycle::{Burn, Charge, Cycle, Cylinder, Exchange, Setup, Walls};
use thou_mechanics::gas::{self, Blend, Gas};
use thou_mechanics::ideal::{self, ConstantVolume};
use thou_mechanics::kinematics::Slider;
use thou_mechanics::species::Species;
use thou_mechanics::{charge, geometry, knock};

fn species(name: &str) -> Gas {
    let one = |s: Species| Gas::mixture(&[(s, 1.0)]);
    match name {
        "air" => gas::air(),
        "nitrogen" => one(Species::N2),
        "oxygen" => one(Species::O2),
        "carbon-dioxide" => one(Species::CO2),
        "carbon-monoxide" => one(Species::CO),
        "water" => one(Species::H2O),
        "argon" => one(Species::Ar),
        "hydrogen" => one(Species::H2),
        "iso-octane-vapour" => one(Species::C8H18),
        "toluene-vapour" => one(Species::C7H8),
        "ethanol-vapour" => one(Species::C2H5OH),
        "methanol-vapour" => one(Species::CH3OH),
        other => panic!("no gas '{other}'"),
    }
}

fn fuel(name: &str) -> Blend {
    match name {
        "petrol" => Blend::PETROL,
        "ethanol" => Blend::ETHANOL,
        "methanol" => Blend::METHANOL,
        "iso-octane" => Blend { iso_octane: 1.0, ..Blend::EMPTY },
        "toluene" => Blend { toluene: 1.0, ..Blend::EMPTY },
        "e85" => Blend::petrol_with_ethanol(0.858),
        other => panic!("no fuel '{other}'"),
    }
}

fn gas_of(x: &Inputs<'_>) -> Gas {
    match x.text("gas") {
        "mixed" => fuel(x.text("fuel")).mixed(x.get("richness")),
        "burned" => fuel(x.text("fuel")).burned(x.get("richness")),
        name => species(name),
    }
}

/// The cycle that another program solved too; what it does not name is the same in all of them.
fn cycle(x: &Inputs<'_>) -> Cycle {
    let (bore, slider) = (x.get("bore"), Slider::new(x.get("stroke"), x.get("rod")));
    let fuel = fuel(x.text("fuel"));
    let (richness, residual) = (x.get("richness"), x.get("residual"));
    let setup = Setup {
        cylinder: Cylinder {
            bore,
            slider,
            clearance: geometry::swept_volume(bore, slider.stroke()) / (x.get("compression") - 1.0),
            crevice: x.get("crevice"),
            inlet_closing: x.get("inlet-closing"),
            exhaust_opening: x.get("exhaust-opening"),
        },
        charge: Charge {
            unburned: fuel.mixed(richness).with(&fuel.burned(richness), residual),
            burned: fuel.burned(richness),
            temperature: x.get("charge"),
        },
        burn: Burn {
            half: x.get("half-burned"),
            duration: x.get("duration"),
            form: 2.0,
            efficiency: x.get("efficiency"),
        },
        walls: Walls { temperature: x.get("walls"), scale: 1.0 },
        exchange: Exchange { inlet: 1e5, exhaust: 1.1e5 },
        speed: x.get("crank"),
    };
    setup.with_mass(x.get("mass")).unwrap()
}

/// Squeezed at constant speed in a given time, without loss: the charge of a check of the integral.
fn squeezed(x: &Inputs<'_>) -> f64 {
    let (ratio, exponent, start, time) = (x.get("ratio"), x.get("exponent"), x.get("start"), x.get("time"));
    let steps = 20_000_u32;
    let states = (0..=steps).map(|n| {
        let volume = 1.0 - f64::from(n) / f64::from(steps) * (1.0 - 1.0 / ratio);
        (101_325.0 * volume.powf(-exponent), start * volume.powf(1.0 - exponent))
    });
    knock::integral(x.get("octane"), time / f64::from(steps), states)
}

fn constant_volume(x: &Inputs<'_>) -> ConstantVolume {
    ConstantVolume {
        pressure: x.get("pressure"),
        volume: x.get("volume"),
        compression: x.get("compression"),
        gamma: x.get("gamma"),
        heat: x.get("heat"),
    }
}

/// The value of a check, if it is one of these subjects.
pub(crate) fn evaluate(function: &str, x: &Inputs<'_>) -> Option<f64> {
    let at = |name: &str| x.get(name);
    Some(match function {
        "gas.molar-heat-capacity" => {
            let gas = species(x.text("gas"));
            gas.heat_capacity(at("temperature")) * gas::MOLAR / gas.constant
        }
        "gas.molar-enthalpy-rise" => {
            let gas = species(x.text("gas"));
            (gas.enthalpy(at("temperature")) - gas.enthalpy(298.15)) * gas::MOLAR / gas.constant
        }
        "gas.heat-capacity" => gas_of(x).heat_capacity(at("temperature")),
        "gas.gamma" => gas_of(x).gamma(at("temperature")),
        "gas.isentropic" => gas_of(x).isentropic(at("temperature"), at("ratio")),
        "gas.heating-value" => fuel(x.text("fuel")).heating_value(),
        "gas.stoichiometric" => fuel(x.text("fuel")).stoichiometric(),
        "gas.heat-of-mixture" => {
            let (fuel, richness) = (fuel(x.text("fuel")), at("richness"));
            fuel.mixed(richness).enthalpy(298.15) - fuel.burned(richness).enthalpy(298.15)
        }
        "gas.water-gas" => gas::water_gas(at("temperature")),
        "ideal.efficiency" => ideal::efficiency(at("compression"), at("gamma")),
        "ideal.efficiency-over" => {
            ideal::efficiency(at("compression"), at("gamma")) / ideal::efficiency(at("over"), at("gamma"))
        }
        "ideal.compressed" => constant_volume(x).compressed(),
        "ideal.peak" => constant_volume(x).peak(),
        "ideal.indicated" => constant_volume(x).indicated(),
        "ideal.peak-over-indicated" => constant_volume(x).peak() / constant_volume(x).indicated(),
        "cycle.wiebe" => Burn::wiebe(at("progress"), at("form")),
        "cycle.progress" => Burn::progress(at("burned"), at("form")),
        "cycle.tenth-to-nine" => 1.0 / Burn::whole(1.0, at("form")),
        "cycle.peak" => cycle(x).peak,
        "cycle.peak-angle" => cycle(x).peak_angle,
        "cycle.work" => cycle(x).closed_work,
        "cycle.heat" => cycle(x).heat,
        "cycle.closing-pressure" => cycle(x).closing_pressure,
        "cycle.opening-pressure" => cycle(x).opening_pressure,
        "cycle.pressure" => cycle(x).pressure(at("angle")),
        "cycle.temperature" => {
            let degree = (at("angle") * 180.0 / PI + 360.0).round();
            #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 to 720")]
            *cycle(x).temperatures().get(degree as usize).unwrap()
        }
        "knock.delay" => knock::delay(at("octane"), at("pressure"), at("temperature")),
        "knock.squeezed" => squeezed(x),
        "knock.octane-index" => knock::octane_index(at("research"), at("motor"), at("k")),
        "knock.cranking-pressure" => knock::cranking_pressure(at("air"), at("effective"), at("exponent")),
        "charge.compressed" => charge::compressed(&gas::air(), at("temperature"), at("ratio"), at("efficiency")),
        "charge.air-at" => charge::air_at(at("height")),
        _ => return None,
    })
}
