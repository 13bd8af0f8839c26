//! Crosshatch from the honing machine's settings, and the settings for a wanted angle.
//!
//! Convention: the included angle that the two hands of lines make about the horizontal, so 0 is a lathe's finish and
//! the angle grows with the strokes. Its supplement, about the bore's axis, is in use too: say which.
//! alpha = 2 atan(axial speed / surface speed): elementary kinematics, no source needed.

use crate::Outside;
use std::f64::consts::PI;

/// How a honing machine is set.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hone {
    /// Bore, m, > 0.
    pub bore: f64,
    /// How far the stones travel one way, m, >= 0.
    pub stroke: f64,
    /// Strokes, 1/s: down and up again is one.
    pub strokes: f64,
    /// Spindle, rad/s, > 0.
    pub spindle: f64,
}

impl Hone {
    /// Itself, if an angle can come of it.
    ///
    /// # Errors
    /// [`Outside`] for a bore, stroke, rate or spindle speed that is not greater than zero.
    pub fn checked(self) -> Result<Self, Outside> {
        Outside::unless_positive("the bore", self.bore)?;
        Outside::unless_positive("the hone's stroke", self.stroke)?;
        Outside::unless_positive("the strokes", self.strokes)?;
        Outside::unless_positive("the spindle's speed", self.spindle)?;
        Ok(self)
    }

    /// Speed of the stones round the bore, m/s.
    #[must_use]
    pub fn surface_speed(self) -> f64 {
        self.bore / 2.0 * self.spindle
    }

    /// Mean speed of the stones along the bore, m/s: twice the stroke a cycle.
    #[must_use]
    pub fn mean_axial_speed(self) -> f64 {
        2.0 * self.stroke * self.strokes
    }

    /// Speed along the bore in the middle of the stroke, m/s, where a crank drives the strokes: pi/2 of the mean.
    #[must_use]
    pub fn mid_stroke_axial_speed(self) -> f64 {
        PI * self.stroke * self.strokes
    }

    /// Angle of the mean speed, rad; what a machine that reverses quickly makes of nearly the whole bore. NaN for a
    /// hone that stands still.
    #[must_use]
    pub fn mean_angle(self) -> f64 {
        2.0 * (self.mean_axial_speed() / self.surface_speed()).atan()
    }

    /// Angle in the middle of a stroke that a crank drives, rad. NaN for a hone that stands still.
    #[must_use]
    pub fn mid_stroke_angle(self) -> f64 {
        2.0 * (self.mid_stroke_axial_speed() / self.surface_speed()).atan()
    }

    /// Angle where the stones' middle is `off` m from the middle of a stroke that a crank drives, rad: it falls to zero
    /// at the reversals. NaN beyond them.
    #[must_use]
    pub fn angle_at(self, off: f64) -> f64 {
        let share = 2.0 * off / self.stroke;
        let axial = self.mid_stroke_axial_speed() * (1.0 - share * share).sqrt();
        2.0 * (axial / self.surface_speed()).atan()
    }

    /// Strokes for a wanted mean angle in rad, 1/s, at this stroke and spindle speed.
    ///
    /// # Errors
    /// [`Outside`] for an angle that is not between 0 and half a turn, and for a stroke that is not greater than zero.
    pub fn strokes_for(self, angle: f64) -> Result<f64, Outside> {
        Outside::unless_positive("the hone's stroke", self.stroke)?;
        Ok(self.surface_speed() * half_tangent(angle)? / (2.0 * self.stroke))
    }

    /// Spindle speed for a wanted mean angle in rad, rad/s, at these strokes.
    ///
    /// # Errors
    /// [`Outside`] for an angle that is not between 0 and half a turn, and for a bore that is not greater than zero.
    pub fn spindle_for(self, angle: f64) -> Result<f64, Outside> {
        Outside::unless_positive("the bore", self.bore)?;
        Ok(self.mean_axial_speed() / half_tangent(angle)? * 2.0 / self.bore)
    }
}

fn half_tangent(angle: f64) -> Result<f64, Outside> {
    if angle > 0.0 && angle < PI {
        Ok((angle / 2.0).tan())
    } else {
        Err(Outside::NotBetween { what: "the crosshatch's angle", value: angle, low: 0.0, high: PI })
    }
}

