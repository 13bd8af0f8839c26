//! Balance of a crank: what hangs on its pins in the balancer, what a mass in the wrong place pulls, and what shakes an
//! engine of any layout however well its crank is balanced.
//!
//! A cylinder's reciprocating mass pulls along its axis with m r w² (cos t + lambda cos 2t), t from its own top dead
//! centre (Den Hartog, Mechanical Vibrations, ch. 5; Bevan, Theory of Machines, ch. 14; the two-term series, so λ⁴ and
//! less are left out). Each order is the sum of a vector that turns with the crank and one that turns against it; the
//! sums over an engine are an ellipse whose half axes are the sum and the difference of the two.

use crate::Outside;
use std::f64::consts::PI;

/// Mass on one throw, kg: every rod's rotating mass and `factor` of every rod's reciprocating mass, kg each;
/// `rods` on the pin. Half of the reciprocating mass of a 90 degree pair turns with the crank exactly (Bevan, Theory of
/// Machines, ch. 14); 0.51 to 0.52 is used by some and debated.
#[must_use]
pub fn bobweight(rods: f64, rotating: f64, reciprocating: f64, factor: f64) -> f64 {
    rods * (rotating + factor * reciprocating)
}

/// The share of the reciprocating mass that belongs into a bobweight, by how the engine is laid out.
///
/// In a V half of the pair's force turns with the crank at any bank angle, and |cos(bank angle)| of a half turns
/// against it, which no counterweight reaches: none at 90 degrees. In line and flat with a pin a cylinder the throws
/// answer for each other, so the crank wants no bobweight at all (`None`); a single has no right share, only a choice.
#[must_use]
pub fn bobweight_factor(layout: Arrangement) -> Option<f64> {
    match layout {
        Arrangement::Vee => Some(0.5),
        Arrangement::InLine | Arrangement::Flat | Arrangement::Single => None,
    }
}

/// How cylinders stand to one another.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Arrangement {
    /// One cylinder.
    Single,
    /// Side by side, two and more.
    InLine,
    /// Two banks that share pins.
    Vee,
    /// Two banks opposite, a pin a cylinder.
    Flat,
}

/// Pull of a mass that turns out of balance, N: m r w², kg, m, rad/s. Its square in the speed is why an unbalance is
/// told with its radius.
#[must_use]
pub fn unbalance_force(mass: f64, radius: f64, omega: f64) -> f64 {
    mass * radius * omega * omega
}

/// Unbalance that a grade allows a rotor, kg m: G M/w, with the grade in m/s (G 16 is 0.016), the rotor in kg and its
/// highest speed in rad/s. ISO 21940-11:2016, section 6; for rigid rotors, as which a crank with its bobweights is
/// balanced.
///
/// # Errors
/// [`Outside`] for a speed that is not greater than zero.
pub fn permissible(grade: f64, rotor: f64, omega: f64) -> Result<f64, Outside> {
    Ok(permissible_offset(grade, omega)? * rotor)
}

/// How far the mass centre may be off the axis, m: G/w, m/s and rad/s. ISO 21940-11:2016, section 5.
///
/// # Errors
/// [`Outside`] for a speed that is not greater than zero.
pub fn permissible_offset(grade: f64, omega: f64) -> Result<f64, Outside> {
    Outside::unless_positive("the speed", omega)?;
    Ok(grade / omega)
}

/// The grade that an unbalance comes to, m/s: U w/M, kg m, rad/s, kg. ISO 21940-11:2016, section 5, turned round.
///
/// # Errors
/// [`Outside`] for a rotor without mass.
pub fn grade(unbalance: f64, rotor: f64, omega: f64) -> Result<f64, Outside> {
    Outside::unless_positive("the rotor's mass", rotor)?;
    Ok(unbalance * omega / rotor)
}

/// What a single's counterweight of `factor` leaves: along the bore and across it, N, for a reciprocating mass in kg
/// on a radius in m at rad/s. Primary forces: (1 - f) m r w² and f m r w² (Bevan, Theory of Machines, ch. 14).
#[must_use]
pub fn single(factor: f64, mass: f64, radius: f64, omega: f64) -> [f64; 2] {
    let whole = unbalance_force(mass, radius, omega);
    [(1.0 - factor) * whole, factor * whole]
}

/// One cylinder of a layout.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CylinderPlace {
    /// Where its crankpin is, rad, measured as the crank turns, all cylinders at one moment.
    pub pin: f64,
    /// Where its axis points, rad, measured the same way from the same line.
    pub axis: f64,
    /// Where it stands along the crank, m, from the point that couples are taken about.
    pub position: f64,
    /// Its reciprocating mass, kg.
    pub mass: f64,
}

impl CylinderPlace {
    /// From when it comes to top dead centre, rad of crank angle, and where its axis points, rad: its pin is then
    /// under its axis.
    #[must_use]
    pub fn at_top(turn: f64, axis: f64, position: f64, mass: f64) -> Self {
        Self { pin: axis - turn, axis, position, mass }
    }
}

/// What an order of shaking comes to: two vectors, one that turns with the crank and one against it, at the order's
/// speed. In N, or N m for a couple.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Shake {
    /// Along and across the line that the angles are measured from, at the moment they were given for.
    pub with: [f64; 2],
    /// The same for the one that turns against the crank.
    pub against: [f64; 2],
}

fn length(vector: [f64; 2]) -> f64 {
    let [x, y] = vector;
    x.hypot(y)
}

