#![allow(clippy::unwrap_used, clippy::print_stdout)]
use super::*;
use crate::big_end::{BigEnd, pulse};
use crate::journal_bearing::{Steady, sommerfeld, unit_load};
use crate::kinematics::Slider;
use crate::mobility::{Finite, ShortExact, ShortFit};

const PLAIN: Bearing = Bearing { diameter: 0.053_34, length: 0.02, lands: 1.0, clearance: 31.75e-6, viscosity: 8e-3 };

fn rod(angle: f64, speed: f64) -> Load {
    let gear = BigEnd { slider: Slider::new(0.088_392, 0.144_78), bore: 0.102_362, reciprocating: 0.7, rotating: 0.45 };
    gear.load(angle, speed, pulse(angle, 7e6, 14.0, 25.0))
}

fn at_rpm(rpm: f64) -> f64 {
    rpm * TAU / 60.0
}

#[test]
fn a_steady_load_settles_where_the_steady_theory_has_it() {
    let speed = at_rpm(3_000.0);
    for ratio in [0.125, 0.2, 0.375, 0.5, 0.7] {
        let bearing = Bearing { length: ratio * PLAIN.diameter, ..PLAIN };
        for force in [500.0, 3_000.0, 12_000.0] {
            let steady = |_| Load { x: force, y: 0.0, mean: speed / 2.0, relative: speed };
            let found = orbit(bearing, &Finite::new(ratio), speed, &Loads::of(steady)).unwrap();
            let unit = unit_load(force, bearing.length, bearing.diameter);
            let number = sommerfeld(0.026_67, bearing.clearance, bearing.viscosity, speed / TAU, unit);
            let Ok(theory) = Steady::at_number(number, ratio) else { continue };
            let film = theory.film() * bearing.clearance;
            assert!((found.least / film - 1.0).abs() < 0.02, "{ratio} {force}: {} {film}", found.least);
            let power = theory.friction() * bearing.clearance / 0.026_67 * force * speed * 0.026_67;
            assert!((found.power / power - 1.0).abs() < 0.02, "{ratio} {force}: {} {power}", found.power);
            assert!((found.mean_eccentricity - theory.eccentricity).abs() < 0.01);
        }
    }
}

#[test]
fn a_load_that_turns_at_half_speed_squeezes_the_film_away() {
    let speed = at_rpm(6_500.0);
    let force = 5_000.0;
    let ratio = PLAIN.length / PLAIN.diameter;
    let k = force * scale(PLAIN, speed).unwrap();
    let half =
        |a: f64| Load { x: force * (a / 2.0).cos(), y: force * (a / 2.0).sin(), mean: speed / 2.0, relative: speed };
    let to = |time: f64| time * ratio * ratio / k * speed;
    let e = |at: [f64; 2]| at[0].hypot(at[1]);
    let fit = follow(PLAIN, &ShortFit { ratio }, speed, half, (0.0, [0.0; 2]), to(185.234_0)).unwrap();
    assert!((e(fit) - 0.95).abs() < 2e-5, "{}", e(fit));
    let exact = follow(PLAIN, &ShortExact { ratio }, speed, half, (0.0, [0.0; 2]), to(194.757_6)).unwrap();
    assert!((e(exact) - 0.95).abs() < 2e-5, "{}", e(exact));
    // at any other speed it finds a place
    let third = |a: f64| Load { x: force * (a / 3.0).cos(), y: force * (a / 3.0).sin(), ..half(0.0) };
    let held = follow(PLAIN, &ShortFit { ratio }, speed, third, (0.0, [0.0; 2]), to(1_852.0)).unwrap();
    let later = follow(PLAIN, &ShortFit { ratio }, speed, third, (0.0, [0.0; 2]), to(3_704.0)).unwrap();
    assert!((e(held) - e(later)).abs() < 1e-3 && e(later) < 0.95);
}

