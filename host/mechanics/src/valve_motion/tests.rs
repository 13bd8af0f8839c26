#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use super::*;
use std::f64::consts::TAU;

fn lobe() -> PolydyneLobe {
    PolydyneLobe::from_duration(0.438 * 0.0254, 0.00127, 268f64.to_radians(), 6.0)
}

#[test]
fn the_polynomial_ends_without_a_step_in_lift_speed_acceleration_or_jerk() {
    for exponent in [4.0, 5.0, 6.3, 7.0, 10.0, 14.0] {
        let p = PolydyneLobe { lift: 0.011, half: 1.4, exponent };
        let scale = [0.011, 0.011 / 1.4, 0.011 / 1.96];
        let (near, end) = (p.at(1.4 * (1.0 - 1e-7)), p.at(1.4));
        assert!((near.lift - end.lift).abs() < 1e-9 * scale[0]);
        assert!((near.slope - end.slope).abs() < 1e-9 * scale[1]);
        assert!((near.curvature - end.curvature).abs() < 1e-8 * scale[2]);
        // the curvature leaves the base circle as the third power: jerk and the jerk's slope are zero there too
        let (far, close) = (p.at(1.4 * (1.0 - 1e-3)).curvature, p.at(1.4 * (1.0 - 1e-4)).curvature);
        assert!((far / close - 1000.0).abs() < 60.0, "{exponent}: {far} {close}");
        let nose = p.at(0.0);
        assert!((nose.lift - 0.011).abs() < 1e-15 && nose.slope == 0.0 && nose.curvature < 0.0);
    }
}

#[test]
fn slope_and_curvature_are_the_derivatives() {
    let p = lobe();
    for i in 1..200 {
        let angle = p.half * f64::from(i) / 200.0;
        let h = 1e-5;
        let (a, b, c) = (p.at(angle - h), p.at(angle), p.at(angle + h));
        assert!(((c.lift - a.lift) / (2.0 * h) - b.slope).abs() < 1e-7);
        assert!(((c.slope - a.slope) / (2.0 * h) - b.curvature).abs() < 1e-6);
        let mirror = p.at(-angle);
        assert!(mirror.lift == b.lift && mirror.slope == -b.slope && mirror.curvature == b.curvature);
    }
}

#[test]
fn it_falls_all_the_way_and_has_the_duration_it_was_asked_for() {
    for exponent in [4.0, 5.0, 6.0, 7.0, 14.0] {
        for crank in [200.0, 268.0, 330.0] {
            let p = PolydyneLobe::from_duration(0.0111, 0.00127, f64::to_radians(crank), exponent);
            assert!((p.at(f64::to_radians(crank) / 4.0).lift - 0.00127).abs() < 1e-9);
            let mut last = f64::INFINITY;
            for point in p.points(500) {
                assert!(point.lift < last && point.lift > -1e-15);
                last = point.lift;
            }
        }
    }
    assert!(PolydyneLobe::from_duration(0.001, 0.00127, 4.0, 6.0).half.is_nan(), "asked above its own lift");
    assert!(PolydyneLobe::from_duration(0.01, 0.00127, 4.0, 2.0).half.is_nan());
}

#[test]
fn a_read_table_gives_the_curve_back() {
    let p = lobe();
    for step in [1.0, 2.0] {
        let rows = (p.half.to_degrees() / step).ceil();
        let angles: Vec<f64> = (0..=(2.0 * rows) as i32).map(|i| (f64::from(i) - rows) * step).collect();
        let radians: Vec<f64> = angles.iter().map(|a| (a + 110.0).to_radians()).collect();
        // read to a tenth of a thou
        let lifts: Vec<f64> = angles.iter().map(|a| (p.at(a.to_radians()).lift / 2.54e-6).round() * 2.54e-6).collect();
        let points = table(&radians, &lifts).unwrap();
        let nose = p.at(0.0).curvature.abs();
        for point in points.iter().filter(|q| q.angle.abs() < p.half - WINDOW) {
            let true_to = p.at(point.angle);
            assert!((point.lift - true_to.lift).abs() < 3e-6);
            let off = (point.curvature - true_to.curvature).abs() / nose;
            assert!(off < if step < 1.5 { 0.045 } else { 0.06 }, "{step}: {:.1}: {off}", point.angle.to_degrees());
        }
        let read = greatest_deceleration(points.iter().copied());
        assert!((read / nose - 1.0).abs() < 0.04, "{read} {nose}");
        let closing = Closing { seat: 1150.0, rate: 110e3 };
        let (by_table, _) = leaves(points.iter().map(|q| q.at_valve(1.7, 0.0004)), closing, 0.33).unwrap();
        let (smooth, _) = leaves(p.points(200).map(|q| q.at_valve(1.7, 0.0004)), closing, 0.33).unwrap();
        assert!((by_table / smooth - 1.0).abs() < 0.02, "{by_table} {smooth}");
    }
}

