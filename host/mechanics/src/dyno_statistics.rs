//! Whether a gain is there: how many pulls show it, the smallest gain that some pulls can show, and the test of two sets
//! of pulls. Normal scatter, pulls that do not hang on one another: run the setups turn about, since oil and air drift.

use crate::root::crossing;
use crate::uncertainty::{normal_cdf, normal_quantile};
use libm::lgamma;
use statrs::function::beta::checked_beta_reg;
use std::f64::consts::PI;

/// Chance of calling a gain that is not there, two-sided.
pub const USUAL_ALPHA: f64 = 0.05;
/// Chance of seeing a gain that is there.
pub const USUAL_POWER: f64 = 0.80;

/// Mean; NaN of nothing.
#[must_use]
pub fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}

/// Standard deviation of a sample; NaN of fewer than two.
#[must_use]
pub fn deviation(values: &[f64]) -> f64 {
    if values.len() < 2 {
        return f64::NAN;
    }
    let mean = mean(values);
    (values.iter().map(|v| (v - mean) * (v - mean)).sum::<f64>() / (values.len() - 1) as f64).sqrt()
}

/// Regularised incomplete beta function; NaN outside of its range.
fn beta_reg(a: f64, b: f64, x: f64) -> f64 {
    checked_beta_reg(a, b, x).unwrap_or(f64::NAN)
}

/// Chance that Student's t is at most `t`; `freedom` greater than zero, NaN otherwise. Abramowitz and Stegun 1964, 26.7.1.
#[must_use]
pub fn student(t: f64, freedom: f64) -> f64 {
    if !(freedom > 0.0 && t.is_finite()) {
        return f64::NAN;
    }
    let (square, half) = (t * t, 0.5 * freedom);
    let tail = if square < freedom {
        0.5 - 0.5 * beta_reg(0.5, half, square / (freedom + square))
    } else {
        0.5 * beta_reg(half, 0.5, freedom / (freedom + square))
    };
    if t > 0.0 { 1.0 - tail } else { tail }
}

/// The t that is passed with a chance of `tail`, over 0 to 0.5; NaN outside.
#[must_use]
pub fn student_passed(tail: f64, freedom: f64) -> f64 {
    if !(tail > 0.0 && tail <= 0.5 && freedom > 0.0) {
        return f64::NAN;
    }
    let passed = |t: f64| student(-t, freedom);
    let (mut low, mut high) = (0.0, 1.0);
    while passed(high) > tail {
        (low, high) = (high, 2.0 * high);
        if high > 1e12 {
            return f64::NAN;
        }
    }
    crossing([low, high], |t| tail - passed(t))
}

/// Largest shift that the series of [`shifted_student`] is summed for; past it a term underflows.
const MOST_SHIFT: f64 = 36.0;

/// Chance that t about a shifted mean (non-central t) is at most `t`: `freedom` greater than zero, `shift` within 36 of
/// zero; NaN otherwise. Lenth, Applied Statistics 38 (1989) 185, algorithm AS 243.
#[must_use]
pub fn shifted_student(t: f64, freedom: f64, shift: f64) -> f64 {
    if !(freedom > 0.0 && t.is_finite() && shift.abs() <= MOST_SHIFT) {
        return f64::NAN;
    }
    if t < 0.0 {
        return 1.0 - upward(-t, freedom, -shift);
    }
    upward(t, freedom, shift)
}

fn upward(t: f64, freedom: f64, shift: f64) -> f64 {
    let x = t * t / (t * t + freedom);
    let mut sum = normal_cdf(-shift);
    if x > 0.0 {
        let (mut a, b) = (0.5, 0.5 * freedom);
        let lambda = shift * shift;
        let mut p = 0.5 * (-0.5 * lambda).exp();
        let mut q = (2.0 / PI).sqrt() * p * shift;
        let mut left = 0.5 - p;
        let rest = (1.0 - x).powf(b);
        let ln_beta = PI.sqrt().ln() + lgamma(b) - lgamma(a + b);
        let mut odd = beta_reg(a, b, x);
        let mut odd_step = 2.0 * rest * (a * x.ln() - ln_beta).exp();
        let mut even = 1.0 - rest;
        let mut even_step = b * x * rest;
        sum += p * odd + q * even;
        for n in 1..10_000 {
            a += 1.0;
            odd -= odd_step;
            even -= even_step;
            odd_step *= x * (a + b - 1.0) / a;
            even_step *= x * (a + b - 0.5) / (a + 0.5);
            p *= lambda / (2.0 * f64::from(n));
            q *= lambda / (2.0 * f64::from(n) + 1.0);
            left -= p;
            sum += p * odd + q * even;
            if 2.0 * left * (odd - odd_step) < 1e-14 {
                break;
            }
        }
    }
    sum.clamp(0.0, 1.0)
}

