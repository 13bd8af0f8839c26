//! What the fuel needs to burn, and what brings it.

use crate::builder::Builder;
use crate::typed::{Rise, Si, Unavailable, Word};
use std::f64::consts::TAU;
use thou_mechanics::combustion_air as air;
use thou_mechanics::flow::ROOM_AIR_DENSITY;
use thou_mechanics::fuel::Fuel;
use thou_sheet::Axis::One;
use uom::si::f64::{AngularVelocity, Length, MassDensity, MassRate, Pressure, Ratio, Volume, VolumeRate};

pub(super) fn facts(b: &mut Builder) {
    mixture(b);
    air_need(b);
    injectors(b);
    jets(b);
}

/// The fuel of a word of the sheet, and whether it is from the pump.
pub(super) fn fuel_of(word: &str) -> Option<(Fuel, bool)> {
    match word {
        "petrol-pump" => Some((Fuel::Petrol, true)),
        "petrol-race" => Some((Fuel::Petrol, false)),
        "e85" => Some((Fuel::E85, true)),
        "ethanol" => Some((Fuel::Ethanol, false)),
        "methanol" => Some((Fuel::Methanol, false)),
        _ => None,
    }
}

/// Ethanol as the pump sells it; none where the fuel has nothing to do with it.
pub(super) fn usual_ethanol(words: &[&str]) -> Option<(f64, f64)> {
    let (fuel, pump) = fuel_of(words.first()?)?;
    (fuel != Fuel::Methanol).then(|| air::usual_ethanol(fuel, pump))
}

/// Something of methanol, else of ethanol in petrol at the share on the sheet.
fn of_fuel(fuel: Word, ethanol: Option<Ratio>, methanol: f64, blend: fn(f64) -> f64) -> Result<f64, Unavailable> {
    match (fuel_of(fuel.0), ethanol) {
        (Some((Fuel::Methanol, _)), _) => Ok(methanol),
        (Some(_), Some(share)) => Ok(blend(share.value)),
        (Some(_), None) => Err(Unavailable::Field("fuel.ethanol")),
        (None, _) => Err(Unavailable::Outside("not a fuel whose make-up is known")),
    }
}

fn mixture(b: &mut Builder) {
    b.derive(
        "fuel.stoichiometric-ratio",
        "ratio",
        One,
        "Air over fuel, by mass, that just burns it.",
        "reaction to carbon dioxide and water; Heywood 1988, section 3.4; petrol as CH1.87, blends by mass",
        ["fuel", "fuel.ethanol"],
        |fuel: Word, ethanol: Option<Ratio>| {
            of_fuel(fuel, ethanol, air::METHANOL.stoichiometric_ratio(), air::ethanol_blend).map(Ratio::si)
        },
    );
    b.stated(
        "fuel.lambda",
        "ratio",
        "fuel.lambda",
        "Mixture at full power: air over the air that just burns the fuel.",
    )
    .or_usual(air::LAMBDA_SOURCE, ["fuel", "adder"], |words| match words {
        [fuel, adder] => fuel_of(fuel).map(|(fuel, _)| air::usual_lambda(fuel, *adder != "none")),
        _ => None,
    });
    b.derive(
        "fuel.air-fuel-ratio",
        "ratio",
        One,
        "Air over fuel, by mass, at full power.",
        "stoichiometric ratio by mixture",
        ["fuel.stoichiometric-ratio", "fuel.lambda"],
        |ratio: Ratio, lambda: Ratio| -> Ratio { ratio * lambda },
    );
    b.derive(
        "fuel.charge-cooling",
        "temperature-difference",
        One,
        "How far the fuel would cool the air if all of it boiled there: no engine gets the whole of it.",
        "latent heat over the heat capacity of its air; US Department of Energy, Alternative Fuels Data Center",
        ["fuel", "fuel.ethanol", "fuel.air-fuel-ratio"],
        |fuel: Word, ethanol: Option<Ratio>, mixture: Ratio| {
            let latent = of_fuel(fuel, ethanol, air::latent_heat(Fuel::Methanol), air::ethanol_blend_latent_heat)?;
            Ok::<Rise, Unavailable>(Rise(air::charge_cooling(latent, mixture.value, 1.0)))
        },
    );
}

fn air_need(b: &mut Builder) {
    b.derive(
        "air.need",
        "mass-flow",
        One,
        "Air that the power wanted needs.",
        "fuel by mixture; Heywood 1988, section 2.9",
        ["fuel.need", "fuel.air-fuel-ratio"],
        |fuel: MassRate, ratio: Ratio| -> MassRate { fuel * ratio },
    );
    b.derive(
        "air.filling",
        "ratio",
        One,
        "Filling that the power wanted needs: its air over the displacement full of air at 20 °C and 101.3 kPa.",
        "volumetric efficiency; Heywood 1988, eq. 2.27",
        ["air.need", "displacement", "target.power-speed"],
        |air: MassRate, size: Volume, speed: AngularVelocity| {
            Ratio::si(air.value / (ROOM_AIR_DENSITY * size.value * speed.value / (2.0 * TAU)))
        },
    );
}

