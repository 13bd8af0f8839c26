//! How a cam moves its valve, and the speed at which the valve stops following.
//!
//! A lift curve is points of angle (cam radians from the nose), lift, slope and curvature (per radian and per radian
//! squared). It comes from a table of the lobe, smoothed by [`table`], or, where only lift and duration are known, from
//! [`Polynomial`]. The train is rigid here: no pushrod or rocker gives, no spring surges. A real one leaves its cam
//! sooner, by as much as it is soft; hence a margin and never a promise.

mod lobe_table;

use crate::root::crossing;
pub use lobe_table::{FEWEST, TableFault, WINDOW, table};
use std::f64::consts::PI;

/// Net lift at the valve, m: lobe lift times the rocker's ratio less lash; under zero the valve is on its seat.
#[must_use]
pub fn net_lift(lobe: f64, ratio: f64, lash: f64) -> f64 {
    lobe * ratio - lash
}

/// One point of a lift curve.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Cam angle from the nose, rad.
    pub angle: f64,
    /// Lift, m.
    pub lift: f64,
    /// Its first derivative by the cam angle, m/rad.
    pub slope: f64,
    /// Its second derivative, m/rad²; negative where the spring must hold the valve on the cam.
    pub curvature: f64,
}

impl Point {
    /// The same lobe seen at the valve, see [`net_lift`].
    #[must_use]
    pub fn at_valve(self, ratio: f64, lash: f64) -> Self {
        Self {
            lift: net_lift(self.lift, ratio, lash),
            slope: self.slope * ratio,
            curvature: self.curvature * ratio,
            angle: self.angle,
        }
    }

    /// Speed, m/s, at a cam speed in rad/s.
    #[must_use]
    pub fn speed(self, cam_speed: f64) -> f64 {
        self.slope * cam_speed
    }

    /// Acceleration, m/s², at a cam speed in rad/s.
    #[must_use]
    pub fn acceleration(self, cam_speed: f64) -> f64 {
        self.curvature * cam_speed * cam_speed
    }
}

/// A symmetric lobe without a dwell: L = h (1 + c2 x² + cp x^p + cq x^q + cr x^r + cs x^s), x the angle from the nose
/// over the half angle, p = n, q = 2n - 2, r = 3n - 4, s = 4n - 6.
///
/// At the end of the lobe lift, velocity, acceleration, jerk and the jerk's own slope are zero; at the nose velocity and
/// jerk are. So all five are continuous round the whole cam (C⁴), with an exponent under 5 the first four (C³). The coefficients are those of the polydyne
/// polynomial (Stoddart, Polydyne cam design, Machine Design, 1953; from memory, and proved here by its end conditions).
/// Exponents of 5 to 7 bring the durations at 6, 20, 50 and 200 thou of usual street and race lobes to a few degrees; a
/// ground lobe has a higher acceleration at the flank and another nose: its curvature there can be a fifth off.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Polynomial {
    /// Greatest lift h, m, > 0.
    pub lift: f64,
    /// Half of the lobe, cam rad, > 0.
    pub half: f64,
    /// The exponent n, from 4 to 14.
    pub exponent: f64,
}

impl Polynomial {
    /// The lobe that has this lift, and at the lift `at` (m) this duration as the crank counts it (crank rad), which is
    /// twice the cam's. NaN in its half angle where `at` is not between zero and the lift, or the exponent out of range.
    #[must_use]
    pub fn from_duration(lift: f64, at: f64, duration: f64, exponent: f64) -> Self {
        let bad = Self { lift, half: f64::NAN, exponent };
        if !(at > 0.0 && at < lift && duration > 0.0 && (4.0..=14.0).contains(&exponent)) {
            return bad;
        }
        let unit = Self { lift: 1.0, half: 1.0, exponent };
        // the lobe falls all the way from its nose, so there is one such place
        let share = crossing([0.0, 1.0], |x| at / lift - unit.at(x).lift);
        Self { half: duration / 4.0 / share, ..bad }
    }

    /// Exponents and coefficients after the first term.
    fn terms(self) -> [(f64, f64); 5] {
        let n = self.exponent;
        let (p, q, r, s) = (n, 2.0 * n - 2.0, 3.0 * n - 4.0, 4.0 * n - 6.0);
        [
            (2.0, -p * q * r * s / ((p - 2.0) * (q - 2.0) * (r - 2.0) * (s - 2.0))),
            (p, 2.0 * q * r * s / ((p - 2.0) * (q - p) * (r - p) * (s - p))),
            (q, -2.0 * p * r * s / ((q - 2.0) * (q - p) * (r - q) * (s - q))),
            (r, 2.0 * p * q * s / ((r - 2.0) * (r - p) * (r - q) * (s - r))),
            (s, -2.0 * p * q * r / ((s - 2.0) * (s - p) * (s - q) * (s - r))),
        ]
    }

    /// The curve at a cam angle from the nose, rad; on the base circle past the half angle.
    #[must_use]
    pub fn at(self, angle: f64) -> Point {
        self.by(&self.terms(), angle)
    }

    fn by(self, terms: &[(f64, f64); 5], angle: f64) -> Point {
        let x = (angle / self.half).abs();
        if x >= 1.0 {
            return Point { angle, lift: 0.0, slope: 0.0, curvature: 0.0 };
        }
        let (mut lift, mut slope, mut curvature) = (1.0, 0.0, 0.0);
        // every exponent is the one before it and n - 2 more, so one power serves all
        let step = x.powf(self.exponent - 2.0);
        let mut power = 1.0;
        for &(exponent, coefficient) in terms {
            curvature += coefficient * exponent * (exponent - 1.0) * power;
            slope += coefficient * exponent * power * x;
            lift += coefficient * power * x * x;
            power *= step;
        }
        Point {
            angle,
            lift: self.lift * lift,
            slope: self.lift * slope / self.half * angle.signum(),
            curvature: self.lift * curvature / (self.half * self.half),
        }
    }