/// Chance that two sets of `pulls` each show a gain of `gain` standard deviations of a pull, two-sided at `alpha`; NaN for
/// fewer than two pulls or an alpha outside 0 to 1. Non-central t with equal scatter; Cohen, Statistical Power Analysis
/// (1988), ch. 2.
#[must_use]
pub fn power(gain: f64, pulls: u32, alpha: f64) -> f64 {
    if pulls < 2 || !(alpha > 0.0 && alpha < 1.0) || gain.is_nan() {
        return f64::NAN;
    }
    past(gain, pulls, critical(pulls, alpha))
}

/// The t of two sets of `pulls`, 2 or more, that chance alone passes with `alpha`, to both sides.
fn critical(pulls: u32, alpha: f64) -> f64 {
    student_passed(alpha / 2.0, 2.0 * f64::from(pulls) - 2.0)
}

/// Chance that a gain passes this t.
fn past(gain: f64, pulls: u32, critical: f64) -> f64 {
    let n = f64::from(pulls);
    let freedom = 2.0 * n - 2.0;
    let shift = gain.abs() * (n / 2.0).sqrt();
    if shift > MOST_SHIFT {
        // of few pulls and a huge critical t a shift of 36 may still be missed: normal for the mean, none for the scatter
        return if critical < MOST_SHIFT / 3.0 { 1.0 } else { f64::NAN };
    }
    1.0 - shifted_student(critical, freedom, shift) + shifted_student(-critical, freedom, shift)
}

/// Most pulls of a setup that [`pulls_needed`] looks at.
pub const MOST_PULLS: u32 = 100_000;

/// Pulls of each setup that show a gain of `gain` standard deviations of a pull with a chance of `wanted`; none where
/// [`MOST_PULLS`] do not, or the arguments make no sense.
#[must_use]
pub fn pulls_needed(gain: f64, alpha: f64, wanted: f64) -> Option<u32> {
    let enough = |n: u32| power(gain, n, alpha) >= wanted;
    if !(gain.is_finite() && gain != 0.0 && wanted > 0.0 && wanted < 1.0 && enough(MOST_PULLS)) {
        return None;
    }
    let (mut low, mut high) = (1, MOST_PULLS);
    while high - low > 1 {
        let middle = low.midpoint(high);
        if enough(middle) { high = middle } else { low = middle }
    }
    Some(high)
}

/// Smallest gain, in standard deviations of a pull, that two sets of `pulls` each show with a chance of `wanted`; NaN
/// for fewer than two.
#[must_use]
pub fn smallest_gain(pulls: u32, alpha: f64, wanted: f64) -> f64 {
    if pulls < 2 || !(alpha > 0.0 && alpha < 1.0 && wanted > alpha && wanted < 1.0) {
        return f64::NAN;
    }
    let most = MOST_SHIFT / (f64::from(pulls) / 2.0).sqrt();
    let critical = critical(pulls, alpha);
    if past(most, pulls, critical) < wanted {
        return f64::NAN;
    }
    crossing([0.0, most], |gain| past(gain, pulls, critical) - wanted)
}

/// Half width of the confidence interval of the mean of `pulls`, in standard deviations of a pull; NaN for fewer than two.
#[must_use]
pub fn half_width(pulls: u32, confidence: f64) -> f64 {
    let n = f64::from(pulls);
    student_passed(0.5 * (1.0 - confidence), n - 1.0) / n.sqrt()
}

