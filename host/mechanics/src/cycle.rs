//! Pressure in a cylinder through its cycle: one zone from inlet closing to exhaust opening.
//!
//! First law on the trapped gas with real heat capacities (Heywood 1988, ch. 9.2), heat released by a Wiebe curve
//! (ch. 9), lost to the walls by Woschni (eq. 12.19), held back in the top land's crevice at the walls' temperature
//! (Gatowski et al. 1984). Integrated by Runge and Kutta's fourth order: a degree
//! a step about top dead centre and through the burn, three elsewhere.
//!
//! While a valve is open nothing is solved: the pressure follows a given shape, blow-down dying away by bottom dead
//! centre and then the pressures of exhaust and inlet. That part weighs little in a rod's load and in the mean pressure,
//! and says nothing of waves in the pipes.
//!
//! Against measured cycles such a model, set to a known power, has its peak pressure within some 10 to 15 %: most of it
//! from the timing and the length of the burn, which nobody has measured (from memory of published comparisons).

use crate::Outside;
use crate::gas::Gas;
use crate::kinematics::{Slider, mean_speed};
use crate::root;
use std::f64::consts::PI;
use std::sync::Arc;

mod burn;
mod law;
mod walk;
pub use burn::{Burn, WIEBE};
use walk::{Layout, Walk};

/// Points of a whole cycle, a degree apart, from -360 to 360 degrees about firing top dead centre.
pub const POINTS: usize = 721;
const DEGREE: f64 = PI / 180.0;
/// Trapped gas that no engine passes, kg/m³ of swept volume: ten times free air.
const FULLEST: f64 = 12.0;

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

/// A whole cycle.
#[derive(Debug, Clone, PartialEq)]
pub struct Cycle {
    layout: Arc<Layout>,
    pressures: Vec<f64>,
    temperatures: Vec<f64>,
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

/// A cycle that was solved for a mean pressure, so that a near one is found with less work.
#[derive(Debug, Clone, PartialEq)]
pub struct Near {
    layout: Arc<Layout>,
    /// Trapped gas, kg.
    pub mass: f64,
    /// Brake mean effective pressure, Pa.
    pub brake: f64,
    /// Mean pressure lost to friction, Pa.
    pub friction: f64,
}

impl Near {
    /// What a cycle leaves to one near it.
    #[must_use]
    pub fn of(cycle: &Cycle, friction: &Friction) -> Self {
        let (brake, friction) = (cycle.brake(friction), cycle.friction(friction));
        Self { layout: Arc::clone(&cycle.layout), mass: cycle.mass, brake, friction }
    }
}

impl Setup {
    /// The cycle with so much trapped, kg, > 0.
    ///
    /// # Errors
    /// [`NoCycle`].
    pub fn with_mass(&self, mass: f64) -> Result<Cycle, NoCycle> {
        positive("the trapped mass", mass)?;
        let mut walk = Walk::new(*self, None)?;
        let sums = walk.run(mass)?;
        Ok(walk.finish(mass, sums))
    }

    /// The cycle whose indicated mean pressure less friction is `brake`, Pa: a root in the trapped mass.
    ///
    /// # Errors
    /// [`NoCycle`]; [`NoCycle::NoSuchPower`] where ten times the swept volume of free air does not give it.
    pub fn at_brake(&self, brake: f64, friction: &Friction) -> Result<Cycle, NoCycle> {
        positive("the mean effective pressure", brake)?;
        let mut walk = Walk::new(*self, None)?;
        let swept = crate::geometry::swept_volume(self.cylinder.bore, self.cylinder.slider.stroke());
        let speed = mean_speed(self.cylinder.slider.stroke(), self.speed);
        let mut trouble = None;
        let mut short = |mass: f64| match walk.run(mass) {
            Ok(sums) => walk.open_work(&sums) / swept - friction.mean_pressure(sums.peak, speed) - brake,
            Err(e) => {
                trouble = Some(e);
                f64::NAN
            }
        };
        // 12.8 bar a kilogram of free air in a litre is about what a good petrol engine gives
        let guess = swept * 1.2 * (brake + friction.mean_pressure(6.0 * brake, speed)) / 12.8e5;
        let found = root::nearly_straight(&mut short, guess, 1e-5);
        let none = NoCycle::NoSuchPower { wanted: brake };
        let mass = found.ok_or(trouble.unwrap_or(none))?;
        if mass > FULLEST * swept {
            return Err(none);
        }
        let sums = walk.run(mass)?;
        Ok(walk.finish(mass, sums))
    }
}

impl Setup {
    /// The same cycle as [`Self::at_brake`], begun from one whose setup is but a little different: to 1e-5 of the mean
    /// pressure in two or three integrations, where a start from nothing takes five or six.
    ///
    /// # Errors
    /// As [`Self::at_brake`].
    pub fn at_brake_near(&self, brake: f64, friction: &Friction, near: &Near) -> Result<Cycle, NoCycle> {
        positive("the mean effective pressure", brake)?;
        let mut walk = Walk::new(*self, Some(&near.layout))?;
        let swept = crate::geometry::swept_volume(self.cylinder.bore, self.cylinder.slider.stroke());
        let speed = mean_speed(self.cylinder.slider.stroke(), self.speed);
        // indicated pressure goes nearly as the charge; the secant puts right what is wrong with that
        let (mut mass, mut gain) = (near.mass, (near.brake + near.friction) / near.mass);
        let mut before: Option<(f64, f64)> = None;
        for _ in 0..5 {
            let sums = walk.run(mass)?;
            let short = walk.open_work(&sums) / swept - friction.mean_pressure(sums.peak, speed) - brake;
            if short.abs() <= 1e-5 * brake {
                return Ok(walk.finish(mass, sums));
            }
            if let Some((was, had)) = before
                && mass != was
            {
                gain = (short - had) / (mass - was);
            }
            before = Some((mass, short));
            mass -= short / gain;
            if !(0.8 * near.mass..=1.25 * near.mass).contains(&mass) {
                break;
            }
        }
        self.at_brake(brake, friction)
    }
}

fn positive(what: &'static str, value: f64) -> Result<(), Outside> {
    if value.is_finite() && value > 0.0 { Ok(()) } else { Err(Outside::NotPositive { what, value }) }
}

/// Degrees from firing top dead centre of a point of the trace.
#[expect(clippy::cast_precision_loss, reason = "at most 720")]
fn angle_of(point: usize) -> f64 {
    point as f64 - 360.0
}

/// Point of the trace at a whole degree from firing top dead centre, -360 or more.
#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "-180 to 360, above -360")]
fn point_of(degree: f64) -> usize {
    (degree + 360.0) as usize
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

/// Air drawn in over what would fill the swept volume at the inlet's state: trapped mass in kg with a share of residual
/// gas by mass and of fuel in the fresh rest, swept volume in m³, density of the air in kg/m³. Heywood 1988, eq. 2.27.
#[must_use]
pub fn volumetric_efficiency(mass: f64, residual: f64, fuel: f64, swept: f64, density: f64) -> f64 {
    let air = mass * (1.0 - residual) * (1.0 - fuel);
    if swept > 0.0 && density > 0.0 { air / (swept * density) } else { f64::NAN }
}

#[cfg(test)]
#[path = "cycle_tests.rs"]
mod tests;
