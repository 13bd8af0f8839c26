//! Uncertainty of measurement and decisions under it.

use std::f64::consts::SQRT_2;

/// Standard uncertainty of independent contributions, in their unit: the root of the sum of squares (JCGM 100:2008,
/// eq. 10).
#[must_use]
pub fn combine(contributions: &[f64]) -> f64 {
    contributions.iter().fold(0.0, |sum, c| sum + c * c).sqrt()
}

/// The standard normal distribution function, by the complementary error function.
#[must_use]
pub fn normal_cdf(z: f64) -> f64 {
    0.5 * libm::erfc(-z / SQRT_2)
}

/// Its inverse: the standard normal value that a share between zero and one does not reach; infinite at the ends, NaN
/// beyond them.
#[must_use]
pub fn normal_quantile(share: f64) -> f64 {
    use statrs::distribution::{ContinuousCDF as _, Normal};
    if !(0.0..=1.0).contains(&share) {
        return f64::NAN;
    }
    Normal::standard().inverse_cdf(share)
}

/// Probability that the true value lies between two limits (an infinite one: open on that side), for a reading `value`
/// of standard uncertainty `u`, all in one unit: JCGM 106:2012, eq. 7. Without uncertainty it is one or zero, limits
/// inclusive. NaN for a negative `u`.
#[must_use]
pub fn conformance_probability(value: f64, u: f64, low: f64, high: f64) -> f64 {
    if u.is_nan() || u < 0.0 {
        return f64::NAN;
    }
    if u == 0.0 {
        return f64::from(u8::from(value >= low && value <= high));
    }
    normal_cdf((high - value) / u) - normal_cdf((low - value) / u)
}

/// The one-sided factor for 95 % probability of conformance, the default since ISO 14253-1:2017.
pub const ONE_SIDED_95: f64 = 1.644_853_626_951_472_2;

/// Guard band for 95 % at one limit, in the unit of `u`: 1.645 u.
#[must_use]
pub fn guard_band(u: f64) -> f64 {
    ONE_SIDED_95 * u
}

/// Repeatability and reproducibility of a gauge: the root of the squares of the equipment's and the people's standard
/// deviation, in their unit. AIAG, Measurement Systems Analysis, 4th edition 2010, ch. III.
#[must_use]
pub fn gauge_variation(equipment: f64, people: f64) -> f64 {
    combine(&[equipment, people])
}

/// Share of a tolerance that six deviations of a gauge take: under 10 % is good, over 30 % cannot judge. AIAG, ch. III.
/// Infinite or NaN without a tolerance.
#[must_use]
pub fn share_of_tolerance(variation: f64, tolerance: f64) -> f64 {
    6.0 * variation / tolerance
}

/// Groups of parts that a gauge can tell apart: 1.41 times the parts' deviation over the gauge's, wanted five. AIAG,
/// ch. III; as a rule cut to a whole number. Infinite for a gauge without variation.
#[must_use]
pub fn distinct_groups(parts: f64, variation: f64) -> f64 {
    1.41 * parts / variation
}

/// Tolerance of half a width over the expanded uncertainty (k = 2): the test uncertainty ratio, wanted four. ANSI/NCSL
/// Z540.3-2006. Infinite for no uncertainty.
#[must_use]
pub fn test_ratio(half_width: f64, u: f64) -> f64 {
    half_width / (2.0 * u)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_quantile_is_the_distribution_turned_round() {
        for share in [1e-12, 1e-6, 0.01, 0.1, 0.5, 0.8, 0.975, 0.999_999] {
            assert!((normal_cdf(normal_quantile(share)) / share - 1.0).abs() < 1e-9, "{share}");
        }
        assert!((normal_quantile(0.95) - ONE_SIDED_95).abs() < 1e-9);
        assert!(
            normal_quantile(1.0).is_infinite() && normal_quantile(-0.1).is_nan() && normal_quantile(f64::NAN).is_nan()
        );
    }

    #[test]
    fn conformance_is_symmetrical_and_at_most_one() {
        for value in [-3.0, 0.0, 0.4, 7.0] {
            let p = conformance_probability(value, 0.3, -1.0, 1.0);
            assert!((0.0..=1.0).contains(&p));
            assert!((p - conformance_probability(-value, 0.3, -1.0, 1.0)).abs() < 1e-15);
        }
        assert!(conformance_probability(0.0, -1.0, 0.0, 1.0).is_nan());
    }

    #[test]
    fn a_better_gauge_tells_more_groups_apart() {
        assert!(distinct_groups(3.0, 0.5) > distinct_groups(3.0, 1.0));
        assert!((gauge_variation(3.0, 4.0) - 5.0).abs() < 1e-12);
        assert!((share_of_tolerance(0.5, 30.0) - 0.1).abs() < 1e-12);
        assert!((test_ratio(0.25, 0.0707) - 1.768).abs() < 1e-3);
    }
}
