//! Published and independently computed figures, held against the mechanics: `tests/oracles/*.json` as data, and the
//! slider-crank against automatic differentiation.
//!
//! An input or an expected value is `<kind of quantity> <number> <unit>`, or `number <number>`, or the name of a material.
#![allow(clippy::unwrap_used, clippy::panic, clippy::print_stdout)]

#[path = "oracles/cylinder.rs"]
mod cylinder;

#[path = "oracles/films.rs"]
mod films;

#[path = "oracles/life.rs"]
mod life;

#[path = "oracles/running_gear.rs"]
mod running_gear;

#[path = "oracles/valvetrain.rs"]
mod valvetrain;

use num_dual::{Dual2_64, DualNum as _};
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::Path;
use thou_contract::Kind;
use thou_mechanics::expansion::Material;
use thou_mechanics::geometry::{self, ClearanceVolume};
use thou_mechanics::kinematics::{self, Slider};
use thou_mechanics::{balance, bolt, expansion, fuel, inertia, performance, rings, uncertainty, valve_spring};

#[path = "oracles/fuel_and_air.rs"]
mod fuel_and_air;

/// A quantity as the file has it, in SI.
fn si(text: &str) -> f64 {
    let (kind, rest) = text.split_once(' ').unwrap_or_else(|| panic!("'{text}' has no kind"));
    if kind == "number" {
        return rest.parse().unwrap();
    }
    Kind::by_id(kind)
        .unwrap_or_else(|| panic!("no kind '{kind}'"))
        .parse(rest)
        .unwrap_or_else(|e| panic!("{text}: {e}"))
}

fn material(name: &str) -> Material {
    match name {
        "grey-iron" => Material::GreyIron,
        "compacted-iron" => Material::CompactedIron,
        "steel" => Material::Steel,
        "titanium" => Material::Titanium,
        "alloy-2618" => Material::Alloy2618,
        "alloy-4032" => Material::Alloy4032,
        "hypereutectic" => Material::Hypereutectic,
        "eutectic-cast" => Material::EutecticCast,
        "cast-aluminium" => Material::CastAluminium,
        "wrought-aluminium" => Material::WroughtAluminium,
        other => panic!("no material '{other}'"),
    }
}

/// The inputs of one check, each of which must be used.
struct Inputs<'a> {
    given: &'a Value,
    used: std::cell::RefCell<Vec<String>>,
}

impl Inputs<'_> {
    fn text(&self, name: &str) -> &str {
        self.used.borrow_mut().push(name.to_owned());
        self.given[name].as_str().unwrap_or_else(|| panic!("no input '{name}'"))
    }
    fn get(&self, name: &str) -> f64 {
        si(self.text(name))
    }
    fn or_zero(&self, name: &str) -> f64 {
        if self.given.get(name).is_some() { self.get(name) } else { 0.0 }
    }
    fn slider(&self) -> Slider {
        Slider { offset: self.or_zero("offset"), ..Slider::new(self.get("stroke"), self.get("rod")) }
    }
    fn beam(&self) -> inertia::Beam {
        let metal = material(self.text("material")).properties();
        inertia::Beam {
            length: self.get("length"),
            area: self.get("area"),
            modulus: metal.modulus,
            density: metal.density,
        }
    }
    fn coefficient(&self, name: &str) -> f64 {
        material(self.text(name)).properties().expansion
    }
}

