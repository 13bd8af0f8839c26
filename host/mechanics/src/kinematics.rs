//! The slider-crank: where the piston is, how fast, and how hard it is turned round.
//!
//! With r the crank's radius, l the rod's length, d the offset of pin or cylinder axis toward the side that the
//! crankpin is on at +90 degrees, t the crank's angle from nominal top dead centre: u = r sin t - d, q = sqrt(l² - u²),
//! height of the pin above the crank's axis r cos t + q. Heywood 1988, section 2.2 (without offset); Bevan, Theory of
//! Machines. Rigid parts at constant speed.

use crate::Outside;
use crate::root::crossing;
use std::f64::consts::PI;

/// A crank, its rod and the offset of its pin, m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slider {
    /// Half of the stroke (exactly so without offset), m, > 0.
    pub radius: f64,
    /// Rod between centres, m, longer than radius and offset together.
    pub rod: f64,
    /// Pin offset, m.
    pub offset: f64,
}

impl Slider {
    /// From a stroke and a rod in m, no offset.
    #[must_use]
    pub fn new(stroke: f64, rod: f64) -> Self {
        Self { radius: stroke / 2.0, rod, offset: 0.0 }
    }

    /// Itself, if it can turn.
    ///
    /// # Errors
    /// [`Outside`] for a radius that is not greater than zero and for a rod that cannot follow its crank.
    pub fn checked(self) -> Result<Self, Outside> {
        let Self { radius, rod, offset } = self;
        if radius.is_nan() || radius <= 0.0 {
            return Err(Outside::NotPositive { what: "the crank's radius", value: radius });
        }
        if rod.is_nan() || offset.is_nan() || rod <= radius + offset.abs() {
            return Err(Outside::RodTooShort { rod, radius, offset });
        }
        Ok(self)
    }

    /// Crank radius over rod length, the usual lambda.
    #[must_use]
    pub fn lambda(self) -> f64 {
        self.radius / self.rod
    }

    /// Crank angle at which the piston is highest, rad: asin(d / (l + r)).
    #[must_use]
    pub fn top_dead_centre(self) -> f64 {
        (self.offset / (self.rod + self.radius)).asin()
    }

    /// Crank angle at which it is lowest, rad: pi + asin(d / (l - r)).
    #[must_use]
    pub fn bottom_dead_centre(self) -> f64 {
        PI + (self.offset / (self.rod - self.radius)).asin()
    }

    fn reach(self, arm: f64) -> f64 {
        (arm * arm - self.offset * self.offset).sqrt()
    }

    /// Stroke, m; a little more than twice the radius with an offset.
    #[must_use]
    pub fn stroke(self) -> f64 {
        self.reach(self.rod + self.radius) - self.reach(self.rod - self.radius)
    }

    /// How far the piston is below its top dead centre at a crank angle in rad, m. NaN where the rod cannot follow.
    #[must_use]
    pub fn below_top(self, angle: f64) -> f64 {
        let u = self.radius * angle.sin() - self.offset;
        let q = (self.rod * self.rod - u * u).sqrt();
        self.reach(self.rod + self.radius) - self.radius * angle.cos() - q
    }

    /// Both at once: how far below top dead centre, m, and how that grows with the angle, m/rad.
    pub(crate) fn place(self, angle: f64) -> (f64, f64) {
        let (sin, cos) = angle.sin_cos();
        let u = self.radius * sin - self.offset;
        let q = (self.rod * self.rod - u * u).sqrt();
        (self.reach(self.rod + self.radius) - self.radius * cos - q, self.radius * (sin + u * cos / q))
    }

    /// Speed toward the crank, m/s, at a crank angle in rad and a crank speed in rad/s. NaN where the rod cannot follow.
    #[must_use]
    pub fn speed(self, angle: f64, omega: f64) -> f64 {
        let (sin, cos) = angle.sin_cos();
        let u = self.radius * sin - self.offset;
        let q = (self.rod * self.rod - u * u).sqrt();
        self.radius * omega * (sin + u * cos / q)
    }

    /// Acceleration toward the crank, m/s². NaN where the rod cannot follow.
    #[must_use]
    pub fn acceleration(self, angle: f64, omega: f64) -> f64 {
        let r = self.radius;
        let (sin, cos) = angle.sin_cos();
        let u = r * sin - self.offset;
        let q = (self.rod * self.rod - u * u).sqrt();
        r * omega * omega * (cos + (r * cos * cos - u * sin) / q + u * u * r * cos * cos / (q * q * q))
    }

    /// Speed by the two-term series, m/s: r w (sin t + lambda/2 sin 2t), no offset. What textbooks print; exact at the
    /// dead centres, a few per cent off between them. Khurmi and Gupta, Theory of Machines, ch. 15.
    #[must_use]
    pub fn speed_two_term(self, angle: f64, omega: f64) -> f64 {
        self.radius * omega * (angle.sin() + self.lambda() / 2.0 * (2.0 * angle).sin())
    }

    /// Acceleration by the two-term series, m/s²: r w² (cos t + lambda cos 2t), no offset. Khurmi and Gupta, ch. 15.
    #[must_use]
    pub fn acceleration_two_term(self, angle: f64, omega: f64) -> f64 {
        self.radius * omega * omega * (angle.cos() + self.lambda() * (2.0 * angle).cos())
    }

    /// Greatest slant of the rod, rad: asin((r + |d|) / l).
    #[must_use]
    pub fn rod_slant(self) -> f64 {
        ((self.radius + self.offset.abs()) / self.rod).asin()
    }

    /// Crank angle of the greatest speed on the way down, rad: where the acceleration passes through zero, which it
    /// does once between the dead centres.
    ///
    /// # Errors
    /// [`Outside`] for a rod that cannot follow its crank.
    pub fn fastest(self) -> Result<f64, Outside> {
        let slider = self.checked()?;
        let ends = [slider.top_dead_centre(), slider.bottom_dead_centre()];
        Ok(crossing(ends, |angle| -slider.acceleration(angle, 1.0)))
    }

    /// Greatest speed of the piston, m/s, at a crank speed in rad/s.
    ///
    /// # Errors
    /// [`Outside`] for a rod that cannot follow its crank.
    pub fn greatest_speed(self, omega: f64) -> Result<f64, Outside> {
        Ok(self.speed(self.fastest()?, omega))
    }
}

/// Mean piston speed, m/s: stroke in m, crank speed in rad/s. Heywood 1988, eq. 2.9: 2 L N.
#[must_use]
pub fn mean_speed(stroke: f64, omega: f64) -> f64 {
    stroke * omega / PI
}
