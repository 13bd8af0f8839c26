//! A valve spring as a helical compression spring of round wire: rate, load, stress, solid height, surge.
//!
//! With d the wire, D the mean coil, Na the active coils, G the shear modulus, C = D/d: Shigley's Mechanical Engineering
//! Design, ch. 10. One wire and one coil diameter: a beehive or a conical spring has neither, and of a nest of springs
//! each is one of these. What shot peening and presetting leave behind in the wire is not counted: the stresses are
//! those that a spring maker compares with his own limits.

use std::f64::consts::{FRAC_1_SQRT_2, PI};

/// One coil spring of round wire; all SI, all greater than zero.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Coil {
    /// Wire diameter d, m.
    pub wire: f64,
    /// Mean coil diameter D, m: outside diameter less one wire; more than the wire.
    pub mean: f64,
    /// Active coils Na.
    pub active: f64,
    /// Shear modulus G, Pa.
    pub shear_modulus: f64,
    /// Density, kg/m³.
    pub density: f64,
}

/// How the ends are made, which says how high the coils stand when they touch.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ends {
    /// Closed and ground flat, as valve springs are: solid height Nt d.
    SquaredAndGround,
    /// Closed, not ground: (Nt + 1) d.
    Squared,
}

impl Coil {
    /// Spring index C = D/d. Springs are wound between 4 and 12; the stress factors below hold from 3 up.
    #[must_use]
    pub fn index(self) -> f64 {
        self.mean / self.wire
    }

    /// Rate, N/m: G d⁴/(8 D³ Na). Shigley, eq. 10-9. NaN for no coils.
    #[must_use]
    pub fn rate(self) -> f64 {
        let rate = self.shear_modulus * self.wire.powi(4) / (8.0 * self.mean.powi(3) * self.active);
        if rate.is_finite() { rate } else { f64::NAN }
    }

    /// Active coils that would give a rate in N/m: the same equation turned round.
    #[must_use]
    pub fn active_for(self, rate: f64) -> f64 {
        self.shear_modulus * self.wire.powi(4) / (8.0 * self.mean.powi(3) * rate)
    }

    /// Shear stress in the wire, Pa, by a force in N and a factor: K 8 F D/(pi d³). Shigley, eq. 10-2 to 10-7.
    #[must_use]
    pub fn stress(self, force: f64, factor: f64) -> f64 {
        factor * 8.0 * force * self.mean / (PI * self.wire.powi(3))
    }

    /// Force in N at which that stress is reached, Pa: the same equation turned round.
    #[must_use]
    pub fn force_for(self, stress: f64, factor: f64) -> f64 {
        PI * self.wire.powi(3) * stress / (8.0 * factor * self.mean)
    }

    /// Mass of the active coils, kg: pi² d² D Na rho/4. Shigley, eq. 10-26.
    #[must_use]
    pub fn mass(self) -> f64 {
        PI * PI * self.wire * self.wire * self.mean * self.active * self.density / 4.0
    }

    /// First surge frequency, Hz, both ends held, as between head and retainer: half the root of rate over mass of the
    /// active coils. Shigley, eq. 10-25.
    #[must_use]
    pub fn surge(self) -> f64 {
        0.5 * (self.rate() / self.mass()).sqrt()
    }

    /// The same in one expression, d/(2 pi D² Na) sqrt(G/(2 rho)); kept apart so that one can be held against the other.
    #[must_use]
    pub fn surge_direct(self) -> f64 {
        self.wire / (2.0 * PI * self.mean * self.mean * self.active)
            * (self.shear_modulus / self.density).sqrt()
            * FRAC_1_SQRT_2
    }
}

/// Direct shear alone, 1 + 1/(2 C): for the steady part of a load. Shigley, eq. 10-3. NaN for no index.
#[must_use]
pub fn direct_shear(index: f64) -> f64 {
    if index > 0.0 { 1.0 + 0.5 / index } else { f64::NAN }
}

/// Wahl's factor, direct shear and curvature: (4C - 1)/(4C - 4) + 0.615/C. Wahl, Mechanical Springs, 1963; Shigley,
/// eq. 10-4. NaN at an index of 1 or less, where there is no room for the wire.
#[must_use]
pub fn wahl(index: f64) -> f64 {
    if index > 1.0 { (4.0 * index - 1.0) / (4.0 * index - 4.0) + 0.615 / index } else { f64::NAN }
}

/// Bergsträsser's factor, (4C + 2)/(4C - 3): within 1.5 % of Wahl's over the indices that springs are wound to. Shigley,
/// eq. 10-5. NaN at an index of 1 or less.
#[must_use]
pub fn bergstrasser(index: f64) -> f64 {
    if index > 1.0 { (4.0 * index + 2.0) / (4.0 * index - 3.0) } else { f64::NAN }
}

