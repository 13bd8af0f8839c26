//! Power against size, breathing, fuel.

use super::charge::is_boosted;
use crate::builder::Builder;
use crate::typed::{InputSpec, InputValue, Si, Unavailable, Word};
use std::f64::consts::{FRAC_PI_4, PI};
use thou_mechanics::combustion_air::{self, usual_lambda};
use thou_mechanics::expansion::STANDARD_TEMPERATURE;
use thou_mechanics::flow::ATMOSPHERE;
use thou_mechanics::fuel::{self, Fuel};
use thou_mechanics::performance;
use thou_sheet::Axis::One;
use uom::si::f64::{
    Angle, AngularVelocity, Area, Length, Mass, MassDensity, MassPerEnergy, MassRate, Power, Pressure, Ratio,
    ThermodynamicTemperature as Temperature, Time, Torque, Velocity, Volume, VolumeRate, VolumetricPowerDensity,
};

pub(super) fn facts(b: &mut Builder) {
    power(b);
    breathing(b);
    fuel_on_board(b);
    fuel_need(b);
    induction(b);
    strip(b);
    exhaust(b);
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
        "bmep.at-power.an-atmosphere",
        "pressure",
        One,
        "The same for each atmosphere in the manifold, without what nitrous brings: what the engine makes of its air, at any \
         altitude and any boost.",
        "in proportion to the pressure of the charge; Heywood 1988, section 2.9",
        ["bmep.at-power", "target.power", "adder", "adder.power", "inlet.pressure"],
        |bmep: Pressure, power: Power, adder: Word, shot: Option<Power>, inlet: Pressure| {
            let brought = match (adder.0, shot) {
                ("nitrous", None) => return Err(Unavailable::Field("intent.adder-power")),
                ("nitrous", Some(shot)) => shot.value / power.value,
                _ => 0.0,
            };
            Ok(Pressure::si(bmep.value * (1.0 - brought) * ATMOSPHERE / inlet.value))
        },
    );
    b.derive(
        "bmep.at-torque.an-atmosphere",
        "pressure",
        One,
        "The same where the torque is wanted.",
        "in proportion to the pressure of the charge; Heywood 1988, section 2.9",
        ["bmep.at-torque", "adder", "inlet.pressure"],
        |bmep: Pressure, adder: Word, inlet: Pressure| {
            if adder.0 == "nitrous" {
                return Err(Unavailable::Outside(
                    "nitrous brings its own oxygen, and how much of the torque is its is not stated",
                ));
            }
            Ok(Pressure::si(bmep.value * ATMOSPHERE / inlet.value))
        },
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
            if adder.is_some_and(|a| is_boosted(a.0)) {
                return Err(Unavailable::Outside("what presses the charge in makes it warmer than that"));
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
            if !is_boosted(adder.0) {
                return Err(Unavailable::Outside("nothing presses the charge in"));
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
    b.stated("fuel.lambda.stated", "ratio", "fuel.lambda", "Mixture at full power, only where the sheet states it.");
    b.by_layout(
        "fuel.richness",
        "ratio",
        "Fuel over what the usual consumption counts with, where a mixture is stated and no consumption: the air makes the \
         power, so a richer mixture burns more fuel for it.",
        "the usual mixture over the one stated",
        &[
            ("fuel", InputSpec::new("choice", false)),
            ("adder", InputSpec::new("choice", true)),
            ("fuel.lambda.stated", InputSpec::new("one", true)),
        ],
        |sheet| {
            let counts = sheet.stated("fuel.bsfc").is_none();
            Ok(Box::new(move |x: &[InputValue]| {
                let [burns, adder, lambda] = x else { return Err(Unavailable::Outside("not a fuel")) };
                let usual = fuel_of(burns.word).map(|f| usual_lambda(f, adder.there && adder.word != "none"));
                match usual {
                    Some((low, high)) if counts && lambda.there => Ok(f64::midpoint(low, high) / lambda.si),
                    _ => Ok(1.0),
                }
            }))
        },
    )
    .with(&["fuel.bsfc"]);
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
        ["target.power", "fuel.bsfc", "fuel.richness"],
        |power: Power, bsfc: MassPerEnergy, richness: Ratio| {
            MassRate::si(fuel::need(power.value, bsfc.value) * richness.value)
        },
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
    b.derive(
        "ignition.advance",
        "angle",
        One,
        "Total ignition advance, where it is stated.",
        "a selection",
        ["ignition.total"],
        |total: Angle| total,
    );
    b.flag(
        "ignition.verified",
        "ignition.verified-at-crank",
        "Whether the advance was checked with a light at the crank.",
    );
    b.flag(
        "timing-mark.verified",
        "balance.timing-mark-verified",
        "Whether the mark was checked at true top dead centre.",
    );
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

/// Pounds, horsepower and seconds in SI: `(hp/lb) in W/kg`.
const HORSEPOWER_A_POUND: f64 = 745.699_871_582_270_2 / 0.453_592_37;

fn strip(b: &mut Builder) {
    b.stated("strip.length", "distance", "intent.strip", "Length of the strip.");
    b.stated("strip.time", "time", "intent.elapsed-time", "Elapsed time expected.");
    b.derive(
        "strip.power",
        "power",
        One,
        "Power that the elapsed time takes for this weight.",
        "t = 5.825 (W/P)^(1/3) over 1,320 ft in seconds, pounds and horsepower, and 0.63 of that over 660 ft; from memory",
        ["vehicle.mass", "strip.time", "strip.length"],
        |mass: Mass, time: Time, length: Option<Length>| {
            let feet = length.map_or(1_320.0, |l| l.value / 0.3048);
            let share = if (feet - 1_320.0).abs() < 1.0 {
                1.0
            } else if (feet - 660.0).abs() < 1.0 {
                0.63
            } else {
                return Err(Unavailable::Outside("the formula is for strips of 660 and 1,320 ft"));
            };
            Ok(Power::si(mass.value * (share * 5.825 / time.value).powi(3) * HORSEPOWER_A_POUND))
        },
    );
    b.derive(
        "strip.power-share",
        "ratio",
        One,
        "Power that the elapsed time takes over the power wanted.",
        "ratio of two powers",
        ["strip.power", "target.power"],
        |takes: Power, has: Power| -> Ratio { takes / has },
    );
    b.derive(
        "strip.geared-share",
        "ratio",
        One,
        "Speed that axle and tyre make of the engine's speed at the lights, in the straight-through gear, over what power and \
         weight are good for there.",
        "v = 234 (P/W)^(1/3) over 1,320 ft in miles an hour, horsepower and pounds, and 0.79 of that over 660 ft; from memory",
        ["lights-speed", "tyre.diameter", "final-drive", "target.power", "vehicle.mass", "strip.length"],
        |lights: AngularVelocity, tyre: Length, axle: Ratio, power: Power, mass: Mass, strip: Option<Length>| {
            let short = strip.is_some_and(|l| l.value < 300.0);
            let miles_an_hour = 0.447_04;
            let good_for = 234.0 * (power.value / mass.value / HORSEPOWER_A_POUND).cbrt() * miles_an_hour;
            Ratio::si(lights.value / axle.value * tyre.value / 2.0 / (if short { 0.79 } else { 1.0 } * good_for))
        },
    );
}

fn exhaust(b: &mut Builder) {
    b.stated(
        "exhaust.primary-diameter",
        "length",
        "exhaust.primary-diameter",
        "Outside diameter of the primary pipes.",
    );
    b.derive(
        "exhaust.primary-share",
        "ratio",
        One,
        "Section of a primary pipe over the usual for its cylinder where the torque is wanted, walls of 0.049 in.",
        "a square inch for each 88,200 of cubic inches by rpm; common practice, from memory",
        ["exhaust.primary-diameter", "swept-volume", "target.torque-speed"],
        |outside: Length, swept: Volume, speed: AngularVelocity| {
            let inside = outside.value / 0.0254 - 2.0 * 0.049;
            let cubic_inches = swept.value / 0.0254_f64.powi(3);
            let usual = cubic_inches * speed.value * 30.0 / PI / 88_200.0;
            let section = FRAC_PI_4 * inside * inside;
            if inside > 0.0 && usual > 0.0 {
                Ok(Ratio::si(section / usual))
            } else {
                Err(Unavailable::Outside("no pipe of that size"))
            }
        },
    );
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use crate::testing::sheet;
    use crate::{Catalogue, SheetFacts};
    use serde_json::{Value, json};

    fn one(root: &Value, id: &str) -> f64 {
        let sheet = sheet(root.clone());
        let facts = SheetFacts::new(Catalogue::standard(), &sheet);
        facts.get(id).unwrap().first().unwrap().as_ref().unwrap().value
    }

    #[test]
    fn the_time_at_the_strip_takes_a_power() {
        let mut root = json!({ "intent": { "power": "700 hp", "vehicle-mass": "2450 lb", "strip": "1320 ft",
            "elapsed-time": "8.84 s" } });
        // 5.825 (2450/700)^(1/3) = 8.844
        assert!((one(&root, "strip.power-share") - 1.0).abs() < 0.003);
        root["intent"]["elapsed-time"] = json!("4.42 s");
        assert!((one(&root, "strip.power-share") - 8.0).abs() < 0.02);
        root["intent"]["strip"] = json!("660 ft");
        assert!((one(&root, "strip.power-share") - 8.0 * 0.63_f64.powi(3)).abs() < 0.01);
    }

    #[test]
    fn a_richer_mixture_burns_more_fuel_on_the_same_air() {
        let mut root = json!({ "intent": { "power": "400 kW", "fuel": "petrol-race", "adder": "none" },
            "fuel": { "lambda": 0.8, "ethanol": "0 %" } });
        let (fuel, air) = (one(&root, "fuel.need"), one(&root, "air.need"));
        root["fuel"]["lambda"] = json!(1.0);
        assert!((fuel / one(&root, "fuel.need") - 1.25).abs() < 1e-9);
        assert!((air / one(&root, "air.need") - 1.0).abs() < 1e-9);
        // a consumption that is stated was measured with the mixture
        root["fuel"]["bsfc"] = json!("280 g/kWh");
        assert!((one(&root, "fuel.need") - 400.0 * 0.280 / 3_600.0).abs() < 1e-9);
    }

    #[test]
    fn mean_pressure_is_counted_by_the_air_of_the_track() {
        let mut root = json!({ "engine": { "cylinders": 8 }, "intent": { "power": "450 hp", "power-speed": "6000 rpm", "adder": "none",
            "altitude": "0 m" }, "block": { "bore": "4 in" }, "crank": { "stroke": "3.53 in" } });
        let size = std::f64::consts::FRAC_PI_4 * 16.0 * 3.53 * 8.0;
        let psi = 450.0 * 792_000.0 / (size * 6_000.0);
        let told = |root: &Value| one(root, "bmep.at-power.an-atmosphere") / 6_894.757_293;
        assert!((told(&root) / psi - 1.0).abs() < 1e-6);
        root["intent"]["altitude"] = json!("9000 ft");
        // 0.7148 of an atmosphere at 9,000 ft by ISO 2533
        assert!((told(&root) / psi * 0.7148 - 1.0).abs() < 1e-3);
    }
}
