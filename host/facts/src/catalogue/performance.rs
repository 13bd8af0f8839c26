//! Power against size, breathing, fuel.

use super::charge::is_pressed;
use crate::builder::Builder;
use crate::typed::{Si, Why, Word};
use thou_mechanics::combustion_air;
use thou_mechanics::expansion::STANDARD_TEMPERATURE;
use thou_mechanics::fuel::{self, Fuel};
use thou_mechanics::performance;
use thou_sheet::Axis::One;
use uom::si::f64::{
    AngularVelocity, Area, Length, MassDensity, MassPerEnergy, MassRate, Power, Pressure, Ratio,
    ThermodynamicTemperature as Temperature, Torque, Velocity, Volume, VolumeRate, VolumetricPowerDensity,
};

pub(super) fn facts(b: &mut Builder) {
    power(b);
    breathing(b);
    fuel_on_board(b);
    fuel_need(b);
    induction(b);
}

fn power(b: &mut Builder) {
    b.derive(
        "torque.at-power",
        "torque",
        One,
        "Torque where the power is wanted.",
        "power over speed",
        ["target.power", "target.power-speed"],
        |power: Power, w: AngularVelocity| Torque::si(performance::torque(power.value, w.value)),
    );
    b.derive(
        "bmep.at-power",
        "pressure",
        One,
        "Mean effective pressure where the power is wanted, four-stroke.",
        "4 pi T/Vd; Heywood 1988, eq. 2.19 and 2.20",
        ["torque.at-power", "displacement"],
        |torque: Torque, size: Volume| Pressure::si(performance::bmep(torque.value, size.value)),
    );
    b.derive(
        "power-per-litre",
        "specific-power",
        One,
        "Power wanted for the displacement.",
        "power over displacement",
        ["target.power", "displacement"],
        |power: Power, size: Volume| VolumetricPowerDensity::si(performance::specific_power(power.value, size.value)),
    );
    b.derive(
        "power-a-cylinder",
        "power",
        One,
        "Power wanted of one cylinder.",
        "power over cylinders",
        ["target.power", "engine.cylinders"],
        |power: Power, cylinders: Ratio| -> Power { power / cylinders },
    );
    b.derive(
        "adder.power-a-cylinder",
        "power",
        One,
        "What the adder brings to one cylinder.",
        "power over cylinders",
        ["adder.power", "engine.cylinders"],
        |power: Power, cylinders: Ratio| -> Power { power / cylinders },
    );
}

fn mach_index(bore: Length, valve: Length, valves: Ratio, speed: Velocity, flow: Ratio, kelvin: f64) -> Ratio {
    // of an odd number the odd one is an inlet
    let inlets = (valves.value / 2.0).ceil();
    let sound = performance::speed_of_sound(kelvin);
    Ratio::si(performance::mach_index(bore.value, valve.value, inlets, speed.value, flow.value, sound))
}

fn breathing(b: &mut Builder) {
    b.usual(
        "inlet.flow-coefficient",
        "ratio",
        "Mean flow coefficient of an inlet valve over its lift.",
        "Taylor, The Internal-Combustion Engine in Theory and Practice, vol. 1, ch. 6; from memory",
        [],
        |_| Some((0.30, 0.40)),
    );
    b.derive(
        "inlet.mach-index",
        "ratio",
        One,
        "Inlet Mach index where the power is wanted, air at 20 °C, under boost as warm as the charge: breathing falls off \
         past 0.5 to 0.6.",
        "Z = (b/D)² s/(Ci a); Taylor, The Internal-Combustion Engine in Theory and Practice, vol. 1, ch. 6",
        [
            "bore.nominal",
            "valve.inlet.diameter",
            "head.valves-a-cylinder",
            "piston.speed.mean.at-power",
            "inlet.flow-coefficient",
            "adder",
        ],
        |bore: Length, valve: Length, valves: Ratio, speed: Velocity, flow: Ratio, adder: Option<Word>| {
            if adder.is_some_and(|a| is_pressed(a.0)) {
                return Err(Why::Outside("what presses the charge in makes it warmer than that"));
            }
            Ok(mach_index(bore, valve, valves, speed, flow, STANDARD_TEMPERATURE))
        },
    )
    .or(
        "Z = (b/D)² s/(Ci a), as Taylor, with the sound of the charge under boost",
        [
            "bore.nominal",
            "valve.inlet.diameter",
            "head.valves-a-cylinder",
            "piston.speed.mean.at-power",
            "inlet.flow-coefficient",
            "adder",
            "charge.temperature",
        ],
        |bore: Length, valve: Length, valves: Ratio, speed: Velocity, flow: Ratio, adder: Word, charge: Temperature| {
            if !is_pressed(adder.0) {
                return Err(Why::Outside("nothing presses the charge in"));
            }
            Ok(mach_index(bore, valve, valves, speed, flow, charge.value))
        },
    );
    b.derive(
        "valve.mean-curtain",
        "area",
        One,
        "Curtain of one inlet valve at its full lift by the cam's card.",
        "pi D L",
        ["valve.inlet.diameter", "cam.valve-lift.inlet"],
        |valve: Length, lift: Length| Area::si(performance::curtain(valve.value, lift.value)),
    );
}

