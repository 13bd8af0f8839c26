//! Checks of springs, lift curves and bolted joints.

use super::Inputs;
use thou_mechanics::bolt::{self, Thread};
use thou_mechanics::valve_motion::{self, Closing, Point, Polynomial};
use thou_mechanics::valve_spring::{self, Coil, Ends};

fn coil(x: &Inputs<'_>) -> Coil {
    let or_one = |name: &str| if x.given.get(name).is_some() { x.get(name) } else { 1.0 };
    Coil {
        wire: x.get("wire"),
        mean: x.get("mean"),
        active: or_one("active"),
        shear_modulus: or_one("modulus"),
        density: or_one("density"),
    }
}

fn thread(x: &Inputs<'_>) -> Thread {
    Thread { diameter: x.get("diameter"), pitch: x.get("pitch"), metric: x.text("metric") == "yes" }
}

fn lobe(x: &Inputs<'_>) -> Polynomial {
    Polynomial::from_duration(x.get("lift"), x.get("at"), x.get("duration"), x.get("exponent"))
}

/// The value of a check, if it is one of these subjects.
pub(crate) fn evaluate(function: &str, x: &Inputs<'_>) -> Option<f64> {
    let at = |name: &str| x.get(name);
    Some(match function {
        "valve-spring.index" => coil(x).index(),
        "valve-spring.rate" => coil(x).rate(),
        "valve-spring.surge" => coil(x).surge(),
        "valve-spring.surge-ratio" => valve_spring::surge_ratio(at("surge"), at("speed")),
        "valve-spring.wahl" => valve_spring::wahl(at("index")),
        "valve-spring.bergstrasser" => valve_spring::bergstrasser(at("index")),
        "valve-spring.direct-shear" => valve_spring::direct_shear(at("index")),
        "valve-spring.wire-strength" => {
            valve_spring::wire_strength(at("at-reference"), at("exponent"), at("wire"), at("reference"))
        }
        "valve-spring.force-for" => coil(x).force_for(at("stress"), at("factor")),
        "valve-spring.stress" => {
            let factor = match x.text("factor") {
                "direct-shear" => valve_spring::direct_shear(coil(x).index()),
                "wahl" => valve_spring::wahl(coil(x).index()),
                other => panic!("no factor '{other}'"),
            };
            coil(x).stress(at("force"), factor)
        }
        "valve-spring.deflection" => at("force") / coil(x).rate(),
        "valve-spring.solid-height" => {
            let ends = if x.text("ends") == "squared" { Ends::Squared } else { Ends::SquaredAndGround };
            valve_spring::solid_height(at("total"), at("wire"), ends)
        }
        "valve-spring.free-length" => {
            valve_spring::solid_height(at("total"), at("wire"), Ends::Squared) + at("force") / coil(x).rate()
        }
        "valve-spring.coil-pitch" => (at("free") - 3.0 * at("wire")) / at("active"),
        "valve-spring.rate-wanted" => at("force") / at("deflection"),
        "valve-spring.total-coils" => coil(x).active_for(at("rate")) + 2.0,
        "valve-motion.from-per-degree" => valve_motion::from_per_degree(at("lift"), at("speed")),
        "valve-motion.half-angle" => lobe(x).half,
        "valve-motion.lift" => lobe(x).at(at("angle")).lift,
        "valve-motion.curvature" => lobe(x).at(at("angle")).curvature,
        "valve-motion.leaves" => {
            let (ratio, lash) = (at("ratio"), at("lash"));
            let closing = Closing { seat: at("seat"), rate: at("rate") };
            let points = lobe(x).points(2_000).map(|p: Point| p.at_valve(ratio, lash));
            valve_motion::leaves(points, closing, at("mass")).unwrap().0
        }
        "bolt.torque-by-factor" => bolt::torque_by_factor(at("tension"), at("factor"), at("diameter")),
        "bolt.turn" => {
            let stretch = bolt::stretch(at("tension"), at("length"), at("area"), at("modulus"));
            bolt::turn_of_nut(stretch, at("pitch"))
        }
        "bolt.torque-factor" => bolt::torque_factor(thread(x), at("thread"), at("collar")),
        "bolt.final-stress" => {
            // the example's cones open at 45°, from a washer face of 1.5 d
            let d = at("diameter");
            let section = std::f64::consts::FRAC_PI_4 * d * d;
            let kb = bolt::bolt_stiffness(at("bolt-length"), section, 0.0, section, at("bolt-modulus"));
            let km = bolt::members(at("parts-modulus"), d, 1.5 * d, at("grip"), 1.0);
            at("initial") + bolt::load_factor(kb, km) * at("load") / at("area")
        }
        "bolt.loaded-stress" => bolt::loaded_tension(at("preload"), at("factor"), at("load")) / at("area"),
        "bolt.loaded-tension" => bolt::loaded_tension(at("preload"), at("factor"), at("load")),
        "bolt.clamp-left" => bolt::clamp_left(at("preload"), at("factor"), at("load")),
        "bolt.separation" => bolt::separation(at("preload"), at("factor"), at("load")),
        "bolt.share" => at("clamp") / at("count"),
        "bolt.three-times" => 3.0 * bolt::lift_off(at("pressure"), at("bore")),
        "bolt.assembly-tension" => bolt::assembly_tension(thread(x), at("yield"), at("friction"), at("nu")),
        "bolt.assembly-torque" => {
            let tension = bolt::assembly_tension(thread(x), at("yield"), at("friction"), at("nu"));
            bolt::torque_by_friction(thread(x), tension, at("friction"), at("friction"), at("collar"))
        }
        "bolt.stress-area" => thread(x).stress_area(),
        _ => return None,
    })
}