#[test]
fn the_fit_is_exact_for_what_it_is_made_of() {
    let angles: Vec<f64> = (-20..=20).map(|i| f64::from(i) * 0.03).collect();
    let of = |x: f64| 0.01 - 0.02 * x * x + 0.003 * x.powi(3) + 0.004 * x.powi(4);
    let lifts: Vec<f64> = angles.iter().map(|x| of(*x)).collect();
    for (point, x) in table(&angles, &lifts).unwrap().iter().zip(&angles) {
        assert!((point.lift - of(*x)).abs() < 1e-12);
        assert!((point.curvature - (-0.04 + 0.018 * x + 0.048 * x * x)).abs() < 1e-8);
    }
}

#[test]
fn what_is_no_table_is_refused() {
    let angles: Vec<f64> = (0..30).map(|i| f64::from(i) * 0.02).collect();
    assert_eq!(table(&angles, &angles[1..]), Err(LobeTableFault::Rows));
    assert_eq!(table(&angles[..5], &angles[..5]), Err(LobeTableFault::Rows));
    let mut back = angles.clone();
    back.swap(3, 4);
    assert_eq!(table(&back, &angles), Err(LobeTableFault::Order));
    let wide: Vec<f64> = angles.iter().map(|a| a * 10.0).collect();
    assert_eq!(table(&wide, &angles), Err(LobeTableFault::Apart));
}

#[test]
fn the_valve_leaves_where_spring_and_inertia_are_equal_and_the_limit_goes_with_the_root_of_the_spring() {
    let points = || lobe().points(400).map(|q| q.at_valve(1.7, 0.0));
    let closing = Closing { seat: 1150.0, rate: 110e3 };
    let (speed, at) = leaves(points(), closing, 0.33).unwrap();
    assert!(closing.pressed(at, 0.33, speed).abs() < 1e-9 * closing.at(at.lift));
    assert!(points().all(|q| closing.pressed(q, 0.33, 0.999 * speed) > 0.0));
    let double = Closing { seat: 2300.0, rate: 220e3 };
    assert!((leaves(points(), double, 0.33).unwrap().0 / speed - std::f64::consts::SQRT_2).abs() < 1e-12);
    assert!((leaves(points(), closing, 0.66).unwrap().0 * std::f64::consts::SQRT_2 / speed - 1.0).abs() < 1e-12);
    assert!(leaves(points(), closing, 0.0).is_none() && leaves(std::iter::empty(), closing, 0.3).is_none());
}

#[test]
fn masses_beyond_the_rocker_count_by_the_square_of_its_ratio() {
    let m = Masses { valve: 0.11, retainer: 0.025, spring: 0.12, rocker: 0.06, pushrod: 0.08, lifter: 0.12 };
    assert!((m.at_valve(2.0) - (0.11 + 0.025 + 0.04 + 0.06 + 0.05)).abs() < 1e-15);
    assert!(m.at_valve(1.5) > m.at_valve(1.7));
}

#[test]
fn harmonics_of_known_curves() {
    // a lift of 1 + cos over a whole turn is all first harmonic
    let points = |n: i32| {
        (-n..=n).map(move |i| {
            let angle = f64::from(i) / f64::from(n) * TAU / 2.0;
            LiftPoint { angle, lift: 1.0 + angle.cos(), slope: 0.0, curvature: 0.0 }
        })
    };
    assert!((harmonic(points(360), 1.0) - 1.0).abs() < 1e-9);
    assert!(harmonic(points(360), 7.0) < 1e-9);
    // the harmonics of a lobe fall off, and a half curve is half the figure
    let p = lobe();
    let whole = |k: f64| harmonic((-300..=300).map(|i| p.at(p.half * f64::from(i) / 300.0)), k);
    assert!(whole(1.0) > whole(3.0) && whole(3.0) > whole(9.0) && whole(9.0) > 0.0);
}

#[test]
fn no_finite_input_brings_a_panic() {
    for v in [0.0, -1.0, 1e-300, 1e300, f64::MAX] {
        let p = PolydyneLobe { lift: v, half: v, exponent: v };
        let _ = p.at(v);
        let _ = PolydyneLobe::from_duration(v, v, v, v);
        let _ = leaves(p.points(3), Closing { seat: v, rate: v }, v);
        let _ = harmonic(p.points(3), v);
        let _ = table(&[v; 20], &[v; 20]);
    }
}
