//! Ring gaps.

use std::f64::consts::PI;

/// By how much a ring's gap closes when ring and bore warm up, m: pi B (ar dTr - ab dTb), bore in m, coefficients in
/// 1/K, rises in K. A gap filed smaller than this butts.
#[must_use]
pub fn closing_gap(bore: f64, ring: f64, ring_rise: f64, wall: f64, wall_rise: f64) -> f64 {
    PI * bore * (ring * ring_rise - wall * wall_rise)
}
