//! Joints, springs, valves in their seats, power against size, and surfaces.

use crate::draw::{Draw, fields, walks};
use thou_mechanics::bolt::{self, TAN_30, Thread};
use thou_mechanics::flow::{self, Upstream, ValveSeat};
use thou_mechanics::fuel::{self, Fuel};
use thou_mechanics::performance;
use thou_mechanics::roughness::{self, CoreRoughness, MaterialRatioCurve};
use thou_mechanics::valve_spring::{self, Coil, Ends};

fields! {
    Upstream: pressure, temperature, gamma, constant;
    ValveSeat: head, port, stem, width, angle;
    CoreRoughness: rk, rpk, rvk, mr1, mr2;
}

pub const FUELS: [Fuel; 4] = [Fuel::Petrol, Fuel::E85, Fuel::Ethanol, Fuel::Methanol];

fn thread(d: &mut Draw) -> Thread {
    let diameter = d.over(2e-3, 0.05);
    Thread { diameter, pitch: diameter * d.between(0.05, 0.25), metric: d.rng.bool() }
}

fn coil(d: &mut Draw) -> Coil {
    let wire = d.over(5e-4, 0.02);
    let mean = wire * d.between(1.5, 16.0);
    Coil { wire, mean, active: d.over(1.0, 30.0), shear_modulus: d.over(1e10, 1e11), density: d.over(1e3, 1e4) }
}

fn upstream(d: &mut Draw) -> Upstream {
    let (gamma, constant) = (d.between(1.05, 1.7), d.over(100.0, 5e3));
    Upstream { pressure: d.over(1e3, 1e8), temperature: d.over(150.0, 4e3), gamma, constant }
}

fn seat(d: &mut Draw) -> ValveSeat {
    let head = d.over(0.01, 0.1);
    let port = head * d.between(0.5, 0.98);
    let (stem, width) = (port * d.between(0.05, 0.4), head * d.between(0.005, 0.2));
    ValveSeat { head, port, stem, width, angle: d.between(0.05, 1.5) }
}

fn heights(d: &mut Draw) -> Vec<f64> {
    let count = d.whole(100, 400) as usize;
    (0..count).map(|_| d.between(-5e-6, 2e-6)).collect()
}

fn curve(d: &mut Draw) -> Option<MaterialRatioCurve> {
    MaterialRatioCurve::of(&heights(d)).ok()
}

/// Cut-off and spacing for a profile of a hundred heights and more.
fn cut(d: &mut Draw) -> [f64; 2] {
    let spacing = d.over(1e-7, 1e-5);
    [spacing, spacing * d.between(2.0, 99.0)]
}

