//! The fit against what must hold for any lives, and limits by the likelihood's own definition.
#![allow(clippy::unwrap_used)]

use super::*;

const FAILED: &[f64] = &[54.0, 187.0, 216.0, 240.0, 244.0, 335.0, 361.0, 373.0, 375.0, 386.0];
const RUNNING: &[f64] = &[500.0; 10];
const LIVES: LifeData<'_> = LifeData { failed: FAILED, running: RUNNING };

/// The likelihood as the definition has it.
fn likelihood(lives: LifeData<'_>, shape: f64, scale: f64) -> f64 {
    let failed: f64 =
        lives.failed.iter().map(|t| shape.ln() - t.ln() + shape * (t / scale).ln() - (t / scale).powf(shape)).sum();
    failed - lives.running.iter().map(|t| (t / scale).powf(shape)).sum::<f64>()
}

#[test]
fn no_neighbour_is_likelier() {
    let fit = LIVES.fit().unwrap();
    let Weibull { shape, scale } = fit.weibull;
    assert!((likelihood(LIVES, shape, scale) - fit.log_likelihood).abs() < 1e-9);
    for (ds, dl) in [(1.0, 1.001), (1.0, 0.999), (1.001, 1.0), (0.999, 1.0), (1.002, 0.998)] {
        assert!(likelihood(LIVES, shape * ds, scale * dl) < fit.log_likelihood);
    }
}

#[test]
fn the_limits_lie_where_the_profile_is_down_by_half_of_chi_squared() {
    let fit = LIVES.fit().unwrap();
    let down = 3.841_458_820_694_124 / 2.0;
    // greatest likelihood over the other parameter, by a plain search
    let over_scale = |shape: f64| {
        (0..4_000).map(|i| likelihood(LIVES, shape, 200.0 * (f64::from(i) * 0.001).exp())).fold(f64::MIN, f64::max)
    };
    for shape in LIVES.shape_limits(0.95).unwrap() {
        assert!((fit.log_likelihood - over_scale(shape) - down).abs() < 1e-4, "{shape}");
    }
    let over_shape = |share_log: f64, life: f64| {
        let of = |i: i32| {
            let shape = 0.2 * (f64::from(i) * 0.001).exp();
            likelihood(LIVES, shape, life * (-share_log / shape).exp())
        };
        (0..4_500).map(of).fold(f64::MIN, f64::max)
    };
    for scale in LIVES.scale_limits(0.95).unwrap() {
        assert!((fit.log_likelihood - over_shape(0.0, scale) - down).abs() < 1e-4, "{scale}");
    }
    for life in LIVES.life_limits(0.1, 0.95).unwrap() {
        assert!((fit.log_likelihood - over_shape(log_hazard(0.1).unwrap(), life) - down).abs() < 1e-4, "{life}");
    }
    // the scale is the life that 63.2 % do not reach
    let (a, b) = (LIVES.scale_limits(0.9).unwrap(), LIVES.life_limits(1.0 - (-1_f64).exp(), 0.9).unwrap());
    assert!((a[0] / b[0] - 1.0).abs() < 1e-9 && (a[1] / b[1] - 1.0).abs() < 1e-9);
}

#[test]
fn limits_hold_the_fit_between_them_and_widen_with_confidence() {
    let Weibull { shape, scale } = LIVES.fit().unwrap().weibull;
    let mut last = [shape, shape];
    for confidence in [0.5, 0.8, 0.9, 0.95, 0.99, 0.999] {
        let [low, high] = LIVES.shape_limits(confidence).unwrap();
        assert!(low < last[0] && high > last[1]);
        last = [low, high];
        let [low, high] = LIVES.scale_limits(confidence).unwrap();
        assert!(low < scale && scale < high);
    }
}

#[test]
fn a_part_that_still_runs_speaks_for_a_longer_life() {
    let without = LifeData { running: &[], ..LIVES }.fit().unwrap().weibull;
    assert!(without.scale < LIVES.fit().unwrap().weibull.scale);
}

#[test]
fn another_unit_changes_the_scale_only() {
    let far: Vec<f64> = FAILED.iter().map(|t| t * 3_600e6).collect();
    let end: Vec<f64> = RUNNING.iter().map(|t| t * 3_600e6).collect();
    let lives = LifeData { failed: &far, running: &end };
    let (a, b) = (LIVES.fit().unwrap(), lives.fit().unwrap());
    assert!((a.weibull.shape / b.weibull.shape - 1.0).abs() < 1e-9);
    assert!((b.weibull.scale / a.weibull.scale / 3_600e6 - 1.0).abs() < 1e-9);
    let (a, b) = (LIVES.life_limits(0.1, 0.95).unwrap(), lives.life_limits(0.1, 0.95).unwrap());
    assert!((b[0] / a[0] / 3_600e6 - 1.0).abs() < 1e-9 && (b[1] / a[1] / 3_600e6 - 1.0).abs() < 1e-9);
}