fn evaluate(function: &str, x: &Inputs<'_>) -> f64 {
    let at = |name: &str| x.get(name);
    match function {
        "kinematics.below-top" => x.slider().below_top(at("angle")),
        "kinematics.speed" => x.slider().speed(at("angle"), at("speed")),
        "kinematics.acceleration" => x.slider().acceleration(at("angle"), at("speed")),
        "kinematics.speed-two-term" => x.slider().speed_two_term(at("angle"), at("speed")),
        "kinematics.acceleration-two-term" => x.slider().acceleration_two_term(at("angle"), at("speed")),
        "kinematics.inertia-two-term" => {
            inertia::load(at("mass"), x.slider().acceleration_two_term(at("angle"), at("speed")))
        }
        "kinematics.greatest-speed" => x.slider().greatest_speed(at("speed")).unwrap(),
        "kinematics.fastest" => x.slider().fastest().unwrap(),
        "kinematics.mean-speed" => kinematics::mean_speed(at("stroke"), at("speed")),
        "kinematics.rod-slant" => x.slider().rod_slant(),
        "kinematics.top-dead-centre" => x.slider().top_dead_centre(),
        "kinematics.bottom-dead-centre" => x.slider().bottom_dead_centre(),
        "kinematics.stroke" => x.slider().stroke(),
        "geometry.swept-volume" => geometry::swept_volume(at("bore"), at("stroke")),
        "geometry.disc" => geometry::disc(at("diameter"), at("height")),
        "geometry.crevice-volume" => geometry::crevice_volume(at("bore"), at("land"), at("height")),
        "geometry.compression" => {
            let clearance = ClearanceVolume {
                chamber: at("chamber"),
                gasket: at("gasket"),
                deck: at("deck"),
                dish: at("dish"),
                dome: at("dome"),
                crevice: at("crevice"),
            };
            geometry::compression(at("swept"), clearance.sum())
        }
        "geometry.stroke-left" => geometry::stroke_left(x.slider(), at("closing")).unwrap(),
        "geometry.effective-compression" => {
            geometry::effective_compression(x.slider(), at("compression"), at("closing")).unwrap()
        }
        "inertia.load" => inertia::load(at("mass"), at("acceleration")),
        "inertia.stretch" => inertia::stretch_with_own_mass(x.beam(), at("force"), 0.0),
        "inertia.stretch-with-own-mass" => inertia::stretch_with_own_mass(x.beam(), at("force"), at("acceleration")),
        "expansion.growth" => expansion::growth(x.coefficient("material"), at("length"), at("rise")),
        "expansion.closing" => expansion::closing(
            at("diameter"),
            x.coefficient("piston"),
            at("piston-rise"),
            x.coefficient("bore"),
            at("bore-rise"),
        ),
        "expansion.coefficient" => x.coefficient("material"),
        "rings.closing-gap" => rings::closing_gap(at("bore"), at("ring"), at("ring-rise"), at("wall"), at("wall-rise")),
        "balance.bobweight" => {
            let rotating = at("big-end") + at("bearing") + at("oil");
            let reciprocating = at("piston") + at("pin") + at("locks") + at("rings") + at("small-end");
            balance::bobweight(at("rods"), rotating, reciprocating, at("factor"))
        }
        "balance.unbalance-force" => balance::unbalance_force(at("mass"), at("radius"), at("speed")),
        "performance.bmep" => performance::bmep(at("torque"), at("displacement")),
        "performance.torque" => performance::torque(at("power"), at("speed")),
        "valve-spring.open-load" => valve_spring::open_load(at("seat"), at("rate"), at("lift")),
        "fuel.need" => fuel::need(at("power"), at("consumption")),
        "bolt.lift-off" => bolt::lift_off(at("pressure"), at("bore")),
        "bolt.clamp-ratio" => bolt::clamp_ratio(at("count"), at("clamp"), at("load")),
        "uncertainty.conformance" => uncertainty::conformance_probability(at("value"), at("u"), at("low"), at("high")),
        "uncertainty.combine" => uncertainty::combine(&[at("a"), at("b")]),
        "uncertainty.guard-band" => uncertainty::guard_band(at("u")),
        "units.convert" => at("from"),
        other => valvetrain::evaluate(other, x)
            .or_else(|| life::evaluate(other, x))
            .or_else(|| fuel_and_air::evaluate(other, x))
            .or_else(|| cylinder::evaluate(other, x))
            .or_else(|| films::evaluate(other, x))
            .or_else(|| running_gear::evaluate(other, x))
            .unwrap_or_else(|| panic!("no function '{other}'")),
    }
}

