//! Layouts whose balance every textbook tells, and the sums against plain addition over a turn.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use super::*;
use std::f64::consts::{FRAC_PI_2, SQRT_2};

const R: f64 = 0.044;
const L: f64 = 0.15;
const W: f64 = 700.0;
const M: f64 = 0.6;

fn unit() -> f64 {
    M * R * W * W
}

/// Cylinders of a firing order, evenly fired: (axis, position) by label from 1.
fn fired(order: &[usize], place: impl Fn(usize) -> (f64, f64)) -> Vec<CylinderPlace> {
    order
        .iter()
        .enumerate()
        .map(|(n, label)| {
            let (axis, position) = place(*label);
            CylinderPlace::at_top(even_firing(n, order.len()), axis, position, M)
        })
        .collect()
}

fn in_line(order: &[usize]) -> Vec<CylinderPlace> {
    let middle = (order.len() as f64 + 1.0) / 2.0;
    fired(order, |label| (0.0, (label as f64 - middle) * 0.1))
}

/// Odd cylinders on one bank, even on the other, pairs along the crank; `bank` is negative where the crank turns from
/// the odd bank to the even one.
fn vee(order: &[usize], bank: f64) -> Vec<CylinderPlace> {
    let pairs = order.len() as f64 / 2.0;
    fired(order, |label| {
        let pair = label.div_ceil(2) as f64;
        let side = if label % 2 == 1 { 0.5 } else { -0.5 };
        (side * bank, (pair - (pairs + 1.0) / 2.0) * 0.11)
    })
}

/// How many pairs at one place of the crank do not share a pin.
fn pins_apart(cylinders: &[CylinderPlace]) -> usize {
    let apart = |a: &CylinderPlace, b: &CylinderPlace| a.position == b.position && (a.pin - b.pin).cos() < 1.0 - 1e-9;
    cylinders.iter().enumerate().map(|(n, a)| cylinders[n + 1..].iter().filter(|b| apart(a, b)).count()).sum()
}

fn by_addition(cylinders: &[CylinderPlace], order: f64, scale: f64, turn: f64) -> [f64; 2] {
    let mut all = [0.0, 0.0];
    for c in cylinders {
        let pull = scale * c.mass * (order * (turn + c.pin - c.axis)).cos();
        all = [all[0] + pull * c.axis.cos(), all[1] + pull * c.axis.sin()];
    }
    all
}

#[test]
fn an_in_line_four_has_no_primary_and_four_lambda_of_secondary() {
    let four = in_line(&[1, 3, 4, 2]);
    assert!(primary_force(&four, R, W).greatest() < 1e-9 * unit());
    assert!(primary_couple(&four, R, W).greatest() < 1e-9 * unit());
    let secondary = secondary_force(&four, R, L, W).unwrap();
    assert!((secondary.greatest() / (4.0 * unit() * R / L) - 1.0).abs() < 1e-12);
    assert!((secondary.along(0.0) / secondary.greatest() - 1.0).abs() < 1e-12);
    assert!(secondary.along(FRAC_PI_2) < 1e-9 * unit());
}

#[test]
fn an_in_line_six_is_balanced_in_all_four() {
    let six = in_line(&[1, 5, 3, 6, 2, 4]);
    assert!(primary_force(&six, R, W).greatest() < 1e-9 * unit());
    assert!(primary_couple(&six, R, W).greatest() < 1e-9 * unit());
    assert!(secondary_force(&six, R, L, W).unwrap().greatest() < 1e-9 * unit());
    assert!(secondary_couple(&six, R, L, W).unwrap().greatest() < 1e-9 * unit());
}

#[test]
fn an_in_line_three_keeps_its_couple() {
    let three = in_line(&[1, 3, 2]);
    assert!(primary_force(&three, R, W).greatest() < 1e-9 * unit());
    let couple = primary_couple(&three, R, W).greatest();
    // sqrt(3) of one cylinder's force at one bore spacing
    assert!((couple / (3_f64.sqrt() * unit() * 0.1) - 1.0).abs() < 1e-12);
}

#[test]
fn a_cross_plane_eight_wants_exactly_half_and_keeps_no_secondary() {
    let eight = vee(&[1, 8, 4, 3, 6, 5, 7, 2], FRAC_PI_2);
    assert_eq!(pins_apart(&eight), 0);
    let couple = primary_couple(&eight, R, W);
    assert!(couple.beyond_counterweights() < 1e-9 * unit());
    assert!(couple.greatest() > 0.1 * unit() * 0.11);
    assert!(primary_force(&eight, R, W).greatest() < 1e-9 * unit());
    assert!(secondary_force(&eight, R, L, W).unwrap().greatest() < 1e-9 * unit());
    assert_eq!(bobweight_factor(Arrangement::Vee), Some(0.5));
}

#[test]
fn a_flat_plane_eight_shakes_sideways_at_twice_the_speed() {
    // both banks are fours with throws at 0, 180, 180, 0
    let eight = vee(&[1, 8, 3, 6, 7, 2, 5, 4], -FRAC_PI_2);
    assert_eq!(pins_apart(&eight), 0);
    let secondary = secondary_force(&eight, R, L, W).unwrap();
    assert!((secondary.along(FRAC_PI_2) / (4.0 * SQRT_2 * unit() * R / L) - 1.0).abs() < 1e-9);
    assert!(secondary.along(0.0) < 1e-9 * unit());
}