#[test]
fn exact_quantiles_give_the_distribution_back() {
    for shape in [0.7, 1.0, 2.0, 3.4, 8.0] {
        let of = Weibull { shape, scale: 250.0 };
        let lives: Vec<f64> = (0..2_000).map(|i| of.life((f64::from(i) + 0.5) / 2_000.0).unwrap()).collect();
        let got = LifeData { failed: &lives, running: &[] }.fit().unwrap().weibull;
        assert!((got.shape / shape - 1.0).abs() < 5e-3 && (got.scale / 250.0 - 1.0).abs() < 2e-3, "{shape}: {got:?}");
    }
}

#[test]
fn a_share_and_its_life_are_each_other_turned_round() {
    let w = Weibull { shape: 2.3, scale: 410.0 };
    for share in [1e-6, 0.01, 0.1, 0.5, 0.9, 0.999] {
        assert!((1.0 - w.reliability(w.life(share).unwrap()) - share).abs() < 1e-9);
    }
    assert!((w.reliability_after(300.0, 0.0) - w.reliability(300.0)).abs() < 1e-15);
    assert!((w.reliability_after(300.0, 200.0) * w.reliability(200.0) - w.reliability(300.0)).abs() < 1e-12);
    assert!((w.reliability_after(100.0, 200.0) - 1.0).abs() < 1e-15);
    // the hazard is the slope of -ln R
    let slope = -(w.reliability(300.01).ln() - w.reliability(299.99).ln()) / 0.02;
    assert!((slope / w.hazard(300.0) - 1.0).abs() < 1e-6);
    assert!((w.reliability(-5.0) - 1.0).abs() < 1e-15);
    assert!(w.life(0.0).is_err() && w.life(1.0).is_err() && w.life(f64::NAN).is_err());
}

#[test]
fn shape_one_is_chance() {
    let w = Weibull { shape: 1.0, scale: 50.0 };
    assert!((w.mean() - 50.0).abs() < 1e-12 && (w.deviation() - 50.0).abs() < 1e-9);
    assert!((w.hazard(3.0) - w.hazard(99.0)).abs() < 1e-15);
}

#[test]
fn lives_that_settle_nothing_are_refused() {
    let fit = |failed: &[f64], running: &[f64]| LifeData { failed, running }.fit();
    assert!(matches!(fit(&[], &[100.0, 200.0]), Err(Unfit::TooFew { failures: 0, .. })));
    assert!(matches!(fit(&[100.0, 100.0], &[100.0]), Err(Unfit::TooFew { different: 1, .. })));
    assert_eq!(fit(&[100.0, 100.0], &[50.0]), Err(Unfit::NoShape));
    for wrong in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(matches!(fit(&[100.0, 120.0], &[wrong]), Err(Unfit::NotALife { index: 2, .. })));
        assert!(matches!(by_chance(LifeData { failed: &[wrong], running: &[] }, 0.9), Err(Unfit::NotALife { .. })));
    }
    assert!(LIVES.shape_limits(0.0).is_err() && LIVES.life_limits(2.0, 0.9).is_err());
}

#[test]
fn one_failure_and_extreme_lives_give_numbers_or_a_refusal() {
    let one = LifeData { failed: &[100.0], running: &[150.0, 120.0] };
    let fit = one.fit().unwrap();
    assert!(fit.weibull.shape.is_finite() && fit.weibull.scale.is_finite());
    for limits in [one.shape_limits(0.9), one.scale_limits(0.9), one.life_limits(0.1, 0.9)] {
        assert!(limits.unwrap().iter().all(|l| l.is_finite()));
    }
    for (failed, running) in
        [(vec![1e-300, 1e300], vec![]), (vec![1.0, 1.0 + 1e-15], vec![]), (vec![1e-5, 1e5], vec![1.0])]
    {
        if let Ok(fit) = (LifeData { failed: &failed, running: &running }).fit() {
            assert!(!fit.weibull.shape.is_nan() && !fit.weibull.scale.is_nan() && !fit.log_likelihood.is_nan());
        }
    }
}

#[test]
fn chi_squared_of_two_degrees_is_a_logarithm() {
    for share in [0.05, 0.5, 0.95] {
        assert!((chi_squared_even(1, share) + 2.0 * (1.0 - share).ln()).abs() < 1e-9);
    }
}
