//! Springs, cams, bolts, hones, balance, surfaces.

use crate::args::{Answer, Args, one, tried};
use thou_mechanics::bolt::{self, Thread};

pub fn bolt(what: &str, a: &Args) -> Answer {
    let thread = || Thread { diameter: a.n(0), pitch: a.n(1), metric: a.n(2) > 0.5 };
    match what {
        "thread" => {
            let t = thread();
            Ok(vec![t.pitch_diameter(), t.root_diameter(), t.stress_area()])
        }
        "torque-factor" => one(bolt::torque_factor(thread(), a.n(3), a.n(4))),
        "torque-by-friction" => one(bolt::torque_by_friction(thread(), a.n(3), a.n(4), a.n(5), a.n(6))),
        "tension-by-friction" => one(bolt::tension_by_friction(thread(), a.n(3), a.n(4), a.n(5), a.n(6))),
        "assembly-tension" => one(bolt::assembly_tension(thread(), a.n(3), a.n(4), a.n(5))),
        "bolt-stiffness" => one(bolt::bolt_stiffness(a.n(0), a.n(1), a.n(2), a.n(3), a.n(4))),
        "frustum" => one(bolt::frustum(a.n(0), a.n(1), a.n(2), a.n(3), a.n(4))),
        "members" => one(bolt::members(a.n(0), a.n(1), a.n(2), a.n(3), a.n(4))),
        "joint" => {
            let factor = bolt::load_factor(a.n(0), a.n(1));
            let (preload, load) = (a.n(2), a.n(3));
            Ok(vec![
                bolt::loaded_tension(preload, factor, load),
                bolt::clamp_left(preload, factor, load),
                bolt::separation(preload, factor, load),
            ])
        }
        "stress-area" => one(Thread { diameter: a.n(0), pitch: a.n(1), metric: false }.stress_area()),
        "clamp-ratio" => one(bolt::clamp_ratio(a.n(0), a.n(1), bolt::lift_off(a.n(2), a.n(3)))),
        "goodman-preloaded" => one(bolt::goodman_preloaded(a.n(0), a.n(1), a.n(2), a.n(3))),
        _ => panic!("no bolt.{what}"),
    }
}

pub fn valve_spring(what: &str, a: &Args) -> Answer {
    use thou_mechanics::valve_spring::{self as v, Coil};
    let coil = || Coil { wire: a.n(0), mean: a.n(1), active: a.n(2), shear_modulus: a.n(3), density: a.n(4) };
    match what {
        "rate" => Ok(vec![coil().rate(), coil().mass()]),
        "surge" => Ok(vec![coil().surge(), coil().surge_direct()]),
        "stress" => one(coil().stress(a.n(5), v::direct_shear(coil().index()))),
        "factors" => Ok(vec![v::wahl(a.n(0)), v::bergstrasser(a.n(0))]),
        "wire-strength" => one(v::wire_strength(a.n(0), a.n(1), a.n(2), a.n(3))),
        _ => panic!("no valve_spring.{what}"),
    }
}

pub fn valve_motion(what: &str, a: &Args) -> Answer {
    use thou_mechanics::valve_motion::{self as v, Closing, PolydyneLobe};
    let lobe = || PolydyneLobe { lift: a.n(0), half: a.n(1), exponent: a.n(2) };
    match what {
        "polynomial" => {
            let p = lobe().at(a.n(3));
            Ok(vec![p.lift, p.slope, p.curvature])
        }
        "from-duration" => one(PolydyneLobe::from_duration(a.n(0), a.n(1), a.n(2), a.n(3)).half),
        "leaves" => {
            let closing = Closing { seat: a.n(3), rate: a.n(4) };
            one(v::leaves(lobe().points(2_000), closing, a.n(5)).map_or(f64::NAN, |(speed, _)| speed))
        }
        "pressed-between" => {
            let closing = Closing { seat: a.n(3), rate: a.n(4) };
            v::pressed_between(lobe().points(2_000), closing, a.n(5), a.n(6))
                .map(Vec::from)
                .ok_or_else(|| "shut".to_owned())
        }
        "harmonic" => {
            let half: Vec<_> = lobe().points(2_000).collect();
            let whole = half.iter().rev().map(|p| v::LiftPoint { angle: -p.angle, slope: -p.slope, ..*p });
            one(v::harmonic(whole.chain(half.iter().skip(1).copied()), a.n(3)))
        }
        "table" => {
            let points = v::table(&a.list(0), &a.list(1)).map_err(|e| e.to_string())?;
            let mut all = Vec::new();
            for p in points {
                all.extend([p.lift, p.slope, p.curvature]);
            }
            Ok(all)
        }
        _ => panic!("no valve_motion.{what}"),
    }
}

