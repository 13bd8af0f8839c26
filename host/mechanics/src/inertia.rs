//! Loads from the piston being turned round, and what they do to the rod.

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

/// Stretch of a uniform beam under a pull at its end, m: F l / (A E). Shigley's Mechanical Engineering Design, eq. 4-3.
/// NaN unless area and modulus are greater than zero.
#[must_use]
pub fn stretch(beam: Beam, force: f64) -> f64 {
    if beam.area > 0.0 && beam.modulus > 0.0 { force * beam.length / (beam.area * beam.modulus) } else { f64::NAN }
}

/// Stretch with the beam's own mass turned round at the same acceleration, m: F l / (A E) + rho a l² / (2 E), the second
/// term as for a bar that hangs from one end. A lower bound: crank, pin and cap give too.
#[must_use]
pub fn stretch_with_own_mass(beam: Beam, force: f64, acceleration: f64) -> f64 {
    stretch(beam, force) + beam.density * acceleration * beam.length * beam.length / (2.0 * beam.modulus)
}