#[test]
fn a_flat_four_with_a_pin_a_cylinder_cancels_its_forces() {
    // opposite pistons at the same height: one bank's pins half a turn from the other's
    let boxer: Vec<CylinderPlace> = [(0.0, 0.0, 0.02), (PI, PI, -0.02), (PI, 0.0, 0.12), (0.0, PI, 0.08)]
        .map(|(pin, axis, at)| CylinderPlace { pin, axis, position: at, mass: M })
        .to_vec();
    assert!(primary_force(&boxer, R, W).greatest() < 1e-9 * unit());
    assert!(secondary_force(&boxer, R, L, W).unwrap().greatest() < 1e-9 * unit());
}

#[test]
fn half_of_any_pair_turns_with_the_crank_and_the_cosine_against_it() {
    for bank in [0.3, 0.785, 1.047, FRAC_PI_2, 2.0, PI] {
        let pair = [-0.5, 0.5].map(|side| CylinderPlace { pin: 0.0, axis: side * bank, position: 0.0, mass: M });
        let shake = primary_force(&pair, R, W);
        assert!((length(shake.with) / unit() - 1.0).abs() < 1e-12, "{bank}");
        assert!((shake.beyond_counterweights() / unit() - bank.cos().abs()).abs() < 1e-12, "{bank}");
        let left = shake.without(shake.with);
        assert!((left.greatest() - left.least()).abs() < 1e-9 * unit());
        let secondary = secondary_force(&pair, R, L, W).unwrap();
        let [along, across] = pair_secondary(bank, M, R, L, W).unwrap();
        assert!((secondary.along(0.0) - along).abs() < 1e-9 * unit());
        assert!((secondary.along(FRAC_PI_2) - across).abs() < 1e-9 * unit());
    }
}

#[test]
fn the_ellipse_is_what_addition_over_a_turn_gives() {
    let odd = [(0.1, -0.4, 0.3, 0.5), (2.0, 0.9, -0.1, 0.7), (4.4, 0.0, 0.2, 0.9), (5.0, 2.4, 0.0, 0.4)]
        .map(|(pin, axis, position, mass)| CylinderPlace { pin, axis, position, mass });
    for (order, scale, shake) in
        [(1.0, R * W * W, primary_force(&odd, R, W)), (2.0, R * R / L * W * W, secondary_force(&odd, R, L, W).unwrap())]
    {
        let (mut greatest, mut least, mut along): (f64, f64, f64) = (0.0, f64::INFINITY, 0.0);
        for step in 0..36_000 {
            let [x, y] = by_addition(&odd, order, scale, f64::from(step) * PI / 18_000.0);
            greatest = greatest.max(x.hypot(y));
            least = least.min(x.hypot(y));
            along = along.max((x * 0.7_f64.cos() + y * 0.7_f64.sin()).abs());
        }
        assert!((shake.greatest() / greatest - 1.0).abs() < 1e-6);
        assert!((shake.least() - least).abs() < 1e-3 * greatest);
        assert!((shake.along(0.7) / along - 1.0).abs() < 1e-6);
    }
}

#[test]
fn forces_scale_with_mass_radius_and_the_square_of_speed() {
    let at = |mass: f64, radius: f64, omega: f64| {
        primary_force(&[CylinderPlace { pin: 0.3, axis: 0.1, position: 0.0, mass }], radius, omega).greatest()
    };
    assert!((at(2.0 * M, R, W) / at(M, R, W) - 2.0).abs() < 1e-12);
    assert!((at(M, 3.0 * R, W) / at(M, R, W) - 3.0).abs() < 1e-12);
    assert!((at(M, R, 2.0 * W) / at(M, R, W) - 4.0).abs() < 1e-12);
    let [along, across] = single(0.6, M, R, W);
    assert!((along + across - unit()).abs() < 1e-9 && across > along);
}

#[test]
fn a_grade_and_what_it_allows_are_each_other_turned_round() {
    for (g, m, w) in [(0.016, 25.0, 733.0), (0.0025, 30.0, 900.0), (0.63, 4.0, 100.0)] {
        let allowed = permissible(g, m, w).unwrap();
        assert!((grade(allowed, m, w).unwrap() / g - 1.0).abs() < 1e-12);
    }
    assert!(permissible(0.016, 25.0, 0.0).is_err() && permissible(0.016, 25.0, f64::NAN).is_err());
    assert!(grade(1.0, 0.0, 1.0).is_err());
    assert!(secondary_force(&[], R, 0.0, W).is_err() && pair_secondary(1.0, M, R, -1.0, W).is_err());
}

#[test]
fn two_planes_in_and_out_of_phase() {
    let [a, b] = two_planes(3.0, 3.0, 0.0);
    assert!((a - 6.0).abs() < 1e-12 && b.abs() < 1e-12);
    let [a, b] = two_planes(3.0, 3.0, PI);
    assert!(a.abs() < 1e-12 && (b - 3.0).abs() < 1e-12);
}