impl Shake {
    /// Greatest value of a turn.
    #[must_use]
    pub fn greatest(self) -> f64 {
        length(self.with) + length(self.against)
    }
    /// Least value of a turn.
    #[must_use]
    pub fn least(self) -> f64 {
        (length(self.with) - length(self.against)).abs()
    }
    /// Greatest value along the line in direction `axis`, rad.
    #[must_use]
    pub fn along(self, axis: f64) -> f64 {
        // the two meet on the line where their turns mirror each other in it
        let ([a, b], [c, d]) = (self.with, self.against);
        let (sin, cos) = (2.0 * axis).sin_cos();
        length([a + cos * c + sin * d, b + sin * c - cos * d])
    }
    /// What is left when a counterweight takes `pull` of the vector that turns with the crank, N or N m: the best that
    /// counterweights can do is to take all of it, [`Shake::with`].
    #[must_use]
    pub fn without(self, pull: [f64; 2]) -> Self {
        let ([a, b], [c, d]) = (self.with, pull);
        Self { with: [a - c, b - d], against: self.against }
    }
    /// What no counterweight on the crank can take: the vector that turns against it.
    #[must_use]
    pub fn beyond_counterweights(self) -> f64 {
        length(self.against)
    }
}

/// Sum of one order: `scale` N of 1 kg, the turn of the order, each cylinder's arm.
fn sum(cylinders: &[CylinderPlace], order: f64, scale: f64, arm: impl Fn(&CylinderPlace) -> f64) -> Shake {
    let mut shake = Shake::default();
    for cylinder in cylinders {
        let half = 0.5 * scale * cylinder.mass * arm(cylinder);
        let crank = order * (cylinder.pin - cylinder.axis);
        let (with, against) = ((cylinder.axis + crank).sin_cos(), (cylinder.axis - crank).sin_cos());
        let ([a, b], [c, d]) = (shake.with, shake.against);
        shake.with = [a + half * with.1, b + half * with.0];
        shake.against = [c + half * against.1, d + half * against.0];
    }
    shake
}

/// Shaking force at the crank's speed, N: radius in m, speed in rad/s. Den Hartog, Mechanical Vibrations, ch. 5.
#[must_use]
pub fn primary_force(cylinders: &[CylinderPlace], radius: f64, omega: f64) -> Shake {
    sum(cylinders, 1.0, radius * omega * omega, |_| 1.0)
}

/// Shaking couple at the crank's speed, N m, as the arm times the force's direction. Den Hartog, ch. 5.
#[must_use]
pub fn primary_couple(cylinders: &[CylinderPlace], radius: f64, omega: f64) -> Shake {
    sum(cylinders, 1.0, radius * omega * omega, |c| c.position)
}

/// Shaking force at twice the crank's speed, N: crank radius and rod in m, speed in rad/s. Den Hartog, ch. 5: lambda
/// m r w² a cylinder.
///
/// # Errors
/// [`Outside`] for a rod without length.
pub fn secondary_force(cylinders: &[CylinderPlace], radius: f64, rod: f64, omega: f64) -> Result<Shake, Outside> {
    Outside::unless_positive("the rod's length", rod)?;
    Ok(sum(cylinders, 2.0, radius * radius / rod * omega * omega, |_| 1.0))
}

/// Shaking couple at twice the crank's speed, N m.
///
/// # Errors
/// [`Outside`] for a rod without length.
pub fn secondary_couple(cylinders: &[CylinderPlace], radius: f64, rod: f64, omega: f64) -> Result<Shake, Outside> {
    Outside::unless_positive("the rod's length", rod)?;
    Ok(sum(cylinders, 2.0, radius * radius / rod * omega * omega, |c| c.position))
}

/// Secondary force of a V pair on one pin, N: [along the line between the banks, across it], bank angle in rad, mass
/// of one cylinder in kg. Bevan, Theory of Machines, ch. 14: 2 lambda m r w² times cos(v/2) cos v and sin(v/2) sin v;
/// at 90 degrees all of it is across.
///
/// # Errors
/// [`Outside`] for a rod without length.
pub fn pair_secondary(bank: f64, mass: f64, radius: f64, rod: f64, omega: f64) -> Result<[f64; 2], Outside> {
    Outside::unless_positive("the rod's length", rod)?;
    let whole = 2.0 * mass * radius * omega * omega * radius / rod;
    let (sin, cos) = (bank / 2.0).sin_cos();
    Ok([(whole * cos * bank.cos()).abs(), (whole * sin * bank.sin()).abs()])
}

/// Unbalance in two planes as the crank's bearings feel it, kg m: [static, couple over the planes' distance], for the
/// amounts in kg m and the angle between them in rad. ISO 21940-11:2016, section 4.5: the sum, and half of the
/// difference.
#[must_use]
pub fn two_planes(front: f64, rear: f64, between: f64) -> [f64; 2] {
    let (sin, cos) = between.sin_cos();
    let static_part = length([front + rear * cos, rear * sin]);
    let couple = length([front - rear * cos, rear * sin]) / 2.0;
    [static_part, couple]
}

/// Crank angle at which the `nth` cylinder of a firing order of `count` fires, rad, in a four-stroke that fires evenly.
#[must_use]
pub fn even_firing(nth: usize, count: usize) -> f64 {
    if count == 0 {
        return f64::NAN;
    }
    4.0 * PI * nth as f64 / count as f64
}

#[cfg(test)]
#[path = "balance_tests.rs"]
mod tests;