    /// Half of the curve, nose to base circle, in steps of `half/count`; the other half is its mirror.
    pub fn points(self, count: u32) -> impl Iterator<Item = Point> {
        let terms = self.terms();
        (0..=count).map(move |i| self.by(&terms, self.half * f64::from(i) / f64::from(count.max(1))))
    }
}

/// What hangs on the valve side of the rocker, kg, each as it is weighed but for the rocker.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct Masses {
    /// The valve.
    pub valve: f64,
    /// Retainer and locks.
    pub retainer: f64,
    /// The whole spring or springs: a third of them moves with the retainer.
    pub spring: f64,
    /// The rocker's moving part as if it sat at the valve: its inertia over the square of its valve-side arm.
    pub rocker: f64,
    /// The pushrod; none on an overhead cam.
    pub pushrod: f64,
    /// Lifter or bucket.
    pub lifter: f64,
}

impl Masses {
    /// All of it as seen at the valve, kg: what is on the cam's side of a rocker moves slower by its ratio. Rayleigh's
    /// third of the spring: Rayleigh, The Theory of Sound, vol. 1, 1877, §156.
    #[must_use]
    pub fn at_valve(self, ratio: f64) -> f64 {
        self.valve + self.retainer + self.spring / 3.0 + self.rocker + (self.pushrod + self.lifter) / (ratio * ratio)
    }
}

/// The spring as the valve feels it, N and N/m.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Closing {
    /// Load on the seat.
    pub seat: f64,
    /// Rate of all springs together.
    pub rate: f64,
}

impl Closing {
    /// Load at a lift in m, N; on the seat load below it.
    #[must_use]
    pub fn at(self, lift: f64) -> f64 {
        self.seat + self.rate * lift.max(0.0)
    }

    /// What presses the valve's side of the train on its cam at a point, N: spring and inertia. Under zero it has left.
    #[must_use]
    pub fn pressed(self, point: Point, mass: f64, cam_speed: f64) -> f64 {
        self.at(point.lift) + mass * point.acceleration(cam_speed)
    }
}

/// Cam speed at which the valve first leaves its cam, rad/s, and the point where: the least of sqrt(F/(m |L''|)) over
/// the points that the spring must turn round while the valve is open. None where it never does, or for no mass.
/// Rothbart, Cam Design Handbook, 2004, ch. 8: contact ends where spring and inertia are equal.
pub fn leaves(points: impl Iterator<Item = Point>, closing: Closing, mass: f64) -> Option<(f64, Point)> {
    let mut least: Option<(f64, Point)> = None;
    for point in points.filter(|p| p.curvature < 0.0 && p.lift >= 0.0) {
        let square = closing.at(point.lift) / (-point.curvature * mass);
        if square > 0.0 && square.is_finite() && least.is_none_or(|(s, _)| square < s) {
            least = Some((square, point));
        }
    }
    least.map(|(square, point)| (square.sqrt(), point))
}

/// What presses the valve's side of the train on its cam while the valve is open, N, least and greatest over the points:
/// spring and inertia at a cam speed in rad/s. Where the least is under zero the valve has left, and what comes after is
/// another matter. The lobe bears the rocker's ratio times as much. None where no
/// point is open.
pub fn pressed_between(
    points: impl Iterator<Item = Point>,
    closing: Closing,
    mass: f64,
    cam_speed: f64,
) -> Option<[f64; 2]> {
    let loads = points.filter(|p| p.lift >= 0.0).map(|p| closing.pressed(p, mass, cam_speed));
    loads.map(|load| [load, load]).reduce(|[least, most], [load, _]| [least.min(load), most.max(load)])
}

/// Greatest curvature toward the cam, m/rad², a positive figure: what the spring must turn round. NaN for no points.
pub fn greatest_deceleration(points: impl Iterator<Item = Point>) -> f64 {
    points.filter(|p| p.lift >= 0.0).map(|p| -p.curvature).fold(f64::NAN, f64::max)
}

/// Acceleration of a curve given in lift per cam degree squared, m/s²: at a cam speed in rad/s.
#[must_use]
pub fn from_per_degree(per_degree_squared: f64, cam_speed: f64) -> f64 {
    let degrees_a_second = cam_speed.to_degrees();
    per_degree_squared * degrees_a_second * degrees_a_second
}

/// Amplitude of one harmonic of the lift over a whole turn of the cam, m: what a spring that surges at `number` times the
/// cam's speed is shaken by. Trapezoids over points in rising angle that span the lobe; the base circle adds nothing.
/// Accurate to a few per cent while a harmonic has ten points or more.
pub fn harmonic(points: impl Iterator<Item = Point>, number: f64) -> f64 {
    let (mut even, mut odd) = (0.0, 0.0);
    let mut last: Option<(f64, [f64; 2])> = None;
    for point in points {
        let (sin, cos) = (number * point.angle).sin_cos();
        let here = [point.lift * cos, point.lift * sin];
        if let Some((angle, before)) = last {
            let width = (point.angle - angle) / 2.0;
            even += width * (before[0] + here[0]);
            odd += width * (before[1] + here[1]);
        }
        last = Some((point.angle, here));
    }
    even.hypot(odd) / PI
}

#[cfg(test)]
mod tests;
