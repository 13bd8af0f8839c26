//! Loads from the piston being turned round, and what they do to the rod.

use crate::bolt::stretch;

/// Force at top dead centre, N: mass in kg times acceleration in m/s².
#[must_use]
pub fn load(mass: f64, acceleration: f64) -> f64 {
    mass * acceleration
}

/// A rod's beam.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beam {
    /// Between centres, m, > 0.
    pub length: f64,
    /// Smallest section, m², > 0.
    pub area: f64,
    /// Young's modulus, Pa, > 0.
    pub modulus: f64,
    /// Density, kg/m³.
    pub density: f64,
}

/// Stretch of a uniform beam under a pull in N at its end, with its own mass turned round at an acceleration in m/s², m:
/// F l / (A E) + rho a l² / (2 E). The first term is Shigley's Mechanical Engineering Design, eq. 4-3, the second as for a
/// bar that hangs from one end. A lower bound: crank, pin and cap give too. NaN for no section.
#[must_use]
pub fn stretch_with_own_mass(beam: Beam, force: f64, acceleration: f64) -> f64 {
    stretch(force, beam.length, beam.area, beam.modulus)
        + beam.density * acceleration * beam.length * beam.length / (2.0 * beam.modulus)
}
