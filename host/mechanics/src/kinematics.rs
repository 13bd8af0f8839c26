//! The slider-crank: where the piston is, how fast, and how hard it is turned round.
//!
//! With r the crank's radius, l the rod's length, d the offset of pin or cylinder axis toward the side that the
//! crankpin is on at +90 degrees, t the crank's angle from nominal top dead centre: u = r sin t - d, q = sqrt(l² - u²),
//! height of the pin above the crank's axis r cos t + q. Heywood 1988, section 2.2 (without offset); with it by
//! Pythagoras, as in Cornell's KMODDL, Mathematics of the Slider Cranks, 3. Rigid parts at constant speed.

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

    /// Slant of the rod from the cylinder's axis at a crank angle in rad, rad: toward the side that the crankpin is on where
    /// it is more than zero. asin((r sin t - d)/l). NaN where the rod cannot follow.
    #[must_use]
    pub fn slant_at(self, angle: f64) -> f64 {
        ((self.radius * angle.sin() - self.offset) / self.rod).asin()
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

#[cfg(test)]
mod tests {
    use super::*;

    /// Gupta, Fundamentals of Internal Combustion Engines, example 13.2: 65 x 60 mm, a rod of 120 mm, 50 bar less 900 N of
    /// friction at 90 degrees push the wall with 4.05 kN, and with the axis 2 mm off with 3.765 kN.
    #[test]
    fn an_offset_takes_from_the_thrust_as_in_the_book() {
        let down = 50e5 * PI / 4.0 * 0.065 * 0.065 - 900.0;
        let thrust = |offset: f64| down * Slider { offset, ..Slider::new(0.06, 0.12) }.slant_at(PI / 2.0).tan();
        assert!((thrust(0.0) - 4_050.0).abs() < 5.0, "{}", thrust(0.0));
        assert!((thrust(2e-3) - 3_765.0).abs() < 0.6, "{}", thrust(2e-3));
    }

    #[test]
    fn rod_and_crank_are_in_line_where_the_piston_is_highest() {
        let slider = Slider { offset: 1.5e-3, ..Slider::new(0.0884, 0.1448) };
        let top = slider.top_dead_centre();
        // in line, the rod slants as far from the axis as the throw does, the other way round
        assert!((slider.slant_at(top) + top).abs() < 1e-12);
        assert!(slider.below_top(top).abs() < 1e-15 && slider.below_top(0.0) > 0.0);
    }
}
