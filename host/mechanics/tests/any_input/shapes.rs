//! Sizes, ways and forces of what moves.

use crate::draw::{Draw, endless, fields, maybe, walks};
use std::f64::consts::PI;
use thou_mechanics::balance::{self, Arrangement, CylinderPlace, Shake};
use thou_mechanics::big_end::{self, BigEnd};
use thou_mechanics::geometry::{self, ClearanceVolume};
use thou_mechanics::honing::{self, Hone};
use thou_mechanics::inertia::{self, Beam};
use thou_mechanics::kinematics::{self, Slider};
use thou_mechanics::main_bearing::{Mains, OnCrank};
use thou_mechanics::orbit::{Load, Loads};
use thou_mechanics::valve_motion::{self, Closing, LiftPoint, Masses, PolydyneLobe};
use thou_mechanics::{expansion, fatigue, rings, wear};

fields! {
    Slider: radius, rod, offset;
    Load: x, y, mean, relative;
    LiftPoint: angle, lift, slope, curvature;
    PolydyneLobe: lift, half, exponent;
    Hone: bore, stroke, strokes, spindle;
    Shake: with, against;
    CylinderPlace: pin, axis, position, mass;
    fatigue::StressLifeLine: a, b;
}

pub fn slider(d: &mut Draw) -> Slider {
    let radius = d.over(0.02, 0.1);
    Slider { radius, rod: radius * d.over(1.6, 8.0), offset: radius * d.between(-0.2, 0.2) }
}

pub fn gear(d: &mut Draw) -> BigEnd {
    BigEnd { slider: slider(d), bore: d.over(0.05, 0.2), reciprocating: d.over(0.1, 5.0), rotating: d.over(0.1, 5.0) }
}

fn beam(d: &mut Draw) -> Beam {
    let (length, area) = (d.size(), d.over(1e-5, 1e-2));
    Beam { length, area, modulus: d.over(1e9, 1e12), density: d.over(1e3, 1e4) }
}

fn clearance(d: &mut Draw) -> ClearanceVolume {
    let volume = |d: &mut Draw| d.over(1e-7, 1e-3);
    let deck = d.between(-1e-6, 1e-5);
    ClearanceVolume {
        chamber: volume(d),
        gasket: volume(d),
        deck,
        dish: volume(d),
        dome: volume(d),
        crevice: volume(d),
    }
}

fn hone(d: &mut Draw) -> Hone {
    Hone {
        bore: d.over(0.03, 0.3),
        stroke: d.over(0.02, 0.4),
        strokes: d.over(0.05, 10.0),
        spindle: d.over(1.0, 100.0),
    }
}

fn polynomial(d: &mut Draw) -> PolydyneLobe {
    PolydyneLobe { lift: d.over(1e-3, 0.05), half: d.over(0.3, 2.0), exponent: d.between(4.0, 14.0) }
}

fn closing(d: &mut Draw) -> Closing {
    Closing { seat: d.over(10.0, 1e4), rate: d.over(1e3, 1e6) }
}

fn masses(d: &mut Draw) -> Masses {
    let part = |d: &mut Draw| d.over(1e-3, 1.0);
    Masses { valve: part(d), retainer: part(d), spring: part(d), rocker: part(d), pushrod: part(d), lifter: part(d) }
}

/// Rows of a lobe, every degree of 80 to each side.
fn rows(d: &mut Draw) -> (Vec<f64>, Vec<f64>) {
    let lobe = polynomial(d);
    let angles: Vec<f64> = (-80..=80).map(|i| f64::from(i).to_radians()).collect();
    let lifts = angles.iter().map(|a| lobe.at(*a).lift + d.between(-1e-6, 1e-6)).collect();
    (angles, lifts)
}

fn crank(d: &mut Draw) -> Vec<CylinderPlace> {
    let count = d.whole(0, 12);
    let one = |d: &mut Draw| CylinderPlace {
        pin: d.angle(),
        axis: d.angle(),
        position: d.between(-1.0, 1.0),
        mass: d.mass(),
    };
    (0..count).map(|_| one(d)).collect()
}

fn shake(d: &mut Draw) -> Shake {
    let vector = |d: &mut Draw| [d.between(-1e5, 1e5), d.between(-1e5, 1e5)];
    Shake { with: vector(d), against: vector(d) }
}

fn line(d: &mut Draw) -> fatigue::StressLifeLine {
    let (strength, share) = (d.over(2e8, 3e9), d.between(0.7, 0.95));
    let limit = share * strength * d.between(0.2, 0.9);
    fatigue::StressLifeLine::of_steel(share, strength, limit).unwrap_or(fatigue::StressLifeLine {
        a: strength,
        b: -0.1,
        endurance: None,
    })
}

