//! Clamp load against what would lift it.

use std::f64::consts::FRAC_PI_4;

/// Gas load that would lift a head, N: pressure in Pa on the gasket's own bore in m, which is where it seals.
#[must_use]
pub fn lift_off(pressure: f64, gasket_bore: f64) -> f64 {
    FRAC_PI_4 * gasket_bore * gasket_bore * pressure
}

/// Clamp load of `count` fasteners of `clamp` N each over the load that would lift them, N; NaN unless that is greater
/// than zero. Static: no account of the joint's stiffness.
#[must_use]
pub fn clamp_ratio(count: f64, clamp: f64, load: f64) -> f64 {
    if load > 0.0 { count * clamp / load } else { f64::NAN }
}

/// Tensile stress area of a unified inch thread, m²: nominal diameter and pitch in m. ASME B1.1: pi/4 (d - 0.9743 p)².
#[must_use]
pub fn stress_area(diameter: f64, pitch: f64) -> f64 {
    let d = diameter - 0.9743 * pitch;
    FRAC_PI_4 * d * d
}