walks! { d:
    "bolt::Thread::pitch_diameter" => thread(d).pitch_diameter();
    "bolt::Thread::root_diameter" => thread(d).root_diameter();
    "bolt::Thread::stress_diameter" => thread(d).stress_diameter();
    "bolt::Thread::stress_area" => thread(d).stress_area();
    "bolt::tension_by_factor" => bolt::tension_by_factor(d.over(0.1, 1e4), d.over(0.05, 0.5), d.size());
    "bolt::torque_by_factor" => bolt::torque_by_factor(d.force(), d.over(0.05, 0.5), d.size());
    "bolt::torque_factor" => bolt::torque_factor(thread(d), d.between(0.0, 0.5), d.between(0.0, 0.5));
    "bolt::collar_diameter" => bolt::collar_diameter(d.size(), d.size());
    "bolt::torque_by_friction" => bolt::torque_by_friction(thread(d), d.force(), d.between(0.0, 0.5), d.between(0.0, 0.5), d.size());
    "bolt::tension_by_friction" => bolt::tension_by_friction(thread(d), d.over(0.1, 1e4), d.between(0.0, 0.5), d.between(0.0, 0.5), d.size());
    "bolt::assembly_tension" => bolt::assembly_tension(thread(d), d.over(1e8, 3e9), d.between(0.0, 0.5), d.between(0.1, 1.0));
    "bolt::tension_by_stretch" => bolt::tension_by_stretch(d.over(1e-6, 1e-3), d.over(1e-6, 1e-3), d.over(1e9, 1e12), d.size());
    "bolt::stretch" => bolt::stretch(d.force(), d.size(), d.over(1e-6, 1e-3), d.over(1e9, 1e12));
    "bolt::turn_of_nut" => bolt::turn_of_nut(d.over(1e-6, 1e-3), d.over(1e-4, 1e-2));
    "bolt::bolt_stiffness" => bolt::bolt_stiffness(d.size(), d.over(1e-6, 1e-3), d.size(), d.over(1e-6, 1e-3), d.over(1e9, 1e12));
    "bolt::frustum" => {
        let diameter = d.size();
        bolt::frustum(d.over(1e9, 1e12), diameter, diameter * d.between(1.05, 3.0), d.size(), TAN_30)
    };
    "bolt::members" => {
        let diameter = d.size();
        bolt::members(d.over(1e9, 1e12), diameter, diameter * d.between(1.05, 3.0), d.size(), TAN_30)
    };
    "bolt::load_factor" => bolt::load_factor(d.over(1e6, 1e10), d.over(1e6, 1e10));
    "bolt::loaded_tension" => bolt::loaded_tension(d.force(), d.share(), d.force());
    "bolt::clamp_left" => bolt::clamp_left(d.force(), d.share(), d.force());
    "bolt::separation" => bolt::separation(d.force(), d.between(0.0, 0.95), d.force());
    "bolt::goodman_preloaded" => bolt::goodman_preloaded(d.pressure(), d.pressure(), d.pressure(), d.pressure());
    "bolt::lift_off" => bolt::lift_off(d.pressure(), d.size());
    "bolt::clamp_ratio" => bolt::clamp_ratio(d.between(1.0, 20.0), d.force(), d.force());
    "valve_spring::Coil::index" => coil(d).index();
    "valve_spring::Coil::rate" => coil(d).rate();
    "valve_spring::Coil::active_for" => coil(d).active_for(d.over(1e3, 1e6));
    "valve_spring::Coil::stress" => coil(d).stress(d.force(), d.between(1.0, 2.0));
    "valve_spring::Coil::force_for" => coil(d).force_for(d.pressure(), d.between(1.0, 2.0));
    "valve_spring::Coil::mass" => coil(d).mass();
    "valve_spring::Coil::surge" => coil(d).surge();
    "valve_spring::Coil::surge_direct" => coil(d).surge_direct();
    "valve_spring::direct_shear" => valve_spring::direct_shear(d.over(0.1, 1e3));
    "valve_spring::wahl" => valve_spring::wahl(d.between(1.01, 100.0));
    "valve_spring::bergstrasser" => valve_spring::bergstrasser(d.between(1.01, 100.0));
    "valve_spring::solid_height" => valve_spring::solid_height(d.over(1.0, 30.0), d.over(5e-4, 0.02), d.one(&[Ends::Squared, Ends::SquaredAndGround]));
    "valve_spring::wire_strength" => valve_spring::wire_strength(d.over(1e8, 1e10), d.between(0.0, 0.5), d.over(5e-4, 0.02), d.one(&[1e-3, 0.0254]));
    "valve_spring::bind_margin" => valve_spring::bind_margin(d.size(), d.size(), d.size());
    "valve_spring::open_load" => valve_spring::open_load(d.force(), d.over(1e3, 1e6), d.size());
    "valve_spring::surge_ratio" => valve_spring::surge_ratio(d.over(10.0, 2e3), d.omega());
    "flow::Upstream::air" => Upstream::air(d.over(1e3, 1e7), d.over(200.0, 2e3));
    "flow::critical_ratio" => flow::critical_ratio(d.between(1.05, 1.7));
    "flow::orifice" => {
        let up = upstream(d);
        flow::orifice(d.over(1e-7, 1e-2), d.share(), up, up.pressure * d.between(0.0, 1.5))
    };
    "flow::choked" => flow::choked(d.over(1e-7, 1e-2), d.share(), upstream(d));
    "flow::ideal_velocity" => flow::ideal_velocity(d.between(0.0, 1e5), d.over(0.1, 1e4));
    "flow::bench_flow" => flow::bench_flow(d.over(1e-7, 1e-2), d.share(), d.between(0.0, 1e5), d.over(0.1, 1e4));
    "flow::valve_for_mach" => flow::valve_for_mach(d.size(), d.over(0.1, 2.0), d.between(1.0, 3.0), d.over(1.0, 50.0), d.over(0.1, 0.8), d.over(200.0, 500.0));
    "flow::while_open" => flow::while_open(d.over(1e-3, 10.0), d.over(1.0, 8.0));
    "flow::radial_width" => flow::radial_width(d.size(), d.between(0.0, 1.5));
    "flow::ValveSeat::checked" => seat(d).checked();
    "flow::ValveSeat::port_area" => seat(d).port_area();
    "flow::ValveSeat::first_stage_ends" => seat(d).first_stage_ends();
    "flow::ValveSeat::port_limits_from" => seat(d).port_limits_from();
    "flow::ValveSeat::least_area" => seat(d).least_area(d.between(-1e-3, 0.05));
    "flow::ValveSeat::with_angle" => seat(d).with_angle(d.between(0.05, 1.5));
    "performance::torque" => performance::torque(d.over(1e3, 1e7), d.omega());
    "performance::bmep" => performance::bmep(d.over(1.0, 1e4), d.over(1e-5, 0.1));
    "performance::torque_between" => {
        let ([from, most], longer) = ([d.omega(), d.over(10.0, 3e3)], d.between(1.1, 1.5));
        // falls by a third of what the last slope would have it fall, so that it never rises on the way
        let last = most / (1.0 + (1.0 - 1.0 / longer) / 3.0) * d.between(0.8, 1.0);
        performance::torque_between(from * d.between(1.0, longer), [from, most], [from * longer, last])
    };
    "performance::run_time_ratio" => performance::run_time_ratio(d.over(0.1, 10.0), d.over(0.1, 10.0));
    "performance::specific_power" => performance::specific_power(d.over(1e3, 1e7), d.over(1e-5, 0.1));
    "performance::speed_of_sound" => performance::speed_of_sound(d.over(50.0, 5e3));
    "performance::mach_index" => performance::mach_index(d.size(), d.size(), d.between(1.0, 3.0), d.over(1.0, 50.0), d.over(0.1, 0.8), d.over(200.0, 500.0));
    "performance::curtain" => performance::curtain(d.size(), d.size());
    "fuel::usual_consumption" => fuel::usual_consumption(d.one(&FUELS), d.rng.bool());
    "fuel::density" => fuel::density(d.one(&FUELS));
    "fuel::need" => fuel::need(d.over(1e3, 1e7), d.over(1e-9, 1e-6));
    "fuel::margin" => fuel::margin(d.over(1e-6, 1.0), d.over(1e-6, 1.0));
    "roughness::ra" => roughness::ra(&heights(d));
    "roughness::rq" => roughness::rq(&heights(d));
    "roughness::rz" => roughness::rz(&heights(d));
    "roughness::MaterialRatioCurve::of" => MaterialRatioCurve::of(&heights(d)).map(|c| c.height(0.5));
    "roughness::MaterialRatioCurve::height" => {
        let share = d.between(-0.1, 1.1);
        curve(d).map(|c| c.height(share))
    };
    "roughness::MaterialRatioCurve::core" => curve(d).map(|c| c.core());
    "roughness::roughness" => {
        let [spacing, cut_off] = cut(d);
        roughness::roughness(&heights(d), spacing, cut_off)
    };
    "roughness::plateau_roughness" => {
        let [spacing, cut_off] = cut(d);
        roughness::plateau_roughness(&heights(d), spacing, cut_off)
    };
}