fn duty(d: &mut Draw) -> Vec<[f64; 2]> {
    (0..d.whole(0, 20)).map(|_| [d.over(0.1, 1e4), d.omega()]).collect()
}

/// Stress that swings, its mean under the strength.
fn swing(d: &mut Draw) -> [f64; 3] {
    let strength = d.over(1e8, 3e9);
    [d.over(1e5, 1e9), strength * d.between(-0.9, 0.95), strength]
}

fn gas(angle: f64) -> f64 {
    big_end::pulse(angle, 7e6, 14.0, 25.0)
}

fn mains(d: &mut Draw, of: impl Fn(&Mains<'_>, &mut Draw) -> Load) -> Load {
    let cylinders: Vec<OnCrank> =
        (0..d.whole(0, 8)).map(|i| OnCrank { pin: i as usize / 2, axis: d.angle(), turn: d.angle() }).collect();
    let gear = gear(d);
    let countered = d.over(0.01, 5.0);
    of(&Mains { gear, cylinders: &cylinders, countered }, d)
}

walks! { d:
    "kinematics::Slider::new" => Slider::new(d.size(), d.size());
    "kinematics::Slider::checked" => slider(d).checked();
    "kinematics::Slider::lambda" => slider(d).lambda();
    "kinematics::Slider::top_dead_centre" => slider(d).top_dead_centre();
    "kinematics::Slider::slant_at" => slider(d).slant_at(d.angle());
    "kinematics::Slider::bottom_dead_centre" => slider(d).bottom_dead_centre();
    "kinematics::Slider::stroke" => slider(d).stroke();
    "kinematics::Slider::below_top" => slider(d).below_top(d.angle());
    "kinematics::Slider::speed" => slider(d).speed(d.angle(), d.omega());
    "kinematics::Slider::acceleration" => slider(d).acceleration(d.angle(), d.omega());
    "kinematics::Slider::speed_two_term" => slider(d).speed_two_term(d.angle(), d.omega());
    "kinematics::Slider::acceleration_two_term" => slider(d).acceleration_two_term(d.angle(), d.omega());
    "kinematics::Slider::rod_slant" => slider(d).rod_slant();
    "kinematics::Slider::fastest" => slider(d).fastest();
    "kinematics::Slider::greatest_speed" => slider(d).greatest_speed(d.omega());
    "kinematics::mean_speed" => kinematics::mean_speed(d.size(), d.omega());
    "inertia::load" => inertia::load(d.mass(), d.over(1.0, 1e6));
    "inertia::stretch_with_own_mass" => inertia::stretch_with_own_mass(beam(d), d.force(), d.over(1.0, 1e6));
    "big_end::BigEnd::load" => gear(d).load(d.angle(), d.omega(), d.between(-1e5, 3e7));
    "big_end::pulse" => big_end::pulse(d.angle(), d.over(1e5, 3e7), d.between(0.0, 40.0), d.over(5.0, 60.0));
    "main_bearing::Mains::count" => mains(d, |m, _| Load { x: m.count() as f64, y: 0.0, mean: 0.0, relative: 0.0 });
    "main_bearing::Mains::load" => mains(d, |m, d| m.load(d.whole(0, 6) as usize, d.angle(), d.omega(), gas));
    "main_bearing::Mains::loads" => mains(d, |m, d| {
        let (speed, peak) = (d.omega(), d.over(1e6, 3e7));
        let pin = Loads::of(|angle| m.gear.load(angle, speed, big_end::pulse(angle, peak, 14.0, 25.0)));
        let nothing = Load { x: 0.0, y: 0.0, mean: 0.0, relative: 0.0 };
        m.loads(0..d.whole(0, 6) as usize, &pin, speed).last().map_or(nothing, |l| l.at(d.angle()))
    });
    "geometry::disc" => geometry::disc(d.size(), d.between(-0.01, 1.0));
    "geometry::swept_volume" => geometry::swept_volume(d.size(), d.size());
    "geometry::crevice_volume" => geometry::crevice_volume(d.size(), d.size(), d.size());
    "geometry::ClearanceVolume::sum" => clearance(d).sum();
    "geometry::compression" => geometry::compression(d.over(1e-5, 1e-2), d.over(1e-6, 1e-3));
    "geometry::stroke_left" => geometry::stroke_left(slider(d), d.between(0.0, PI));
    "geometry::effective_compression" => geometry::effective_compression(slider(d), d.between(2.0, 30.0), d.between(0.0, PI));
    "rings::closing_gap" => rings::closing_gap(d.size(), d.over(1e-6, 1e-4), d.between(-200.0, 500.0), d.over(1e-6, 1e-4), d.between(-200.0, 500.0));
    "expansion::Material::properties" => {
        let p = d.one(&expansion::Material::ALL).properties();
        (p.expansion, p.range)
    };
    "expansion::growth" => expansion::growth(d.over(1e-6, 1e-4), d.size(), d.between(-200.0, 1_000.0));
    "expansion::closing" => expansion::closing(d.size(), d.over(1e-6, 1e-4), d.between(-200.0, 500.0), d.over(1e-6, 1e-4), d.between(-200.0, 500.0));
    "honing::Hone::checked" => hone(d).checked();
    "honing::Hone::surface_speed" => hone(d).surface_speed();
    "honing::Hone::mean_axial_speed" => hone(d).mean_axial_speed();
    "honing::Hone::mid_stroke_axial_speed" => hone(d).mid_stroke_axial_speed();
    "honing::Hone::mean_angle" => hone(d).mean_angle();
    "honing::Hone::mid_stroke_angle" => hone(d).mid_stroke_angle();
    "honing::Hone::angle_at" => {
        let hone = hone(d);
        hone.angle_at(hone.stroke * d.between(-0.5, 0.5))
    };
    "honing::Hone::strokes_for" => hone(d).strokes_for(d.over(1e-3, 3.1));
    "honing::Hone::spindle_for" => hone(d).spindle_for(d.over(1e-3, 3.1));
    "honing::about_the_axis" => honing::about_the_axis(d.between(0.0, PI));
    "honing::stroke_for" => honing::stroke_for(d.size(), d.size(), d.size());
    "honing::overstroke" => honing::overstroke(d.size(), d.size(), d.size());
    "valve_motion::net_lift" => valve_motion::net_lift(d.size(), d.over(0.5, 3.0), d.size());
    "valve_motion::LiftPoint::at_valve" => polynomial(d).at(d.between(-2.0, 2.0)).at_valve(d.over(0.5, 3.0), d.over(1e-5, 1e-3));
    "valve_motion::LiftPoint::speed" => polynomial(d).at(d.between(-2.0, 2.0)).speed(d.omega());
    "valve_motion::LiftPoint::acceleration" => polynomial(d).at(d.between(-2.0, 2.0)).acceleration(d.omega());
    "valve_motion::PolydyneLobe::from_duration" => {
        let lift = d.over(1e-3, 0.05);
        PolydyneLobe::from_duration(lift, lift * d.between(0.001, 0.99), d.over(0.5, 7.0), d.between(4.0, 14.0))
    };
    "valve_motion::PolydyneLobe::at" => polynomial(d).at(d.between(-4.0, 4.0));
    "valve_motion::PolydyneLobe::points" => polynomial(d).points(d.whole(0, 40)).collect::<Vec<_>>();
    "valve_motion::Masses::at_valve" => masses(d).at_valve(d.over(0.5, 3.0));
    "valve_motion::Closing::at" => closing(d).at(d.between(-0.01, 0.05));
    "valve_motion::Closing::pressed" => closing(d).pressed(polynomial(d).at(d.between(-2.0, 2.0)), d.mass(), d.omega());
    "valve_motion::leaves" => valve_motion::leaves(polynomial(d).points(30), closing(d), d.over(0.01, 2.0));
    "valve_motion::pressed_between" => valve_motion::pressed_between(polynomial(d).points(30), closing(d), d.over(0.01, 2.0), d.omega());
    "valve_motion::greatest_deceleration" => valve_motion::greatest_deceleration(polynomial(d).points(30));
    "valve_motion::from_per_degree" => valve_motion::from_per_degree(d.over(1e-9, 1e-4), d.omega());
    "valve_motion::harmonic" => valve_motion::harmonic(polynomial(d).points(30), d.between(0.0, 40.0));
    "lobe_table::table" => {
        let (angles, lifts) = rows(d);
        valve_motion::table(&angles, &lifts)
    };
    "balance::bobweight" => balance::bobweight(d.between(1.0, 4.0), d.mass(), d.mass(), d.share());
    "balance::bobweight_factor" => maybe(balance::bobweight_factor(d.one(&[Arrangement::Single, Arrangement::InLine, Arrangement::Vee, Arrangement::Flat])));
    "balance::unbalance_force" => balance::unbalance_force(d.mass(), d.size(), d.omega());
    "balance::permissible" => balance::permissible(d.over(1e-4, 4.0), d.mass(), d.omega());
    "balance::permissible_offset" => balance::permissible_offset(d.over(1e-4, 4.0), d.omega());
    "balance::grade" => balance::grade(d.over(1e-6, 1.0), d.mass(), d.omega());
    "balance::single" => balance::single(d.share(), d.mass(), d.size(), d.omega());
    "balance::CylinderPlace::at_top" => CylinderPlace::at_top(d.angle(), d.angle(), d.between(-1.0, 1.0), d.mass());
    "balance::Shake::greatest" => shake(d).greatest();
    "balance::Shake::least" => shake(d).least();
    "balance::Shake::along" => shake(d).along(d.angle());
    "balance::Shake::without" => shake(d).without([d.force(), d.force()]);
    "balance::Shake::beyond_counterweights" => shake(d).beyond_counterweights();
    "balance::primary_force" => balance::primary_force(&crank(d), d.size(), d.omega());
    "balance::primary_couple" => balance::primary_couple(&crank(d), d.size(), d.omega());
    "balance::secondary_force" => balance::secondary_force(&crank(d), d.size(), d.size(), d.omega());
    "balance::secondary_couple" => balance::secondary_couple(&crank(d), d.size(), d.size(), d.omega());
    "balance::pair_secondary" => balance::pair_secondary(d.between(0.0, PI), d.mass(), d.size(), d.size(), d.omega());
    "balance::two_planes" => balance::two_planes(d.over(1e-6, 1.0), d.over(1e-6, 1.0), d.angle());
    "balance::even_firing" => balance::even_firing(d.whole(0, 16) as usize, d.whole(1, 16) as usize);
    "fatigue::StressLifeLine::of_steel" => {
        let (share, strength) = (d.between(0.7, 0.95), d.over(2e8, 3e9));
        fatigue::StressLifeLine::of_steel(share, strength, share * strength * d.between(0.1, 0.9))
    };
    "fatigue::StressLifeLine::through" => {
        let (few, low) = (d.over(1.0, 1e5), d.over(1e6, 1e9));
        fatigue::StressLifeLine::through(few, low * d.over(1.01, 20.0), few * d.over(2.0, 1e5), low)
    };
    "fatigue::StressLifeLine::life" => endless(line(d).life(d.over(1e7, 3e9)));
    "fatigue::StressLifeLine::drawn_out" => line(d).drawn_out(d.over(1e7, 3e9));
    "fatigue::StressLifeLine::strength" => line(d).strength(d.over(1.0, 1e9));
    "fatigue::StressLifeLine::power" => line(d).power();
    "fatigue::amplitude_and_mean" => fatigue::amplitude_and_mean(d.between(-1e9, 1e9), d.between(-1e9, 1e9));
    "fatigue::goodman" => {
        let [amplitude, mean, strength] = swing(d);
        fatigue::goodman(amplitude, mean, strength)
    };
    "fatigue::gerber" => {
        let [amplitude, mean, strength] = swing(d);
        fatigue::gerber(amplitude, mean, strength)
    };
    "fatigue::smith_watson_topper" => fatigue::smith_watson_topper(d.over(1e5, 1e9), d.between(-1e9, 1e9));
    "fatigue::safety_goodman" => fatigue::safety_goodman(d.over(1e5, 1e9), d.between(-1e9, 1e9), d.pressure(), d.pressure());
    "fatigue::safety_soderberg" => fatigue::safety_soderberg(d.over(1e5, 1e9), d.between(-1e9, 1e9), d.pressure(), d.pressure());
    "fatigue::miner" => fatigue::miner(&duty(d));
    "fatigue::turns" => fatigue::turns(d.over(0.1, 1e5), d.omega());
    "fatigue::equivalent_turns" => fatigue::equivalent_turns(&duty(d), d.omega(), d.between(0.0, 10.0));
    "wear::volume" => wear::volume(d.over(1e-9, 1e-2), d.force(), d.over(1.0, 1e7), d.over(1e8, 2e10));
    "wear::depth" => wear::depth(d.over(1e-9, 1e-2), d.pressure(), d.over(1.0, 1e7), d.over(1e8, 2e10));
    "wear::coefficient" => wear::coefficient(d.over(1e-9, 1e-3), d.pressure(), d.over(1.0, 1e7), d.over(1e8, 2e10));
    "wear::ring_travel" => wear::ring_travel(d.size(), d.over(1.0, 1e9));
    "wear::journal_way" => wear::journal_way(d.size(), d.over(1.0, 1e9));
    "wear::ring_travel_of" => wear::ring_travel_of(d.size(), &duty(d));
}