/// Chance of missing a gain that is there with the scatter known, one-sided at `alpha`: `gain` over the standard error of
/// the difference. NaN for an alpha outside 0 to 0.5.
#[must_use]
pub fn missed_one_sided(gain: f64, standard_error: f64, alpha: f64) -> f64 {
    if !(standard_error > 0.0 && alpha > 0.0 && alpha <= 0.5) {
        return f64::NAN;
    }
    normal_cdf(-normal_quantile(alpha) - gain / standard_error)
}

/// Two sets against one another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Compared {
    /// Mean of the first less mean of the second.
    pub difference: f64,
    /// Student's t of it.
    pub t: f64,
    /// Degrees of freedom.
    pub freedom: f64,
    /// Chance of a difference as large or larger, either way, were there none.
    pub p: f64,
}

fn compared(difference: f64, error: f64, freedom: f64) -> Option<Compared> {
    let t = difference / error;
    let p = 2.0 * student(-t.abs(), freedom);
    (error > 0.0 && p.is_finite()).then_some(Compared { difference, t, freedom, p })
}

/// Whether two sets of pulls differ, each with its own scatter; none of fewer than two each or without any scatter.
/// Welch, Biometrika 34 (1947) 28.
#[must_use]
pub fn welch(first: &[f64], second: &[f64]) -> Option<Compared> {
    let share = |set: &[f64]| deviation(set).powi(2) / set.len() as f64;
    let (a, b) = (share(first), share(second));
    let below = |set: &[f64], v: f64| v * v / (set.len() as f64 - 1.0);
    let freedom = (a + b) * (a + b) / (below(first, a) + below(second, b));
    compared(mean(first) - mean(second), (a + b).sqrt(), freedom)
}