#[test]
fn heavier_thinner_and_faster_do_what_they_do() {
    let map = Finite::new(0.375);
    let least = |bearing: Bearing, by: f64, speed: f64| {
        let load = |a: f64| {
            let l = rod(a, speed);
            Load { x: l.x * by, y: l.y * by, ..l }
        };
        orbit(bearing, &map, speed, &Loads::of(load)).unwrap().least
    };
    let speed = at_rpm(6_500.0);
    let usual = least(PLAIN, 1.0, speed);
    assert!(least(PLAIN, 1.2, speed) < usual);
    assert!(least(Bearing { viscosity: 10e-3, ..PLAIN }, 1.0, speed) > usual);
    assert!(least(Bearing { viscosity: 4e-3, ..PLAIN }, 1.0, speed) < usual);
    // load and viscosity by the same factor leave the orbit alone
    let both = least(Bearing { viscosity: 9.6e-3, ..PLAIN }, 1.2, speed);
    assert!((both / usual - 1.0).abs() < 1e-9);
    // and so do sizes, all of them twice, under four times the load
    let big = Bearing { diameter: 2.0 * PLAIN.diameter, length: 0.04, clearance: 63.5e-6, ..PLAIN };
    assert!((least(big, 4.0, speed) / usual - 2.0).abs() < 1e-9);
    // half the load on half the lands
    let grooved = Bearing { lands: 2.0, ..PLAIN };
    assert!((least(grooved, 2.0, speed) / usual - 1.0).abs() < 1e-9);
}

#[test]
fn the_steps_are_fine_enough_and_few() {
    for rpm in [800.0, 3_000.0, 6_500.0, 9_000.0] {
        let speed = at_rpm(rpm);
        let started = std::time::Instant::now();
        let found = orbit(PLAIN, &Finite::new(0.375), speed, &Loads::of(|a| rod(a, speed))).unwrap();
        let took = started.elapsed();
        println!(
            "{rpm}: {:?} {} {:.4e} at {:.2} peak {:.1} at {:.0} power {:.0} flow {:.2e}",
            took,
            found.evaluations,
            found.least,
            found.least_at.to_degrees(),
            found.peak,
            found.peak_at.to_degrees(),
            found.power,
            found.flow
        );
        assert!(found.evaluations < 6_000, "{}", found.evaluations);
        // the same path in steps of a twentieth of a degree
        let map = Finite::new(0.375);
        let (mut at, mut least) = ([0.0; 2], 1.0_f64);
        for pass in 0..2 {
            for n in 0..14_400_i32 {
                let (from, to) = (f64::from(n), f64::from(n + 1));
                let angle = |n: f64| (n / 20.0 - 360.0).to_radians();
                at = follow(PLAIN, &map, speed, |a| rod(a, speed), (angle(from), at), angle(to)).unwrap();
                if pass == 1 {
                    least = least.min(1.0 - at[0].hypot(at[1]));
                }
            }
        }
        let off = found.least / (least * PLAIN.clearance) - 1.0;
        println!("off {off:.2e}");
        assert!(off.abs() < 2e-3, "{rpm}: {off}");
    }
}

#[test]
fn nothing_finite_makes_it_fail() {
    let map = Finite::new(0.375);
    for force in [0.0, 1e-300, 1e9, 1e300, -1e12] {
        for mean in [-1e6, 0.0, 340.0] {
            let load = |a: f64| Load { x: force * a.cos(), y: force * a.sin(), mean, relative: 2.0 * mean };
            if let Ok(found) = orbit(PLAIN, &map, 680.0, &Loads::of(load)) {
                assert!(found.least.is_finite() && found.least >= 0.0 && found.power.is_finite());
            }
        }
    }
    let load = |_| Load { x: f64::NAN, y: 0.0, mean: 340.0, relative: 680.0 };
    assert!(orbit(PLAIN, &map, 680.0, &Loads::of(load)).is_err());
    for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let still = |_| Load { x: 1.0, y: 0.0, mean: 340.0, relative: 680.0 };
        assert!(orbit(Bearing { clearance: bad, ..PLAIN }, &map, 680.0, &Loads::of(still)).is_err());
        assert!(orbit(PLAIN, &map, bad, &Loads::of(still)).is_err());
    }
}
