//! Fuel and air, the flow through ports, the air of the dyno and its statistics.

use super::Inputs;
use thou_mechanics::combustion_air::{self as air, BlendPart, Composition};
use thou_mechanics::dyno_air::{self, Air, Standard};
use thou_mechanics::flow::{self, Upstream, ValveSeat};
use thou_mechanics::fuel::{self, Fuel};
use thou_mechanics::{dyno_room, dyno_statistics as statistics, performance};

fn composition(name: &str) -> Composition {
    match name {
        "iso-octane" => air::ISO_OCTANE,
        "petrol" => air::PETROL,
        "methanol" => air::METHANOL,
        "ethanol" => air::ETHANOL,
        "toluene" => air::TOLUENE,
        "nitromethane" => air::NITROMETHANE,
        other => panic!("no fuel '{other}'"),
    }
}

fn fuel(name: &str) -> Fuel {
    match name {
        "petrol" => Fuel::Petrol,
        "methanol" => Fuel::Methanol,
        "ethanol" => Fuel::Ethanol,
        other => panic!("no fuel '{other}'"),
    }
}

fn seat(x: &Inputs<'_>) -> ValveSeat {
    ValveSeat {
        head: x.get("head"),
        port: x.get("port"),
        stem: x.get("stem"),
        width: x.get("width"),
        angle: x.get("angle"),
    }
}

fn dyno(x: &Inputs<'_>) -> Air {
    Air { barometer: x.get("barometer"), temperature: x.get("temperature"), humidity: x.get("humidity") }
}

fn standard(x: &Inputs<'_>) -> Standard {
    Standard::by_id(x.text("standard")).unwrap()
}

fn up(x: &Inputs<'_>) -> Upstream {
    Upstream {
        pressure: x.get("pressure"),
        temperature: x.get("temperature"),
        gamma: x.get("gamma"),
        constant: x.get("constant"),
    }
}

fn set(text: &str) -> Vec<f64> {
    text.split_whitespace().map(|v| v.parse().unwrap()).collect()
}

/// ISO 1585's factor between two airs whose saturation pressures the book reads off a table.
fn book_dry(x: &Inputs<'_>, which: &str) -> f64 {
    x.get(&format!("{which}pressure")) - x.get(&format!("{which}humidity")) * x.get(&format!("{which}saturation"))
}

fn book_iso_3046(x: &Inputs<'_>) -> f64 {
    let temperatures = x.get("reference-temperature") / x.get("temperature");
    dyno_air::iso_3046_indicated(book_dry(x, "") / book_dry(x, "reference-"), temperatures, x.get("m"), x.get("n"))
}