fn fuel_on_board(b: &mut Builder) {
    b.choice("fuel", "intent.fuel", &["petrol-pump", "petrol-race", "e85", "ethanol", "methanol"], "What it burns.");
    b.stated("fuel.octane", "octane", "fuel.octane", "Octane, mean of research and motor.");
    b.stated("fuel.ethanol", "percent", "fuel.ethanol", "Ethanol by volume, as tested.").or_usual(
        combustion_air::ETHANOL_SOURCE,
        ["fuel"],
        super::fuel_and_air::usual_ethanol,
    );
    b.choice("fuel.seals", "fuel.seals", &["petrol", "alcohol-proof"], "What the fuel system's seals bear.");
    b.stated("fuel.pump-flow", "volume-flow", "fuel.pump-flow", "What the pump delivers at pressure and voltage.");
}

fn fuel_of(word: &str) -> Option<Fuel> {
    match word {
        "petrol-pump" | "petrol-race" => Some(Fuel::Petrol),
        "e85" => Some(Fuel::E85),
        "ethanol" => Some(Fuel::Ethanol),
        "methanol" => Some(Fuel::Methanol),
        _ => None,
    }
}

fn fuel_need(b: &mut Builder) {
    b.stated("fuel.bsfc", "specific-consumption", "fuel.bsfc", "Fuel for a power and a time, at full load.").or_usual(
        fuel::CONSUMPTION_SOURCE,
        ["fuel", "adder"],
        |words| match words {
            [burns, adder] => fuel_of(burns).map(|f| fuel::usual_consumption(f, *adder != "none")),
            _ => None,
        },
    );
    b.stated("fuel.density", "density", "fuel.density", "How heavy the fuel is, as measured.").or_usual(
        fuel::DENSITY_SOURCE,
        ["fuel"],
        |words| words.first().and_then(|burns| fuel_of(burns)).map(fuel::density),
    );
    b.derive(
        "fuel.need",
        "mass-flow",
        One,
        "Fuel that the power wanted needs.",
        "power by specific consumption; Heywood 1988, eq. 2.22",
        ["target.power", "fuel.bsfc"],
        |power: Power, bsfc: MassPerEnergy| MassRate::si(fuel::need(power.value, bsfc.value)),
    );
    b.derive(
        "fuel.need-volume",
        "volume-flow",
        One,
        "Fuel that the power wanted needs, by volume.",
        "mass flow over density",
        ["fuel.need", "fuel.density"],
        |need: MassRate, density: MassDensity| -> VolumeRate { need / density },
    );
    b.derive(
        "fuel.margin",
        "ratio",
        One,
        "What the pump delivers over what the engine needs.",
        "ratio of two flows",
        ["fuel.pump-flow", "fuel.need-volume"],
        |delivers: VolumeRate, need: VolumeRate| Ratio::si(fuel::margin(delivers.value, need.value)),
    );
}

fn induction(b: &mut Builder) {
    b.stated("ignition.total", "angle", "ignition.total-advance", "Total ignition advance, checked at the crank.");
    b.stated("nitrous.timing-pulled", "angle", "ignition.nitrous-retard", "Advance taken out on nitrous.");
    b.flag(
        "nitrous.full-throttle-switch",
        "induction.nitrous.full-throttle-switch",
        "Whether nitrous waits for full throttle.",
    );
    b.flag("nitrous.speed-window", "induction.nitrous.speed-window", "Whether nitrous has a window of engine speed.");
    b.flag(
        "nitrous.fuel-pressure-switch",
        "induction.nitrous.fuel-pressure-switch",
        "Whether nitrous stops when its fuel does.",
    );
    b.flag(
        "nitrous.relief-vented",
        "induction.nitrous.relief-vented-outside",
        "Whether the bottle's relief is led outside.",
    );
}
