//! Distributions whose core is known, and what must not change it.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use super::*;
use crate::uncertainty::normal_quantile;
use std::f64::consts::PI;

/// Heights of a normal distribution, evenly likely, in an order that is not sorted.
fn normal(n: usize) -> Vec<f64> {
    (0..n).map(|i| normal_quantile((((i * 7_919) % n) as f64 + 0.5) / n as f64)).collect()
}

#[test]
fn a_uniform_surface_is_all_core() {
    let heights: Vec<f64> = (0..5_000).map(|i| f64::from(i) / 5_000.0).collect();
    let core = MaterialRatioCurve::of(&heights).unwrap().core();
    assert!((core.rk - 1.0).abs() < 1e-3, "{core:?}");
    assert!(core.rpk < 1e-3 && core.rvk < 1e-3, "{core:?}");
}

#[test]
fn a_symmetrical_surface_has_peaks_as_its_valleys() {
    let core = MaterialRatioCurve::of(&normal(20_011)).unwrap().core();
    assert!((core.rpk - core.rvk).abs() < 1e-6 && (core.mr1 + core.mr2 - 1.0).abs() < 1e-6, "{core:?}");
    let heights = normal(20_011);
    assert!((ra(&heights) - (2.0 / PI).sqrt()).abs() < 1e-3 && (rq(&heights) - 1.0).abs() < 1e-3);
}

#[test]
fn turned_over_peaks_become_valleys() {
    let plateau: Vec<f64> = normal(5_003).iter().map(|z| z.min(0.3 + z / 10.0)).collect();
    let over: Vec<f64> = plateau.iter().map(|z| -z).collect();
    let (a, b) = (MaterialRatioCurve::of(&plateau).unwrap().core(), MaterialRatioCurve::of(&over).unwrap().core());
    assert!((a.rk - b.rk).abs() < 1e-9 && (a.rpk - b.rvk).abs() < 1e-9 && (a.mr1 + b.mr2 - 1.0).abs() < 1e-9);
    assert!(a.rvk > 3.0 * a.rpk, "{a:?}");
}

#[test]
fn scale_and_level_carry_over_and_order_does_not_matter() {
    let heights = normal(2_003);
    let other: Vec<f64> = heights.iter().rev().map(|z| 3e-7 * z + 0.01).collect();
    let (a, b) = (MaterialRatioCurve::of(&heights).unwrap().core(), MaterialRatioCurve::of(&other).unwrap().core());
    for (x, y) in [(a.rk, b.rk), (a.rpk, b.rpk), (a.rvk, b.rvk)] {
        assert!((y / (3e-7 * x) - 1.0).abs() < 1e-6, "{x} {y}");
    }
    assert!((a.mr1 - b.mr1).abs() < 1e-6 && (a.mr2 - b.mr2).abs() < 1e-6);
    assert!((ra(&other) / (3e-7 * ra(&heights)) - 1.0).abs() < 1e-6);
}

#[test]
fn the_core_lies_within_the_profile_and_its_shares_in_order() {
    let mut seed = 88_172_645_463_325_252_u64;
    let mut next = || {
        seed ^= seed << 13;
        seed ^= seed >> 7;
        seed ^= seed << 17;
        (seed >> 11) as f64 / 9_007_199_254_740_992.0
    };
    for _ in 0..200 {
        let power = 0.2 + 5.0 * next();
        let heights: Vec<f64> = (0..400).map(|_| next().powf(power) - next()).collect();
        let core = MaterialRatioCurve::of(&heights).unwrap().core();
        assert!(core.rk > 0.0 && core.rpk >= 0.0 && core.rvk >= 0.0);
        assert!(0.0 <= core.mr1 && core.mr1 <= core.mr2 && core.mr2 <= 1.0, "{core:?}");
    }
}

#[test]
fn a_flat_and_a_stepped_surface_give_numbers() {
    for heights in [vec![1e-6; 300], (0..300).map(|i| f64::from(i / 100)).collect(), {
        let mut one_scratch = vec![0.0; 300];
        one_scratch[7] = -1.0;
        one_scratch
    }] {
        let core = MaterialRatioCurve::of(&heights).unwrap().core();
        for value in [core.rk, core.rpk, core.rvk, core.mr1, core.mr2] {
            assert!(value.is_finite(), "{core:?}");
        }
    }
}

#[test]
fn the_curve_falls_from_end_to_end() {
    let curve = MaterialRatioCurve::of(&normal(1_009)).unwrap();
    let heights: Vec<f64> = (-10..=110).map(|i| curve.height(f64::from(i) / 100.0)).collect();
    assert!(heights.windows(2).all(|w| w[0] >= w[1]));
    assert!((curve.height(0.5)).abs() < 1e-6);
}

#[test]
fn too_little_and_no_number_are_refused() {
    assert_eq!(MaterialRatioCurve::of(&[1.0; 99]), Err(Unusable::TooFew(99)));
    let mut heights = vec![0.0; 200];
    heights[150] = f64::NAN;
    assert_eq!(MaterialRatioCurve::of(&heights), Err(Unusable::NotFinite(150)));
    assert!(roughness(&[0.0; 200], 0.0, 8e-4).is_err());
    assert!(roughness(&[0.0; 200], 1e-6, 8e-4).is_err());
    assert!(roughness(&[0.0; 200], 1e-4, 1e-4).is_err());
    assert!(ra(&[]).is_nan() && rq(&[]).is_nan() && rz(&[1.0; 4]).is_nan());
}

#[test]
fn the_filter_passes_half_of_a_wave_at_its_cut_off() {
    // ISO 16610-21: 50 % transmission at the cut-off, nearly all far below it
    let (spacing, cut_off) = (2e-6, 8e-4);
    for (wave, wanted) in [(8e-4, 0.5), (8e-5, 1.0), (8e-3, 0.0069)] {
        let heights: Vec<f64> = (0..8_000).map(|i| (2.0 * PI * f64::from(i) * spacing / wave).sin()).collect();
        let rough = roughness(&heights, spacing, cut_off).unwrap();
        let (num, den) =
            heights.iter().zip(&rough).skip(800).take(6_400).fold((0.0, 0.0), |(n, d), (z, r)| (n + z * r, d + z * z));
        assert!((num / den - wanted).abs() < 2e-3, "{wave}: {}", num / den);
    }
}

#[test]
fn valleys_do_not_bend_the_reference_of_a_plateau() {
    let (spacing, cut_off) = (5e-6, 8e-4);
    let heights: Vec<f64> = (0..2_000).map(|i| if i % 200 < 20 { -4e-6 } else { 1e-8 * f64::from(i % 7) }).collect();
    let plain = roughness(&heights, spacing, cut_off).unwrap();
    let special = plateau_roughness(&heights, spacing, cut_off).unwrap();
    // how unevenly the flats between the valleys come out
    let spread = |rough: &[f64]| {
        let flats: Vec<f64> = rough
            .iter()
            .enumerate()
            .filter(|(i, _)| (400..1_600).contains(i) && i % 200 >= 20)
            .map(|(_, z)| *z)
            .collect();
        rq(&flats)
    };
    assert!(spread(&special) < 0.4 * spread(&plain), "{} {}", spread(&special), spread(&plain));
}

#[test]
fn rz_of_a_triangle_is_its_height() {
    let heights: Vec<f64> = (0..1_000).map(|i| f64::from((i % 100_i32 - 50).abs()) / 50.0).collect();
    assert!((rz(&heights) - 1.0).abs() < 1e-12);
}
