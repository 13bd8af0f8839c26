//! What a rod's big end loads its crankpin with through the cycle.
//!
//! x up from the crank toward the piston, y toward the side that the crankpin is on at +90 degrees. Rigid parts at
//! constant speed, the rod as two masses at its ends, friction of the piston left out. Taylor, The Internal-Combustion
//! Engine in Theory and Practice, vol. 2, ch. 8.

use crate::kinematics::Slider;
use crate::orbit::Load;
use std::f64::consts::PI;

/// One cylinder's running gear.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BigEnd {
    /// Crank and rod.
    pub slider: Slider,
    /// Bore, m.
    pub bore: f64,
    /// Piston, pin, rings and small end, kg.
    pub reciprocating: f64,
    /// Big end with its shells, kg.
    pub rotating: f64,
}

impl BigEnd {
    /// Load on the crankpin at a crank angle in rad after firing top dead centre, a speed in rad/s and a pressure in the
    /// cylinder over that in the crankcase in Pa. NaN where the rod cannot follow.
    #[must_use]
    pub fn load(&self, angle: f64, speed: f64, pressure: f64) -> Load {
        let Slider { radius, rod, offset } = self.slider;
        let (sin, cos) = angle.sin_cos();
        let u = radius * sin - offset;
        let q = (rod * rod - u * u).sqrt();
        // one root for slant, its rate and the acceleration; the same formula as the slider's own
        let acceleration = radius
            * speed
            * speed
            * (cos + (radius * cos * cos - u * sin) / q + u * u * radius * cos * cos / (q * q * q));
        let up = self.reciprocating * acceleration - PI / 4.0 * self.bore * self.bore * pressure;
        let turning = self.rotating * radius * speed * speed;
        let rate = radius * speed * cos / q;
        Load {
            x: up + turning * cos,
            y: -up * u / q + turning * sin,
            mean: (speed - rate) / 2.0,
            relative: speed + rate,
        }
    }
}

/// A pressure pulse for checks and for want of a cycle, Pa: peak in Pa, with its middle and width in degrees after
/// firing top dead centre: peak exp(-((angle - middle)/width)²). No compression before it and no pumping.
#[must_use]
pub fn pulse(angle: f64, peak: f64, middle: f64, width: f64) -> f64 {
    let off = (angle.to_degrees() - middle + 360.0).rem_euclid(720.0) - 360.0;
    peak * (-(off / width).powi(2)).exp()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn gear() -> BigEnd {
        BigEnd { slider: Slider::new(0.095_25, 0.152_4), bore: 0.105_5, reciprocating: 0.75, rotating: 0.5 }
    }

    #[test]
    fn the_load_is_the_sliders_acceleration_and_a_centripetal_force() {
        let gear = gear();
        for tenth in -3_600..3_600 {
            let angle = (f64::from(tenth) / 10.0).to_radians();
            let load = gear.load(angle, 700.0, 0.0);
            let up = gear.reciprocating * gear.slider.acceleration(angle, 700.0);
            let turning = gear.rotating * gear.slider.radius * 490_000.0;
            assert!((load.x - up - turning * angle.cos()).abs() < 1e-7 * turning);
            // a cylinder without pressure or friction loads the pin alike on the way up and down
            let mirror = gear.load(-angle, 700.0, 0.0);
            assert!((load.x - mirror.x).abs() < 1e-6 && (load.y + mirror.y).abs() < 1e-6);
            assert!((load.mean + load.relative / 2.0 - 700.0).abs() < 1e-9);
        }
    }

    #[test]
    fn pressure_pushes_down_the_rod_and_mass_goes_with_the_square_of_speed() {
        let gear = gear();
        let (without, with) = (gear.load(0.3, 500.0, 0.0), gear.load(0.3, 500.0, 5e6));
        assert!(with.x < without.x && with.y > without.y);
        let (slow, fast) = (gear.load(1.1, 300.0, 0.0), gear.load(1.1, 600.0, 0.0));
        assert!((fast.x / slow.x - 4.0).abs() < 1e-12 && (fast.y / slow.y - 4.0).abs() < 1e-12);
    }

    #[test]
    fn a_pulse_comes_again_after_two_turns() {
        let at = |deg: f64| pulse(deg.to_radians(), 7e6, 14.0, 25.0);
        assert!((at(14.0) - 7e6).abs() < 1e-6 && (at(14.0 + 720.0) - at(14.0 - 720.0)).abs() < 1e-6);
        assert!((at(-10.0) - at(38.0)).abs() < 1.0 && at(374.0) < 1.0);
    }
}