/// The same with one scatter for both, as Student had it.
#[must_use]
pub fn pooled(first: &[f64], second: &[f64]) -> Option<Compared> {
    let (n, m) = (first.len() as f64, second.len() as f64);
    let freedom = n + m - 2.0;
    let scatter = ((n - 1.0) * deviation(first).powi(2) + (m - 1.0) * deviation(second).powi(2)) / freedom;
    compared(mean(first) - mean(second), (scatter * (1.0 / n + 1.0 / m)).sqrt(), freedom)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn without_a_shift_it_is_students() {
        for freedom in [1.0, 2.0, 4.0, 7.858_757, 30.0, 400.0] {
            for t in [-30.0, -3.0, -0.5, 0.0, 1e-9, 0.7, 2.5, 12.0] {
                let (a, b) = (shifted_student(t, freedom, 0.0), student(t, freedom));
                assert!((a - b).abs() < 1e-12, "{t} {freedom}: {a} {b}");
                assert!((student(t, freedom) + student(-t, freedom) - 1.0).abs() < 1e-14);
            }
        }
        // one degree of freedom is Cauchy's, two have a closed form
        for t in [0.3_f64, 2.0, 40.0] {
            assert!((student(t, 1.0) - (0.5 + t.atan() / PI)).abs() < 1e-13);
            assert!((student(t, 2.0) - (0.5 + t / (2.0 * (2.0 + t * t).sqrt()))).abs() < 1e-13);
        }
    }

    /// The definition: the chance that a shifted normal is under t times the root of chi square over freedom.
    fn by_quadrature(t: f64, freedom: f64, shift: f64) -> f64 {
        let ln_c = (1.0 - freedom / 2.0) * 2_f64.ln() - lgamma(freedom / 2.0);
        let (mut sum, steps, end) = (0.0, 20_000, freedom.sqrt() + 12.0);
        for i in 0..=steps {
            let chi = end * f64::from(i) / f64::from(steps);
            let density = if chi > 0.0 { (ln_c + (freedom - 1.0) * chi.ln() - chi * chi / 2.0).exp() } else { 0.0 };
            let weight = if i == 0 || i == steps {
                1.0
            } else if i % 2 == 1 {
                4.0
            } else {
                2.0
            };
            sum += weight * density * normal_cdf(t * chi / freedom.sqrt() - shift);
        }
        sum * end / f64::from(steps) / 3.0
    }

    #[test]
    fn the_series_is_the_definition() {
        for freedom in [2.0, 4.0, 9.0, 32.0, 126.0] {
            for shift in [-2.0, 0.3, 1.0, 2.8, 5.0, 9.0] {
                for t in [-4.0, -1.0, 0.0, 0.5, 2.0, 2.8, 6.0, 15.0] {
                    let (a, b) = (shifted_student(t, freedom, shift), by_quadrature(t, freedom, shift));
                    assert!((a - b).abs() < 2e-9, "{t} {freedom} {shift}: {a} {b}");
                }
            }
        }
    }

    #[test]
    fn the_quantile_is_the_inverse() {
        for freedom in [1.0, 2.0, 3.5, 8.0, 64.0, 1e4] {
            for tail in [1e-6, 0.001, 0.025, 0.1, 0.5] {
                let t = student_passed(tail, freedom);
                assert!((student(-t, freedom) / tail - 1.0).abs() < 1e-9, "{freedom} {tail}");
            }
        }
    }

    #[test]
    fn more_pulls_and_larger_gains_are_seen_sooner() {
        for n in 2..60 {
            assert!(power(1.0, n + 1, 0.05) > power(1.0, n, 0.05));
            assert!(smallest_gain(n + 1, 0.05, 0.8) < smallest_gain(n, 0.05, 0.8));
            assert!((power(0.0, n, 0.05) - 0.05).abs() < 1e-12, "no gain is called as often as alpha says");
            let gain = smallest_gain(n, 0.05, 0.8);
            assert!((power(gain, n, 0.05) - 0.8).abs() < 1e-9);
            assert_eq!(pulls_needed(gain * 1.000_001, 0.05, 0.8), Some(n));
        }
        assert!((power(-1.0, 9, 0.05) - power(1.0, 9, 0.05)).abs() < 1e-15);
        assert_eq!(pulls_needed(1e-9, 0.05, 0.8), None);
    }

    #[test]
    fn a_test_of_two_sets_does_not_mind_units_order_or_an_offset() {
        let (a, b) = ([701.0, 703.5, 699.8, 702.2], [695.0, 698.9, 696.1]);
        let one = welch(&a, &b).unwrap();
        let swapped = welch(&b, &a).unwrap();
        assert!((one.t + swapped.t).abs() < 1e-12 && (one.p - swapped.p).abs() < 1e-15);
        let kilowatts = welch(&a.map(|v| v * 0.7457), &b.map(|v| v * 0.7457)).unwrap();
        assert!((one.p - kilowatts.p).abs() < 1e-12 && (one.freedom - kilowatts.freedom).abs() < 1e-9);
        let moved = welch(&a.map(|v| v + 100.0), &b.map(|v| v + 100.0)).unwrap();
        assert!((one.p - moved.p).abs() < 1e-9);
        // equal numbers and scatter: Welch is Student
        let (c, d) = ([1.0, 2.0, 3.0], [5.0, 6.0, 7.0]);
        let (w, s) = (welch(&c, &d).unwrap(), pooled(&c, &d).unwrap());
        assert!((w.p - s.p).abs() < 1e-14 && (w.freedom - 4.0).abs() < 1e-12);
    }

    #[test]
    fn what_makes_no_sense_gives_nothing() {
        assert!(welch(&[1.0], &[2.0, 3.0]).is_none() && welch(&[1.0, 1.0], &[2.0, 2.0]).is_none());
        assert!(pooled(&[], &[]).is_none() && deviation(&[1.0]).is_nan() && mean(&[]).is_nan());
        for x in [0.0, -1.0, 1e-300, 1e300, f64::MAX, f64::MIN] {
            for y in [0.0, -1.0, 0.5, 1e300, f64::MIN_POSITIVE] {
                let _ = (student(x, y), shifted_student(x, y, 1.0), shifted_student(1.0, y, x), student_passed(y, x));
                let _ =
                    (power(x, 5, y), smallest_gain(3, y, 0.8), missed_one_sided(x, y, 0.05), pulls_needed(x, y, 0.8));
            }
        }
        assert!(half_width(1, 0.95).is_nan() && power(1.0, 1, 0.05).is_nan() && power(1.0, 0, 0.05).is_nan());
    }
}
