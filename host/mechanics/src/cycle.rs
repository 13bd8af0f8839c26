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

use crate::kinematics::mean_speed;
use crate::root;
use std::sync::Arc;

mod burn;
mod law;
mod layout;
mod setup;
mod trace;
mod walk;
pub use burn::{Burn, WIEBE};
use layout::Layout;
use setup::positive;
pub use setup::{Charge, Cylinder, Exchange, Friction, NoCycle, POINTS, Setup, Walls};
pub use trace::Cycle;
use walk::Walk;

/// Trapped gas that no engine passes, kg/m³ of swept volume: ten times free air.
const FULLEST: f64 = 12.0;

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