/// Height at which the coils touch, m: total coils and wire in m. Shigley, table 10-1.
#[must_use]
pub fn solid_height(total_coils: f64, wire: f64, ends: Ends) -> f64 {
    match ends {
        Ends::SquaredAndGround => total_coils * wire,
        Ends::Squared => (total_coils + 1.0) * wire,
    }
}

/// Tensile strength of spring wire, Pa: A/d^m, with the strength at the reference wire in Pa, the exponent, the wire and
/// the reference wire (one inch or one millimetre, as A is printed) in m. Shigley, eq. 10-14 and table 10-4.
#[must_use]
pub fn wire_strength(at_reference: f64, exponent: f64, wire: f64, reference: f64) -> f64 {
    if wire > 0.0 && reference > 0.0 { at_reference / (wire / reference).powf(exponent) } else { f64::NAN }
}

/// What is left before the coils touch at full lift, m: installed height less lift less bind height.
#[must_use]
pub fn bind_margin(installed: f64, lift: f64, bind: f64) -> f64 {
    installed - lift - bind
}

/// Load at full lift, N: load on the seat in N, rate in N/m, lift in m; a straight rate (Shigley, ch. 10).
#[must_use]
pub fn open_load(seat: f64, rate: f64, lift: f64) -> f64 {
    seat + rate * lift
}

/// How often a spring swings while the cam turns once: surge frequency in Hz, cam speed in rad/s. NaN at standstill.
///
/// A handbook wants 15 to 20 (Shigley, sec. 10-8); valve springs live at 6 to 13, on damping: what matters there is how
/// strong the cam's own harmonic of that number is, see [`crate::valve_motion::harmonic`].
#[must_use]
pub fn surge_ratio(surge: f64, cam_speed: f64) -> f64 {
    if cam_speed > 0.0 { surge * 2.0 * PI / cam_speed } else { f64::NAN }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn coil() -> Coil {
        Coil { wire: 0.0052, mean: 0.0325, active: 4.5, shear_modulus: 77.2e9, density: 7850.0 }
    }

    #[test]
    fn both_ways_to_the_surge_agree() {
        for (wire, mean, active) in [(0.003, 0.02, 4.0), (0.0052, 0.0325, 4.5), (0.0009, 0.011, 14.0)] {
            let c = Coil { wire, mean, active, ..coil() };
            assert!((c.surge() / c.surge_direct() - 1.0).abs() < 1e-12);
        }
    }

    #[test]
    fn scaled_in_every_direction_the_rate_goes_with_the_size_and_the_surge_against_it() {
        let one = coil();
        let twice = Coil { wire: 2.0 * one.wire, mean: 2.0 * one.mean, ..one };
        assert!((twice.rate() / one.rate() - 2.0).abs() < 1e-12);
        assert!((twice.surge() / one.surge() - 0.5).abs() < 1e-12);
        assert!((twice.stress(400.0, 1.2) / one.stress(100.0, 1.2) - 1.0).abs() < 1e-12);
        assert!((twice.mass() / one.mass() - 8.0).abs() < 1e-12);
    }

    #[test]
    fn turned_round_the_equations_give_back_what_went_in() {
        let c = coil();
        assert!((c.active_for(c.rate()) / c.active - 1.0).abs() < 1e-12);
        let k = wahl(c.index());
        assert!((c.force_for(c.stress(812.0, k), k) / 812.0 - 1.0).abs() < 1e-12);
    }

    #[test]
    fn the_factors_agree_where_springs_are_wound_and_fall_to_one() {
        let mut last = f64::INFINITY;
        for tenth in 40..=200 {
            let index = f64::from(tenth) / 10.0;
            let (w, b) = (wahl(index), bergstrasser(index));
            assert!((w / b - 1.0).abs() < 0.015, "at {index}: {w} and {b}");
            assert!(w < last && w > direct_shear(index));
            last = w;
        }
        assert!((wahl(1e9) - 1.0).abs() < 1e-8 && (bergstrasser(1e9) - 1.0).abs() < 1e-8);
    }

    #[test]
    fn what_is_no_spring_has_no_number() {
        assert!(wahl(1.0).is_nan() && bergstrasser(0.5).is_nan() && direct_shear(0.0).is_nan());
        assert!(Coil { active: 0.0, ..coil() }.rate().is_nan());
        assert!(surge_ratio(400.0, 0.0).is_nan() && wire_strength(1e9, 0.1, 0.0, 0.001).is_nan());
    }
}
