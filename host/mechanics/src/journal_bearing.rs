//! The plain journal bearing: its oil clearance, and its film under a steady load by Petroff, the short bearing and a
//! finite one.
//!
//! N in rev/s, angular speeds in rad/s, c the radial clearance (half of the shop's oil clearance), P = W/(L D) the load
//! on the projected area, S = (r/c)² mu N/P, So = 1/(2 pi S) (DIN 31652, ISO 7902). A bearing with a groove all round is
//! two bearings, each with half of the load and its own length.

use crate::Outside;
use crate::lookup::{Neighbours, blend, eccentricity_row, within};
use crate::root::crossing;
use std::f64::consts::PI;

mod steady;

/// Oil clearance, m, on the diameter: housing less two shells less journal, all in m. Negative for an interference.
#[must_use]
pub fn oil_clearance_from_parts(housing: f64, shell: f64, journal: f64) -> f64 {
    housing - 2.0 * shell - journal
}

/// Oil clearance, m, on the diameter: assembled inside diameter less journal.
#[must_use]
pub fn oil_clearance(inside: f64, journal: f64) -> f64 {
    inside - journal
}

/// Unit load, Pa: load in N, length and diameter in m.
#[must_use]
pub fn unit_load(load: f64, length: f64, diameter: f64) -> f64 {
    load / (length * diameter)
}

/// Sommerfeld number S = (r/c)² mu N/P: radius and radial clearance in m, viscosity in Pa s, N in rev/s, unit load in
/// Pa. Raimondi and Boyd, ASLE Trans. 1 (1958) 159.
#[must_use]
pub fn sommerfeld(radius: f64, clearance: f64, viscosity: f64, speed: f64, unit_load: f64) -> f64 {
    (radius / clearance).powi(2) * viscosity * speed / unit_load
}

/// Viscosity in Pa s at which a bearing runs at a Sommerfeld number: its inverse.
#[must_use]
pub fn viscosity_for(number: f64, radius: f64, clearance: f64, speed: f64, unit_load: f64) -> f64 {
    number * unit_load / speed * (clearance / radius).powi(2)
}

/// Petroff's coefficient of friction: 2 pi² (mu N/P)(r/c), the journal in the middle; a lower bound, near the truth for
/// light loads only. Same units as [`sommerfeld`].
#[must_use]
pub fn petroff(radius: f64, clearance: f64, viscosity: f64, speed: f64, unit_load: f64) -> f64 {
    2.0 * PI * PI * viscosity * speed / unit_load * radius / clearance
}

/// The short bearing, half of it cavitated: S (L/D)² at an eccentricity from 0 to 1. DuBois and Ocvirk, NACA Report 1157
/// (1953). Against a solution of Reynolds' equation S is low, and so the film too thick: at L/D 1/4 by 3 % at
/// eccentricity 0.2 and 28 % at 0.9, at 1/2 by 9 to 58 %, at 1 by 27 to 82 %. NaN outside.
#[must_use]
pub fn ocvirk_number(eccentricity: f64) -> f64 {
    let e = eccentricity;
    if !(0.0..1.0).contains(&e) {
        return f64::NAN;
    }
    let rest = 1.0 - e * e;
    rest * rest / (PI * e * (PI * PI * rest + 16.0 * e * e).sqrt())
}

/// Angle from the load to the smallest film of the short bearing, rad. NaN outside of eccentricities from 0 to 1.
#[must_use]
pub fn ocvirk_attitude(eccentricity: f64) -> f64 {
    let e = eccentricity;
    if !(0.0..1.0).contains(&e) {
        return f64::NAN;
    }
    (PI * (1.0 - e * e).sqrt()).atan2(4.0 * e)
}

/// So of a full bearing by the closed form of ISO 7902-2 and DIN 31652-2, from memory; 3 % under to 6 % over a solution
/// of Reynolds' equation for L/D 1/4 to 1 and eccentricities 0.2 to 0.9. For steady loads.
#[must_use]
pub fn iso_number(eccentricity: f64, ratio: f64) -> f64 {
    let (e, b) = (eccentricity, ratio);
    let a1 = 1.164_2 - 1.945_6 * b + 7.116_1 * b.powi(2) - 10.107_3 * b.powi(3) + 5.014_1 * b.powi(4);
    let a2 = -1.000_026 - 0.023_634 * b - 0.421_5 * b.powi(2) - 0.038_817 * b.powi(3) - 0.090_551 * b.powi(4);
    let rest = 1.0 - e * e;
    b * b * e / (2.0 * rest * rest) * (PI * PI * rest + 16.0 * e * e).sqrt() * a1 * (e - 1.0) / (a2 + e)
}

/// The steady film of a full finite bearing: Reynolds' equation with Swift and Stieber's condition, the film beginning
/// at its widest as Raimondi and Boyd (ASLE Trans. 1 (1958) 159) have it; from a table that a test holds to the
/// solution, within 0.5 %, and within 2 % of their printed figures. Rigid, aligned, one viscosity, no turbulence.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Steady {
    /// Eccentricity over radial clearance.
    pub eccentricity: f64,
    /// Sommerfeld number S.
    pub number: f64,
    /// Angle from the load to the smallest film, rad.
    pub attitude: f64,
    /// Oil drawn in: Q/(r c N L).
    pub flow: f64,
    /// Oil that leaves at the ends: Qs/(r c N L).
    pub side_flow: f64,
    /// Unit load over greatest film pressure.
    pub mean_over_peak: f64,
}

/// Rows of the table by eccentricity.
const ROWS: usize = crate::lookup::ROWS;

