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
