//! The charge on its way into the cylinder: pressed, cooled, and warm when the valve shuts on it.

use crate::builder::Builder;
use crate::typed::{Input, Rise, Si, Take, Why, Word};
use thou_mechanics::{charge, gas};
use thou_sheet::Axis::One;
use uom::si::f64::{Length, Pressure, Ratio, ThermodynamicTemperature as Temperature};

pub(super) fn facts(b: &mut Builder) {
    outside(b);
    pressed(b);
    trapped(b);
}

fn outside(b: &mut Builder) {
    b.stated("track.altitude", "distance", "intent.altitude", "Height of the usual track above the sea.");
    b.stated("air.temperature", "temperature", "intent.air-temperature", "Temperature of the air it breathes.")
        .or_usual("15 to 35 °C; common practice, no source", [], |_| Some((288.15, 308.15)));
    b.derive(
        "air.pressure",
        "pressure",
        One,
        "Pressure of the air at the usual track.",
        "standard atmosphere, ISO 2533",
        ["track.altitude"],
        |height: Length| Pressure::si(charge::air_at(height.value)),
    )
    .or_usual("up to some 300 m above the sea; ISO 2533", [], |_| Some((97_800.0, 101_325.0)));
}

/// A flag of the sheet.
struct Yes(bool);
impl Take for Yes {
    const DIMENSION: &'static str = "choice";
    fn take(input: Input) -> Self {
        Self(input.si > 0.5)
    }
}

pub(super) fn is_pressed(adder: &str) -> bool {
    matches!(adder, "turbo" | "blower")
}

fn pressed(b: &mut Builder) {
    b.derive(
        "inlet.pressure",
        "pressure",
        One,
        "Pressure in the manifold at full power, absolute.",
        "the air outside, with the boost where something presses it",
        ["air.pressure", "adder", "boost"],
        |air: Pressure, adder: Word, boost: Option<Pressure>| match (is_pressed(adder.0), boost) {
            (false, _) => Ok(air),
            (true, Some(boost)) => Ok(air + boost),
            (true, None) => Err(Why::Field("intent.boost")),
        },
    );
    b.stated(
        "compressor.efficiency",
        "ratio",
        "induction.compressor-efficiency",
        "What an ideal compressor would heat the air by, over what this one does.",
    )
    .or_usual("common practice, no source", ["adder"], |words| match words {
        ["turbo"] => Some((0.65, 0.75)),
        ["blower"] => Some((0.50, 0.70)),
        _ => None,
    });
    b.stated(
        "cooler.effectiveness",
        "ratio",
        "induction.cooler-effectiveness",
        "Share of the heat above that of the air outside that the cooler takes away.",
    )
    .or_usual("air to air; common practice, no source", [], |_| Some((0.6, 0.8)));
    b.stated(
        "compressor.outlet-temperature",
        "temperature",
        "induction.discharge-temperature",
        "Temperature after the compressor.",
    )
    .or(
        "isentropic change of real air over the compressor's efficiency; Heywood 1988, section 6.8",
        ["air.temperature", "air.pressure", "inlet.pressure", "adder", "compressor.efficiency"],
        |air: Temperature, outside: Pressure, inlet: Pressure, adder: Word, efficiency: Ratio| {
            if is_pressed(adder.0) {
                let ratio = inlet.value / outside.value;
                Ok(Temperature::si(charge::compressed(&gas::air(), air.value, ratio, efficiency.value)))
            } else {
                Err(Why::Outside("nothing presses the charge in"))
            }
        },
    );
    b.derive(
        "charge.temperature",
        "temperature",
        One,
        "Temperature in the manifold at full power, before the fuel has cooled it.",
        "air outside; under boost after the compressor and, where there is one, the cooler (Heywood 1988, section 6.8)",
        ["air.temperature", "adder", "compressor.outlet-temperature", "adder.cooled", "cooler.effectiveness"],
        |air: Temperature, adder: Word, hot: Option<Temperature>, cooled: Option<Yes>, cooler: Ratio| {
            if !is_pressed(adder.0) {
                return Ok(air);
            }
            let hot = hot.ok_or(Why::Field("intent.boost"))?;
            let cooled = cooled.ok_or(Why::Field("induction.intercooled"))?.0;
            let after = charge::cooled(hot.value, air.value, cooler.value);
            Ok(if cooled { Temperature::si(after) } else { hot })
        },
    );
}

fn trapped(b: &mut Builder) {
    b.usual(
        "charge.rise",
        "temperature-difference",
        "How much warmer the charge is when the valve shuts than in the manifold: walls and what is left of the last \
         cycle, less what the fuel cools it by.",
        "common practice, no source; petrol after Heywood 1988, section 6.2, from memory",
        ["fuel"],
        |words| match words {
            ["petrol-pump" | "petrol-race"] => Some((25.0, 50.0)),
            ["e85"] => Some((5.0, 35.0)),
            ["ethanol"] => Some((0.0, 30.0)),
            ["methanol"] => Some((-20.0, 15.0)),
            _ => None,
        },
    );
    b.derive(
        "charge.trapped-temperature",
        "temperature",
        One,
        "Temperature of the charge when the inlet valve shuts on it.",
        "in the manifold, with the rise on the way",
        ["charge.temperature", "charge.rise"],
        |manifold: Temperature, rise: Rise| Temperature::si(manifold.value + rise.0),
    );
}