fn injectors(b: &mut Builder) {
    b.stated("injector.count", "count", "fuel.injectors.count", "How many injectors there are.");
    b.stated(
        "injector.flow",
        "volume-flow",
        "fuel.injectors.flow",
        "What one injector flows wide open, at the pressure it is rated at.",
    );
    b.stated(
        "injector.rated-pressure",
        "pressure",
        "fuel.injectors.rated-pressure",
        "Pressure across an injector that its flow is rated at.",
    )
    .or_usual("rated at 3 bar; common practice, no source", [], |_| Some((3e5, 3e5)));
    b.stated(
        "injector.pressure",
        "pressure",
        "fuel.injectors.pressure",
        "Pressure across an injector at full power: the rail's over the manifold's.",
    );
    b.stated("fuel.pump-pressure", "pressure", "fuel.pump-pressure", "What the pump holds, over the room's.");
    b.derive(
        "injector.flow-at-pressure",
        "volume-flow",
        One,
        "What one injector flows wide open at full power.",
        "square root of the ratio of pressures; Bernoulli",
        ["injector.flow", "injector.rated-pressure", "injector.pressure"],
        |flow: VolumeRate, rated: Pressure, pressure: Pressure| {
            VolumeRate::si(air::injector_flow(flow.value, rated.value, pressure.value))
        },
    );
    b.derive(
        "fuel.injector-duty",
        "percent",
        One,
        "Share of the time that the injectors are open at full power.",
        "need over what they flow wide open",
        ["fuel.need", "fuel.density", "injector.count", "injector.flow-at-pressure"],
        |need: MassRate, density: MassDensity, count: Ratio, flow: VolumeRate| {
            Ratio::si(air::injector_duty((need / density).value, count.value, flow.value))
        },
    );
    b.derive(
        "fuel.injector-margin",
        "ratio",
        One,
        "What the injectors deliver wide open over what the engine needs.",
        "ratio of two flows",
        ["fuel.need", "fuel.density", "injector.count", "injector.flow-at-pressure"],
        |need: MassRate, density: MassDensity, count: Ratio, flow: VolumeRate| {
            Ratio::si(air::injector_margin((need / density).value, count.value, flow.value))
        },
    );
}

fn jets(b: &mut Builder) {
    b.stated("jet.count", "count", "fuel.jets.count", "How many main jets or nozzles there are, all alike.");
    b.stated("jet.bore", "length", "fuel.jets.bore", "Bore of a main jet or nozzle.");
    b.stated(
        "jet.pressure",
        "pressure",
        "fuel.jets.pressure",
        "Pressure across a jet at full power: a carburettor's signal at the booster, or the pump's over the manifold's.",
    );
    b.stated("jet.discharge", "ratio", "fuel.jets.discharge", "Discharge of a jet: its flow over that of its bore.")
        .or_usual("jets with a chamfered mouth; common practice, no source", [], |_| Some((0.65, 0.85)));
    b.derive(
        "jet.flow",
        "volume-flow",
        One,
        "What one jet flows at full power.",
        "bore by the root of twice the pressure over the density; Heywood 1988, eq. 7.16",
        ["jet.bore", "jet.discharge", "jet.pressure", "fuel.density"],
        |bore: Length, discharge: Ratio, pressure: Pressure, density: MassDensity| {
            VolumeRate::si(air::jet_flow(bore.value, discharge.value, pressure.value, density.value))
        },
    );
    b.derive(
        "fuel.jet-margin",
        "ratio",
        One,
        "What the jets flow over what the engine needs: 1 is the mixture that the need was worked out for.",
        "ratio of two flows",
        ["fuel.need-volume", "jet.count", "jet.flow"],
        |need: VolumeRate, count: Ratio, flow: VolumeRate| {
            Ratio::si(air::injector_margin(need.value, count.value, flow.value))
        },
    );
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use crate::testing::sheet;
    use crate::{Catalogue, Missing, SheetFacts};
    use serde_json::json;

    #[test]
    fn four_jets_against_the_need() {
        let mut root = json!({
            "engine": { "cylinders": 8 },
            "intent": { "power": "400 kW", "fuel": "petrol-race", "adder": "none" },
            "fuel": { "bsfc": "280 g/kWh", "jets": { "count": 4, "bore": "2 mm", "discharge": 0.8, "pressure": "20 kPa" } }
        });
        let told = |root: &serde_json::Value, id: &str| {
            let sheet = sheet(root.clone());
            let facts = SheetFacts::new(Catalogue::standard(), &sheet);
            facts.get(id).unwrap().first().unwrap().clone()
        };
        let density = told(&root, "fuel.density").unwrap().value;
        let flow = 0.8 * std::f64::consts::PI * 1e-6 * (2.0 * 20e3 / density).sqrt();
        assert!((told(&root, "jet.flow").unwrap().value / flow - 1.0).abs() < 1e-12);
        let need = 400.0 * 0.280 / 3_600.0 / density;
        assert!((told(&root, "fuel.jet-margin").unwrap().value / (4.0 * flow / need) - 1.0).abs() < 1e-9);
        root["fuel"]["jets"]["bore"] = json!(null);
        let lack = told(&root, "fuel.jet-margin").unwrap_err();
        assert!(lack.contains(&Missing::Field("fuel.jets.bore".to_owned())), "{lack:?}");
    }
}