/// The same lines counted about the bore's axis, rad.
#[must_use]
pub fn about_the_axis(angle: f64) -> f64 {
    PI - angle
}

/// Stroke that lets a stone run out of both ends of a bore by `out`, m: bore's length and 2 `out` less the stone; all
/// in m.
#[must_use]
pub fn stroke_for(length: f64, stone: f64, out: f64) -> f64 {
    length + 2.0 * out - stone
}

/// How far a stone runs out of each end of a bore, m, when the stroke is set in its middle: [`stroke_for`] turned
/// round. Negative where it does not reach the end.
#[must_use]
pub fn overstroke(length: f64, stone: f64, stroke: f64) -> f64 {
    (stroke + stone - length) / 2.0
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    const HONE: Hone = Hone { bore: 0.102_362, stroke: 0.127, strokes: 1.0, spindle: 17.802_358 };

    #[test]
    fn the_setting_for_an_angle_brings_that_angle() {
        for degrees in 1..180 {
            let angle = f64::from(degrees).to_radians();
            let set = Hone { strokes: HONE.strokes_for(angle).unwrap(), ..HONE };
            assert!((set.mean_angle() - angle).abs() < 1e-12);
            let set = Hone { spindle: HONE.spindle_for(angle).unwrap(), ..HONE };
            assert!((set.mean_angle() - angle).abs() < 1e-12);
        }
        for wrong in [0.0, -1.0, PI, 4.0, f64::NAN, f64::INFINITY] {
            assert!(HONE.strokes_for(wrong).is_err() && HONE.spindle_for(wrong).is_err());
        }
    }

    #[test]
    fn more_strokes_open_the_angle_and_more_spindle_closes_it() {
        let mut last = 0.0;
        for tenth in 1..100 {
            let angle = Hone { strokes: f64::from(tenth) / 10.0, ..HONE }.mean_angle();
            assert!(angle > last && angle < PI);
            last = angle;
        }
        assert!(Hone { spindle: 2.0 * HONE.spindle, ..HONE }.mean_angle() < HONE.mean_angle());
        // bore, stroke and angle have no length in them
        let larger = Hone { bore: 3.0 * HONE.bore, stroke: 3.0 * HONE.stroke, ..HONE };
        assert!((larger.mean_angle() - HONE.mean_angle()).abs() < 1e-12);
    }

    #[test]
    fn along_the_stroke_the_angle_falls_to_zero() {
        assert!((HONE.angle_at(0.0) - HONE.mid_stroke_angle()).abs() < 1e-12);
        assert!(HONE.angle_at(HONE.stroke / 2.0).abs() < 1e-6);
        assert!((HONE.angle_at(0.03) - HONE.angle_at(-0.03)).abs() < 1e-15);
        assert!(HONE.angle_at(HONE.stroke).is_nan());
        assert!(HONE.mid_stroke_angle() > HONE.mean_angle());
        // the mean of the axial speed over the travel's time is what the mean angle is of
        let n = 100_000;
        let mean: f64 = (0..n).map(|i| (PI * (f64::from(i) + 0.5) / f64::from(n)).sin()).sum::<f64>() / f64::from(n);
        assert!((mean * HONE.mid_stroke_axial_speed() / HONE.mean_axial_speed() - 1.0).abs() < 1e-8);
    }

    #[test]
    fn overstroke_and_stroke_are_each_other_turned_round() {
        let stroke = stroke_for(0.15, 0.07, 0.03);
        assert!((overstroke(0.15, 0.07, stroke) - 0.03).abs() < 1e-15);
        assert!(overstroke(0.15, 0.07, 0.05) < 0.0);
        assert!((about_the_axis(about_the_axis(0.5)) - 0.5).abs() < 1e-15);
    }

    #[test]
    fn a_hone_that_stands_still_is_refused() {
        assert!(HONE.checked().is_ok());
        for wrong in [
            Hone { bore: 0.0, ..HONE },
            Hone { stroke: -1.0, ..HONE },
            Hone { strokes: f64::NAN, ..HONE },
            Hone { spindle: 0.0, ..HONE },
        ] {
            assert!(wrong.checked().is_err());
        }
    }
}
