//! A solved cycle: pressures and temperatures by crank angle, and what they come to.

use super::layout::Layout;
use super::setup::{DEGREE, Friction};
use std::sync::Arc;

/// A whole cycle.
#[derive(Debug, Clone, PartialEq)]
pub struct Cycle {
    pub(super) layout: Arc<Layout>,
    pub(super) pressures: Vec<f64>,
    pub(super) temperatures: Vec<f64>,
    /// Trapped gas, kg.
    pub mass: f64,
    /// Greatest pressure, Pa.
    pub peak: f64,
    /// Its crank angle, rad after firing top dead centre.
    pub peak_angle: f64,
    /// Net indicated mean effective pressure, with the work of the open part, Pa.
    pub indicated: f64,
    /// Mean effective pressure of the exhaust and the inlet stroke, Pa; negative where they cost work.
    pub pumping: f64,
    /// Heat to the walls in the closed part, J.
    pub heat: f64,
    /// Work of the closed part, J.
    pub closed_work: f64,
    /// Pressure at inlet closing, Pa.
    pub closing_pressure: f64,
    /// Pressure at exhaust opening, Pa.
    pub opening_pressure: f64,
    /// Inlet closing, rad from firing top dead centre: negative.
    pub closing: f64,
    /// Exhaust opening, rad after it.
    pub opening: f64,
    /// Internal energy of the trapped gas at inlet closing and at exhaust opening, J; with a crevice without what is
    /// in it.
    pub energy: (f64, f64),
    /// Mean piston speed, m/s.
    pub piston_speed: f64,
}

impl Cycle {
    /// Pressure at a crank angle, Pa absolute: rad from firing top dead centre, any turn of the cycle of 4 pi; straight
    /// lines between whole degrees.
    #[must_use]
    pub fn pressure(&self, angle: f64) -> f64 {
        along(&self.pressures, angle)
    }

    /// Pressures at whole degrees from -360 to 360 about firing top dead centre, Pa absolute.
    #[must_use]
    pub fn pressures(&self) -> &[f64] {
        &self.pressures
    }

    /// Mean temperature of the gas at whole degrees from -360 to 360, K; NaN while a valve is open.
    #[must_use]
    pub fn temperatures(&self) -> &[f64] {
        &self.temperatures
    }

    /// Brake mean effective pressure, Pa.
    #[must_use]
    pub fn brake(&self, friction: &Friction) -> f64 {
        self.indicated - self.friction(friction)
    }

    /// Mean pressure lost to friction, Pa.
    #[must_use]
    pub fn friction(&self, friction: &Friction) -> f64 {
        friction.mean_pressure(self.peak, self.piston_speed)
    }
}

fn along(points: &[f64], angle: f64) -> f64 {
    let degree = (angle / DEGREE + 360.0).rem_euclid(720.0);
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 to 720; NaN gives 0")]
    let at = degree as usize;
    let part = degree - degree.floor();
    match (points.get(at), points.get(at + 1)) {
        (Some(a), Some(b)) => a + part * (b - a),
        (Some(a), None) => *a,
        _ => f64::NAN,
    }
}