/// Every check of every file, in the order of their names.
fn checks() -> BTreeMap<String, Vec<Value>> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("oracles");
    let mut all = BTreeMap::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        let file: Value = serde_json::from_str(&std::fs::read_to_string(&path).unwrap()).unwrap();
        let name = path.file_stem().unwrap().to_string_lossy().into_owned();
        all.insert(name, file["checks"].as_array().unwrap().clone());
    }
    all
}

#[test]
fn every_published_figure_is_met() {
    let mut missed = Vec::new();
    for (file, checks) in checks() {
        println!("\n{file}");
        for check in checks {
            let text = |field: &str| check[field].as_str().unwrap_or_else(|| panic!("{check}: no {field}"));
            let inputs = Inputs { given: &check["inputs"], used: std::cell::RefCell::default() };
            let got = evaluate(text("function"), &inputs);
            let expected = si(text("expected"));
            let allowed = match check["relative-tolerance"].as_f64() {
                Some(relative) => relative * expected.abs(),
                None => si(text("absolute-tolerance")),
            };
            let off = (got - expected).abs();
            let met = off <= allowed;
            let mark = if met { "met" } else { "MISSED" };
            let (name, source, how) = (text("name"), text("source"), text("obtained"));
            println!("  {mark:6} {name:58} {got:>16.9e}  off {off:.1e} of {allowed:.1e}  {source} ({how})");
            if !met {
                missed.push(format!("{file}: {name}: {got} is {off} from {expected}, allowed {allowed}"));
            }
            for name in check["inputs"].as_object().unwrap().keys() {
                // a slider's checks name its speed although a position does not need it
                if !inputs.used.borrow().contains(name) && name != "speed" && name != "rod" {
                    missed.push(format!("{file}: {}: input '{name}' is not used", text("name")));
                }
            }
        }
    }
    assert!(missed.is_empty(), "{}", missed.join("\n"));
}

/// How far the piston is below its top dead centre, in numbers that carry their first and second derivative.
fn position(angle: Dual2_64, slider: Slider) -> Dual2_64 {
    let u = angle.sin() * slider.radius - slider.offset;
    let q = (-(u * u) + slider.rod * slider.rod).sqrt();
    let top = ((slider.rod + slider.radius).powi(2) - slider.offset * slider.offset).sqrt();
    -(angle.cos() * slider.radius + q) + top
}

#[test]
fn speed_and_acceleration_are_the_derivatives_of_position_over_a_whole_turn() {
    for offset in [0.0, 0.001_524, -0.001] {
        for (stroke, rod) in [(0.088_392, 0.144_78), (0.095_25, 0.152_4), (0.0486, 0.091), (0.1016, 0.1702)] {
            let slider = Slider { offset, ..Slider::new(stroke, rod) };
            let omega = 680.678_408;
            for tenth in -3_600..=3_600 {
                let angle = f64::from(tenth) * 0.1_f64.to_radians();
                let (s, ds, dds) = num_dual::second_derivative(|t| position(t, slider), angle);
                let scale = slider.radius;
                assert!((slider.below_top(angle) - s).abs() < 1e-14, "position at {tenth}");
                assert!((slider.speed(angle, omega) - ds * omega).abs() < 1e-11 * scale * omega, "speed at {tenth}");
                let a = slider.acceleration(angle, omega);
                assert!((a - dds * omega * omega).abs() < 1e-11 * scale * omega * omega, "acceleration at {tenth}");
            }
        }
    }
}

#[test]
fn the_two_term_series_is_exact_at_the_dead_centres_only() {
    let slider = Slider::new(0.088_392, 0.144_78);
    for angle in [0.0, std::f64::consts::PI] {
        let (exact, series) = (slider.acceleration(angle, 1.0), slider.acceleration_two_term(angle, 1.0));
        assert!((exact - series).abs() < 1e-15);
    }
    let angle = std::f64::consts::FRAC_PI_2;
    let off = slider.acceleration_two_term(angle, 1.0) / slider.acceleration(angle, 1.0) - 1.0;
    assert!((-0.05..-0.045).contains(&off), "{off}");
}
