//! Checks of what piston and rod press on, and of figures in the trade's own measure.

use super::Inputs;
use std::f64::consts::FRAC_PI_4;
use thou_mechanics::big_end::BigEnd;
use thou_mechanics::orbit::Load;
use thou_mechanics::{expansion, geometry, kinematics};

/// Standard acceleration of free fall, m/s²: ISO 80000-3.
const G: f64 = 9.806_65;

/// What a piston's net force puts on the crankpin, without mass: gas, less friction and, where it is given, the inertia
/// at that angle.
fn pressed(x: &Inputs<'_>) -> Load {
    let bore = x.get("bore");
    let gear = BigEnd { slider: x.slider(), bore, reciprocating: 0.0, rotating: 0.0 };
    let less = (x.get("friction") + x.or_zero("inertia")) / (FRAC_PI_4 * bore * bore);
    gear.load(x.get("angle"), 1.0, x.get("pressure") - less)
}

pub(super) fn evaluate(function: &str, x: &Inputs<'_>) -> Option<f64> {
    let at = |name: &str| x.get(name);
    Some(match function {
        "kinematics.rod-over-radius" => 1.0 / x.slider().lambda(),
        "kinematics.greatest-over-mean" => {
            x.slider().greatest_speed(at("speed")).unwrap() / kinematics::mean_speed(at("stroke"), at("speed"))
        }
        "kinematics.in-g" => x.slider().acceleration(at("angle"), at("speed")) / G,
        "geometry.displacement" => at("cylinders") * geometry::swept_volume(at("bore"), at("stroke")),
        "expansion.left" => {
            let (piston, bore) = (x.coefficient("piston"), x.coefficient("bore"));
            at("cold") - expansion::closing(at("diameter"), piston, at("piston-rise"), bore, at("bore-rise"))
        }
        "loads.rod" => {
            let load = pressed(x);
            load.x.hypot(load.y)
        }
        "loads.side" => pressed(x).y.abs(),
        "loads.toward-crank" => {
            let (load, (sin, cos)) = (pressed(x), at("angle").sin_cos());
            -(load.x * cos + load.y * sin)
        }
        "loads.torque" => {
            let (load, (sin, cos)) = (pressed(x), at("angle").sin_cos());
            x.slider().radius * (load.y * cos - load.x * sin)
        }
        "loads.rod-turning" => {
            let gear = BigEnd { slider: x.slider(), bore: 0.1, reciprocating: 0.0, rotating: 0.0 };
            gear.load(at("angle"), at("speed"), 0.0).relative - at("speed")
        }
        _ => return None,
    })
}