pub fn honing(what: &str, a: &Args) -> Answer {
    use thou_mechanics::honing::Hone;
    let hone = Hone { bore: a.n(0), stroke: a.n(1), strokes: a.n(2), spindle: a.n(3) };
    match what {
        "angles" => Ok(vec![hone.mean_angle(), hone.mid_stroke_angle(), hone.angle_at(a.n(4))]),
        "strokes-for" => tried(hone.strokes_for(a.n(4))),
        "spindle-for" => tried(hone.spindle_for(a.n(4))),
        _ => panic!("no honing.{what}"),
    }
}

pub fn balance(what: &str, a: &Args) -> Answer {
    use thou_mechanics::balance::{self as b, CylinderPlace, Shake};
    let engine = || {
        let all = a.list(0);
        all.chunks_exact(4)
            .map(|c| CylinderPlace { pin: c[0], axis: c[1], position: c[2], mass: c[3] })
            .collect::<Vec<_>>()
    };
    let told = |s: Shake, axis: f64| Ok(vec![s.greatest(), s.least(), s.along(axis)]);
    let refused = |e: thou_mechanics::Outside| e.to_string();
    match what {
        "unbalance-force" => one(b::unbalance_force(a.n(0), a.n(1), a.n(2))),
        "bobweight" => one(b::bobweight(a.n(0), a.n(1), a.n(2), a.n(3))),
        "permissible" => tried(b::permissible(a.n(0), a.n(1), a.n(2))),
        "primary-force" => told(b::primary_force(&engine(), a.n(1), a.n(3)), a.n(4)),
        "primary-couple" => told(b::primary_couple(&engine(), a.n(1), a.n(3)), a.n(4)),
        "secondary-force" => told(b::secondary_force(&engine(), a.n(1), a.n(2), a.n(3)).map_err(refused)?, a.n(4)),
        "secondary-couple" => told(b::secondary_couple(&engine(), a.n(1), a.n(2), a.n(3)).map_err(refused)?, a.n(4)),
        "pair-secondary" => b::pair_secondary(a.n(0), a.n(1), a.n(2), a.n(3), a.n(4)).map(Vec::from).map_err(refused),
        "two-planes" => Ok(b::two_planes(a.n(0), a.n(1), a.n(2)).to_vec()),
        _ => panic!("no balance.{what}"),
    }
}

pub fn roughness(what: &str, a: &Args) -> Answer {
    use thou_mechanics::roughness::{self as r, MaterialRatioCurve};
    let heights = a.list(0);
    let told = |e: r::Unusable| e.to_string();
    match what {
        "amplitudes" => Ok(vec![r::ra(&heights), r::rq(&heights)]),
        "rz" => one(r::rz(&heights)),
        "core" => {
            let core = MaterialRatioCurve::of(&heights).map_err(told)?.core();
            Ok(vec![core.rk, core.rpk, core.rvk, core.mr1, core.mr2])
        }
        "gaussian" => r::roughness(&heights, a.n(1), a.n(2)).map_err(told),
        "plateau" => r::plateau_roughness(&heights, a.n(1), a.n(2)).map_err(told),
        _ => panic!("no roughness.{what}"),
    }
}

pub fn wear(what: &str, a: &Args) -> Answer {
    use thou_mechanics::wear;
    match what {
        "depth" => tried(wear::depth(a.n(0), a.n(1), wear::ring_travel(a.n(2), a.n(3)), a.n(4))),
        "journal-way" => one(wear::journal_way(a.n(0), a.n(1))),
        _ => panic!("no wear.{what}"),
    }
}