impl Steady {
    /// At an eccentricity from 0.01 to 0.995 and a length over diameter from 1/8 to 1.
    ///
    /// # Errors
    /// [`Outside`] for anything else.
    pub fn at(eccentricity: f64, ratio: f64) -> Result<Self, Outside> {
        within("an eccentricity", eccentricity, 0.01, 0.995)?;
        within("a bearing's length over diameter", ratio, 0.125, 1.0)?;
        Ok(Self::inside(eccentricity, ratio))
    }

    fn inside(e: f64, ratio: f64) -> Self {
        let across = blend(ratio);
        let along = Neighbours::at(eccentricity_row(e), ROWS);
        let mut sums = [0.0; 5];
        for (n, share) in across {
            for (i, weight) in along.weights() {
                let start = (n * ROWS + i) * 5;
                for (sum, value) in sums.iter_mut().zip(steady::STEADY.get(start..start + 5).unwrap_or_default()) {
                    *sum += share * weight * value;
                }
            }
        }
        let [number, attitude, inlet, leak, mean_over_peak] = sums;
        let base = ocvirk_number(e) / (ratio * ratio) * (1.0 + 0.5 * ratio * ratio / (1.0 - e));
        Self {
            eccentricity: e,
            number: number * base,
            attitude,
            flow: PI * (1.0 + e) - PI * e * inlet,
            side_flow: PI * e * leak,
            mean_over_peak,
        }
    }

    /// At a Sommerfeld number.
    ///
    /// # Errors
    /// [`Outside`] for a length over diameter outside of 1/8 to 1, and for a number that belongs to an eccentricity
    /// outside of 0.01 to 0.995.
    pub fn at_number(number: f64, ratio: f64) -> Result<Self, Outside> {
        within("a bearing's length over diameter", ratio, 0.125, 1.0)?;
        let ends = [0.01, 0.995];
        let [most, least] = ends.map(|e| Self::inside(e, ratio).number);
        within("a Sommerfeld number", number, least, most)?;
        // the number falls by five powers of ten from one end to the other, its logarithm evenly
        let found = crossing(ends, |e| (number / Self::inside(e, ratio).number).ln());
        Ok(Self::inside(found, ratio))
    }

    /// Smallest film over radial clearance.
    #[must_use]
    pub fn film(&self) -> f64 {
        1.0 - self.eccentricity
    }

    /// Friction variable f r/c at the journal: shear of a film all round, and the load's couple about the journal.
    #[must_use]
    pub fn friction(&self) -> f64 {
        let e = self.eccentricity;
        2.0 * PI * PI * self.number / (1.0 - e * e).sqrt() + e * self.attitude.sin() / 2.0
    }
}

/// How much warmer the oil leaves than it came, K: power in W, flow in m³/s, density in kg/m³, specific heat in J/(kg K)
/// (1,700 to 2,100 for engine oil warm). All of the heat into the oil, which is an upper figure: a fifth or so goes into
/// the housing and the shaft.
#[must_use]
pub fn temperature_rise(power: f64, flow: f64, density: f64, specific_heat: f64) -> f64 {
    power / (flow * density * specific_heat)
}

/// What an oil groove all round lets out at both ends by the feed's pressure, m³/s: diameter, radial clearance and the
/// length of one land in m, eccentricity, gauge pressure in Pa, viscosity in Pa s.
/// pi D c³ p (1 + 1.5 e²)/(6 mu l); Cameron, The Principles of Lubrication, 1966, from memory.
#[must_use]
pub fn groove_flow(diameter: f64, clearance: f64, land: f64, eccentricity: f64, pressure: f64, viscosity: f64) -> f64 {
    PI * diameter * clearance.powi(3) * pressure * (1.0 + 1.5 * eccentricity.powi(2)) / (6.0 * viscosity * land)
}

/// What a feed hole lets out by its pressure, m³/s: 0.675 h³ p/mu (d/L + 0.4)^1.75, h the film at the hole in m, d its
/// diameter and L the bearing's length in m, p in Pa gauge, mu in Pa s. Martin and Lee, ASLE Trans. 26 (1983) 381, from
/// memory.
#[must_use]
pub fn hole_flow(film: f64, hole: f64, length: f64, pressure: f64, viscosity: f64) -> f64 {
    0.675 * film.powi(3) * pressure / viscosity * (hole / length + 0.4).powf(1.75)
}

/// Smallest film over the two surfaces' roughness together: lambda = h/sqrt(Rq1² + Rq2²), all in m. Over 3 a full film,
/// under 1 the surfaces carry. Hamrock, Fundamentals of Fluid Film Lubrication, 1994. Rq, not Ra: see [`rq_from_ra`].
#[must_use]
pub fn film_over_roughness(film: f64, one: f64, other: f64) -> f64 {
    film / one.hypot(other)
}

/// Rq of a surface whose heights are spread by Gauss's law, from its Ra: Ra sqrt(pi/2). A plateaued surface has more.
#[must_use]
pub fn rq_from_ra(ra: f64) -> f64 {
    ra * (PI / 2.0).sqrt()
}

/// Trumpler's least film for a steady load, m, at a journal of a diameter in m: 0.0002 in and 0.00004 of the diameter.
/// Shigley's Mechanical Engineering Design, section 12-7, from memory. Not for engine bearings, whose computed least films are 0.5
/// to 3 µm.
#[must_use]
pub fn trumpler_film(diameter: f64) -> f64 {
    0.0002 * 0.0254 + 0.000_04 * diameter
}

#[cfg(test)]
#[path = "journal_bearing/tests.rs"]
mod tests;