pub(crate) fn evaluate(function: &str, x: &Inputs<'_>) -> Option<f64> {
    let at = |name: &str| x.get(name);
    let pulls = |name: &str| at(name) as u32;
    let sets = || (set(x.text("first")), set(x.text("second")));
    let welch = || {
        let (a, b) = sets();
        statistics::welch(&a, &b).unwrap()
    };
    let pooled = || {
        let (a, b) = sets();
        statistics::pooled(&a, &b).unwrap()
    };
    let blend = || {
        [
            BlendPart { volume: at("share"), density: at("density"), ratio: at("ratio") },
            BlendPart { volume: 1.0 - at("share"), density: at("other-density"), ratio: at("other-ratio") },
        ]
    };
    Some(match function {
        "combustion-air.stoichiometric-ratio" => composition(x.text("fuel")).stoichiometric_ratio(),
        "combustion-air.molar-mass" => composition(x.text("fuel")).molar_mass(),
        "combustion-air.blend-ratio" => air::blend_ratio(&blend()),
        "combustion-air.mass-share" => air::mass_share(&blend()),
        "combustion-air.ethanol-blend" => air::ethanol_blend(at("share")),
        "combustion-air.latent-heat" => air::latent_heat(fuel(x.text("fuel"))),
        "combustion-air.heating-value" => air::heating_value(fuel(x.text("fuel"))),
        "combustion-air.for-the-air" => air::for_the_air(at("of-the-fuel"), at("ratio")),
        "combustion-air.charge-cooling" => air::charge_cooling(at("latent"), at("ratio"), at("boiled")),
        "combustion-air.air-need-volume" => {
            let petrol = fuel::need(at("power"), at("consumption"));
            air::air_need(petrol, at("ratio"), 1.0) / at("density")
        }
        "combustion-air.injector-flow" => air::injector_flow(at("rated"), at("rated-pressure"), at("pressure")),
        "combustion-air.jet-flow" => air::jet_flow(at("bore"), at("discharge"), at("pressure"), at("density")),
        "fuel.density-low" => fuel::density(fuel(x.text("fuel"))).0,
        "fuel.density-high" => fuel::density(fuel(x.text("fuel"))).1,
        "flow.least-area" => seat(x).least_area(at("lift")),
        "flow.first-stage-ends" => seat(x).first_stage_ends(),
        "flow.port-limits-from" => seat(x).port_limits_from(),
        "flow.radial-width" => flow::radial_width(at("face"), at("angle")),
        "flow.critical-ratio" => flow::critical_ratio(at("gamma")),
        "flow.choked" => flow::choked(at("area"), at("discharge"), up(x)),
        "flow.orifice" => flow::orifice(at("area"), at("discharge"), up(x), at("behind")),
        "flow.ideal-velocity" => flow::ideal_velocity(at("drop"), at("density")),
        "flow.bench-flow" => flow::bench_flow(at("area"), at("discharge"), at("drop"), at("density")),
        "flow.valve-for-mach" => flow::valve_for_mach(
            at("bore"),
            at("index"),
            at("valves"),
            2.0 * at("stroke") * at("speed") / std::f64::consts::TAU,
            at("flow"),
            (at("gamma") * at("constant") * at("temperature")).sqrt(),
        ),
        "performance.mach-index" => performance::mach_index(
            at("bore"),
            at("valve"),
            at("valves"),
            2.0 * at("stroke") * at("speed") / std::f64::consts::TAU,
            at("flow"),
            (at("gamma") * at("constant") * at("temperature")).sqrt(),
        ),
        "dyno-air.saturation-pressure" => dyno_air::saturation_pressure(at("temperature")),
        "dyno-air.saturation-pressure-magnus" => dyno_air::saturation_pressure_magnus(at("temperature")),
        "dyno-air.vapour" => dyno(x).vapour(),
        "dyno-air.dry" => dyno(x).dry(),
        "dyno-air.factor" => standard(x).factor(dyno(x)),
        "dyno-air.valid" => f64::from(u8::from(standard(x).valid(dyno(x)).is_ok())),
        "dyno-air.iso-factor" => dyno_air::iso_factor(
            book_dry(x, ""),
            at("temperature"),
            book_dry(x, "reference-"),
            at("reference-temperature"),
        ),
        "dyno-air.iso-corrected" => {
            let (dry, reference) = (book_dry(x, ""), book_dry(x, "reference-"));
            at("power") * dyno_air::iso_factor(dry, at("temperature"), reference, at("reference-temperature"))
        }
        "dyno-air.iso-3046-indicated" => book_iso_3046(x),
        "dyno-air.iso-3046-brake" => dyno_air::iso_3046_brake(book_iso_3046(x), at("efficiency")),
        "dyno-air.iso-3046-power" => at("power") * dyno_air::iso_3046_brake(book_iso_3046(x), at("efficiency")),
        "dyno-air.iso-3046-consumption" => {
            let k = book_iso_3046(x);
            at("consumption") * k / dyno_air::iso_3046_brake(k, at("efficiency"))
        }
        "dyno-room.air-by-power" => dyno_room::room_air_by_power(at("power")),
        "dyno-room.air-by-changes-low" => dyno_room::room_air_by_changes(at("room")).0,
        "dyno-room.air-by-changes-high" => dyno_room::room_air_by_changes(at("room")).1,
        "dyno-room.heat" => dyno_room::room_heat(at("power")),
        "dyno-room.rise" => dyno_room::room_rise(at("heat"), at("flow")),
        "dyno-room.air-for-rise" => dyno_room::room_air_for_rise(at("heat"), at("rise")),
        "dyno-room.noise-time" => dyno_room::noise_time(at("level"), at("limit"), at("exchange")),
        "dyno-statistics.pulls-needed" => {
            f64::from(statistics::pulls_needed(at("gain"), at("alpha"), at("wanted")).unwrap())
        }
        "dyno-statistics.power" => statistics::power(at("gain"), pulls("pulls"), at("alpha")),
        "dyno-statistics.smallest-gain" => statistics::smallest_gain(pulls("pulls"), at("alpha"), at("wanted")),
        "dyno-statistics.half-width" => statistics::half_width(pulls("pulls"), at("confidence")),
        "dyno-statistics.welch-t" => welch().t,
        "dyno-statistics.welch-freedom" => welch().freedom,
        "dyno-statistics.welch-p" => welch().p,
        "dyno-statistics.pooled-t" => pooled().t,
        "dyno-statistics.pooled-freedom" => pooled().freedom,
        "dyno-statistics.pooled-p" => pooled().p,
        "dyno-statistics.missed-one-sided" => statistics::missed_one_sided(at("gain"), at("error"), at("alpha")),
        "dyno-statistics.shifted-student" => statistics::shifted_student(at("t"), at("freedom"), at("shift")),
        _ => return None,
    })
}
