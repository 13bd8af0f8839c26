//! What a cycle is solved for: cylinder, charge, burn and walls; and why there may be none.

use super::burn::Burn;
use crate::Outside;
use crate::gas::Gas;
use crate::kinematics::Slider;
use std::f64::consts::PI;

/// Points of a whole cycle, a degree apart, from -360 to 360 degrees about firing top dead centre.
pub const POINTS: usize = 721;
pub(super) const DEGREE: f64 = PI / 180.0;

/// Why there is no cycle.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum NoCycle {
    /// An argument that the geometry cannot have.
    #[error(transparent)]
    Outside(#[from] Outside),
    /// Inlet closing after exhaust opening, or either in the wrong half of the turn.
    #[error(
        "the valves leave nothing to compress: inlet closing {closing} rad after bottom, exhaust opening {opening} rad before it"
    )]
    NeverClosed {
        /** inlet closing, rad after bottom dead centre */
        closing: f64,
        /** exhaust opening, rad before bottom dead centre */
        opening: f64,
    },
    /// The gas left the range of its properties, 200 to 6000 K.
    #[error("the gas leaves 200 to 6000 K at {degree} degrees: more charge or heat than an engine holds")]
    TooHot {
        /** crank angle, degrees from firing top dead centre */
        degree: f64,
    },
    /// No charge gives that mean pressure.
    #[error("no charge up to ten times its cylinder gives {wanted} Pa of mean effective pressure")]
    NoSuchPower {
        /** brake mean effective pressure asked for, Pa */
        wanted: f64,
    },
}

/// One cylinder and its valves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cylinder {
    /// Bore, m.
    pub bore: f64,
    /// Crank, rod and pin offset.
    pub slider: Slider,
    /// Volume above the piston at top dead centre without the crevice, m³.
    pub clearance: f64,
    /// Volume round the top land, m³; zero leaves it out.
    pub crevice: f64,
    /// Inlet closing at the seat, rad after bottom dead centre, 0 to pi.
    pub inlet_closing: f64,
    /// Exhaust opening at the seat, rad before bottom dead centre, 0 to pi.
    pub exhaust_opening: f64,
}

/// What is trapped.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Charge {
    /// Before burning, with its residual gas.
    pub unburned: Gas,
    /// After.
    pub burned: Gas,
    /// At inlet closing, K.
    pub temperature: f64,
}

/// Heat to the walls.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Walls {
    /// Mean temperature of head, crown and bore, K.
    pub temperature: f64,
    /// On Woschni's coefficient; 1 is his own.
    pub scale: f64,
}

/// Pressures while a valve is open.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Exchange {
    /// In the inlet, Pa absolute.
    pub inlet: f64,
    /// In the exhaust, Pa absolute.
    pub exhaust: f64,
}

/// Mean pressure lost to friction, in the form of Chen and Flynn 1965 (SAE 650733) with a term in the speed squared.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Friction {
    /// Pa.
    pub constant: f64,
    /// On the peak pressure.
    pub peak: f64,
    /// On the mean piston speed, Pa s/m.
    pub speed: f64,
    /// On its square, Pa s²/m².
    pub speed_squared: f64,
}

impl Friction {
    /// Usual for petrol engines: 0.4 bar, 0.005, 0.09 bar s/m, 0.0009 bar s²/m²; from memory of engine-simulation
    /// practice, 0.3 to 0.5 bar, 0.004 to 0.006, 0.08 to 0.1 and 0.0006 to 0.0012.
    pub const USUAL: Self = Self { constant: 4.0e4, peak: 0.005, speed: 9.0e3, speed_squared: 90.0 };

    /// So many times this.
    #[must_use]
    pub fn scaled(self, by: f64) -> Self {
        let Self { constant, peak, speed, speed_squared } = self;
        Self { constant: by * constant, peak: by * peak, speed: by * speed, speed_squared: by * speed_squared }
    }

    /// Pa, from a peak pressure in Pa and a mean piston speed in m/s.
    #[must_use]
    pub fn mean_pressure(&self, peak: f64, speed: f64) -> f64 {
        self.constant + self.peak * peak + speed * (self.speed + speed * self.speed_squared)
    }
}

/// Everything but how much is trapped.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Setup {
    /// Geometry.
    pub cylinder: Cylinder,
    /// Gas.
    pub charge: Charge,
    /// Burn.
    pub burn: Burn,
    /// Heat loss.
    pub walls: Walls,
    /// Open part.
    pub exchange: Exchange,
    /// Crank speed, rad/s, > 0.
    pub speed: f64,
}

pub(super) fn positive(what: &'static str, value: f64) -> Result<(), Outside> {
    if value.is_finite() && value > 0.0 { Ok(()) } else { Err(Outside::NotPositive { what, value }) }
}

/// Degrees from firing top dead centre of a point of the trace.
#[expect(clippy::cast_precision_loss, reason = "at most 720")]
pub(super) fn angle_of(point: usize) -> f64 {
    point as f64 - 360.0
}

/// Point of the trace at a whole degree from firing top dead centre, -360 or more.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "-180 to 360, above -360")]
pub(super) fn point_of(degree: f64) -> usize {
    (degree + 360.0) as usize
}
