//! How a journal moves under a load: the mobility of its film.
//!
//! In a frame with x along the load, eccentricity (x, y): d(x, y)/dt = F (c/R)²/(mu L D) M(x, y) and the turning of the
//! frame. Booker, J. Basic Engineering 87 (1965) 537. Three maps: his closed form for a short bearing, the short bearing
//! exactly, and a finite one.

use crate::lookup::{Neighbours, ROWS, blend, eccentricity_row};
use crate::root::crossing;
use std::f64::consts::PI;

mod half_grooved;
mod map;
pub use half_grooved::HalfGrooved;

/// A film's answer to a load.
pub trait Mobility {
    /// Mobility along and across the load at an eccentricity (x, y) in the load's frame, inside the circle of 1.
    fn at(&self, x: f64, y: f64) -> (f64, f64);
    /// The same at an eccentricity in the frame that stands still, under a load along a direction in it (cosine, sine):
    /// for a film that is not the same all round.
    fn in_frame(&self, at: [f64; 2], [c, s]: [f64; 2]) -> (f64, f64) {
        self.at(at[0] * c + at[1] * s, at[1] * c - at[0] * s)
    }
    /// The length over diameter it is for.
    fn ratio(&self) -> f64;
}

/// Nothing is closer than this share of the clearance: a guard for the steps of an integrator, not a film.
const CLOSEST: f64 = 1e-9;

/// The short bearing's map in closed form, within 9 % of the exact one to eccentricities of 0.96. Booker, J. Lubrication Technology 93 (1971) 168.
/// A short bearing resists more than a real one: at L/D 0.375 and eccentricity 0.9 it is 1.8 times as stiff, so that
/// its film is too thick.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShortFit {
    /// Length over diameter.
    pub ratio: f64,
}

impl Mobility for ShortFit {
    fn at(&self, x: f64, y: f64) -> (f64, f64) {
        let gap = (1.0 - x).max(CLOSEST);
        let root = gap.sqrt();
        let scale = 1.0 / (PI * self.ratio * self.ratio);
        (gap * gap * root * scale, -4.0 / PI * y * gap * root * scale)
    }
    fn ratio(&self) -> f64 {
        self.ratio
    }
}

/// The short bearing's map exactly: half of the film cavitated, its integrals in closed form by Sommerfeld's
/// substitution, the direction of motion looked for. For checks; far slower than the fit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShortExact {
    /// Length over diameter.
    pub ratio: f64,
}

impl ShortExact {
    /// Force of a unit motion at an angle from the eccentricity, along and across it: the integral of
    /// cos(t - angle) n(t)/(1 - e cos t)³ over the half circle that the motion is toward.
    fn impedance(e: f64, angle: f64) -> (f64, f64) {
        let rest = 1.0 - e * e;
        let q = |t: f64| 2.0 * ((1.0 + e).sqrt() * (t / 2.0).sin()).atan2((1.0 - e).sqrt() * (t / 2.0).cos());
        let (from, to) = (q(angle - PI / 2.0), q(angle + PI / 2.0));
        let over = |f: fn(f64, f64) -> f64| f(to, e) - f(from, e);
        // antiderivatives of (cos q + e)², sin q (cos q + e) and sin² q
        let cc = over(|q, e| (0.5 + e * e) * q + (2.0 * q).sin() / 4.0 + 2.0 * e * q.sin()) / rest.powf(2.5);
        let cs = over(|q, e| q.sin().powi(2) / 2.0 - e * q.cos()) / rest.powi(2);
        let ss = over(|q, _| q / 2.0 - (2.0 * q).sin() / 4.0) / rest.powf(1.5);
        let (sin, cos) = angle.sin_cos();
        (cos * cc + sin * cs, cos * cs + sin * ss)
    }
}

impl Mobility for ShortExact {
    fn at(&self, x: f64, y: f64) -> (f64, f64) {
        let e = x.hypot(y).min(1.0 - CLOSEST);
        // the load turns with the motion, so that there is one motion for a load
        let load = y.abs().atan2(x);
        let motion = crossing([0.0, PI], |angle| {
            let (along, across) = Self::impedance(e, angle);
            across * load.cos() - along * load.sin()
        });
        let (along, across) = Self::impedance(e, motion);
        let size = 1.0 / (2.0 * self.ratio * self.ratio * along.hypot(across));
        let turn = motion - load;
        (size * turn.cos(), -y.signum() * size * turn.sin())
    }
    fn ratio(&self) -> f64 {
        self.ratio
    }
}

/// Columns of the map: even steps of the root of the sine of half the angle between load and eccentricity.
const COLUMNS: usize = 15;

/// A finite bearing's map, from a solution of Reynolds' equation with Swift and Stieber's condition: the closed form
/// that joins the long bearing near contact to the short one (after Moes and Bosma, J. Lubrication Technology 103
/// (1981), from memory), times a table. Within 1 % of the solution for L/D 1/8 to 1 and eccentricities to 0.99; L/D outside is held at the
/// table's end. Rigid surfaces and one viscosity: a real engine's film differs by half again, either way.
#[derive(Debug, Clone, PartialEq)]
pub struct Finite {
    ratio: f64,
    /// 1/(pi (L/D)²)
    short: f64,
    map: [[[f64; 2]; COLUMNS]; ROWS],
}

impl Finite {
    /// For a length over diameter.
    #[must_use]
    pub fn new(ratio: f64) -> Self {
        let shares = blend(ratio);
        let map = std::array::from_fn(|row| {
            std::array::from_fn(|column| {
                let mut pair = [0.0; 2];
                for (n, share) in shares {
                    let start = ((n * ROWS + row) * COLUMNS + column) * 2;
                    for (sum, value) in pair.iter_mut().zip(map::MAP.get(start..start + 2).unwrap_or_default()) {
                        *sum += share * value;
                    }
                }
                pair
            })
        });
        Self { ratio, short: 1.0 / (PI * ratio * ratio), map }
    }
}

impl Mobility for Finite {
    fn at(&self, x: f64, y: f64) -> (f64, f64) {
        let e = (x * x + y * y).sqrt();
        // sine of half the angle: (1 - cos)/2 under the root; at the middle any angle is right
        let half = if e > 1e-12 { (0.5 * (1.0 - x / e)).max(0.0).sqrt() } else { 0.0 };
        let row = Neighbours::at(eccentricity_row(e), ROWS);
        let column = Neighbours::at(half.sqrt() * (COLUMNS - 1) as f64, COLUMNS);
        let (mut along, mut across) = (0.0, 0.0);
        for (cells, weight) in self.map.get(row.first..row.first + 4).unwrap_or_default().iter().zip(row.weights) {
            let (mut a, mut b) = (0.0, 0.0);
            let cells = cells.get(column.first..column.first + 4).unwrap_or_default();
            for ([p, q], share) in cells.iter().zip(column.weights) {
                a += p * share;
                b += q * share;
            }
            along += a * weight;
            across += b * weight;
        }
        let gap = (1.0 - x).max(CLOSEST);
        let root = gap.sqrt();
        (along * gap * root * (0.15 + gap * self.short), -across * y * root * (0.1125 + 4.0 / PI * gap * self.short))
    }
    fn ratio(&self) -> f64 {
        self.ratio
    }
}

#[cfg(test)]
#[path = "mobility/tests.rs"]
mod tests;
