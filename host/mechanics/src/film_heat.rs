//! How warm the film of a bearing runs: what it turns into heat against what its own oil carries off.
//!
//! The film is taken to be as warm as the mean of the oil that comes and the oil that goes: Shigley's Mechanical
//! Engineering Design, section 12-8, and ISO 7902-1 have it so, both from memory. Thinner oil makes less heat, so there
//! is just one such temperature. All of the heat goes into the oil here; what the housing and the journal take, and oil
//! that is pushed through and not drawn, make it less.

use crate::root::crossing;

/// Warmer than this above its oil no film is looked for, K.
const WARMEST: f64 = 200.0;

/// How much warmer a film is than the oil that comes to it, K; `gained` is what the oil gains on its way through a film
/// that is so much warmer, K, and must not grow with that; no number where it is too warm for its oil's line. None
/// where the two agree nowhere from 0 to 200 K.
#[must_use]
pub fn film_rise(gained: impl Fn(f64) -> f64) -> Option<f64> {
    let over = |rise: f64| rise - gained(rise) / 2.0;
    let found = crossing([0.0, WARMEST], |rise| Some(over(rise)).filter(|x| !x.is_nan()).unwrap_or(f64::INFINITY));
    // where the oil's line ends before the two agree there is no answer
    (found > 0.0 && over(found).abs() < 1e-6).then_some(found)
}

/// What the oil gains by the viscosity of the film, through three films that were worked out: a parabola in the two
/// logarithms. A power of the viscosity is one exactly; of an orbit it is within half a per cent over a factor of five.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gain {
    at: [f64; 3],
    of: [f64; 3],
}

impl Gain {
    /// Through three films of different viscosities in Pa s and what the oil gains in each, K. None where one of them is
    /// not greater than zero, or two have one viscosity.
    #[must_use]
    pub fn through(films: [(f64, f64); 3]) -> Option<Self> {
        let (at, of) = (films.map(|f| f.0.ln()), films.map(|f| f.1.ln()));
        let [a, b, c] = at;
        let good = at.iter().chain(&of).all(|x| x.is_finite()) && a != b && b != c && a != c;
        good.then_some(Self { at, of })
    }

    /// K, at a viscosity in Pa s, > 0.
    #[must_use]
    pub fn at(&self, viscosity: f64) -> f64 {
        let ([a, b, c], [p, q, r], x) = (self.at, self.of, viscosity.ln());
        let share = |at: f64, one: f64, other: f64| (x - one) * (x - other) / ((at - one) * (at - other));
        (p * share(a, b, c) + q * share(b, a, c) + r * share(c, a, b)).exp()
    }

    /// So many times as much at every viscosity, > 0.
    #[must_use]
    pub fn scaled(self, by: f64) -> Self {
        Self { of: self.of.map(|of| of + by.ln()), ..self }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::big_end::{BigEnd, pulse};
    use crate::journal_bearing::temperature_rise;
    use crate::kinematics::Slider;
    use crate::mobility::Finite;
    use crate::orbit::{Bearing, Loads, orbit};

    #[test]
    fn a_film_is_halfway_between_the_oil_that_comes_and_that_goes() {
        // 40 K whatever the film; and a gain that halves every 20 K: r = 20 exp(-r ln 2/20) has r/20 = W(ln 2)/ln 2
        assert!((film_rise(|_| 40.0).unwrap() - 20.0).abs() < 1e-9);
        let rise = film_rise(|r| 40.0 * (-r / 20.0).exp2()).unwrap();
        // Lambert's W of ln 2, 0.444436091018839: Corless et al., Adv. Comput. Math. 5 (1996) 329, by mpmath
        assert!((rise / 20.0 - 0.444_436_091_018_839 / std::f64::consts::LN_2).abs() < 1e-9, "{rise}");
        let ends = |from: f64| film_rise(move |r| if r < from { 60.0 } else { f64::NAN });
        assert!((ends(31.0).unwrap() - 30.0).abs() < 1e-9);
        assert_eq!(ends(29.0), None);
        for bad in [f64::NAN, -3.0, 0.0, 1e9, f64::INFINITY] {
            assert_eq!(film_rise(|_| bad), None, "{bad}");
        }
    }

    #[test]
    fn a_power_of_the_viscosity_is_kept_and_nonsense_is_not() {
        let power = |v: f64| 30.0 * (v / 8e-3).powf(0.7);
        let gain = Gain::through([3e-3, 6e-3, 1.2e-2].map(|v| (v, power(v)))).unwrap();
        for v in [1e-3, 3e-3, 9e-3, 4e-2] {
            assert!((gain.at(v) / power(v) - 1.0).abs() < 1e-12);
            assert!((gain.scaled(1.5).at(v) / power(v) - 1.5).abs() < 1e-12);
        }
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY, 6e-3] {
            assert_eq!(Gain::through([(bad, 1.0), (6e-3, 2.0), (1e-2, 3.0)]), None);
        }
        assert_eq!(Gain::through([(3e-3, 0.0), (6e-3, 2.0), (1e-2, 3.0)]), None);
    }

    #[test]
    fn three_orbits_tell_of_all_between_them() {
        let gear =
            BigEnd { slider: Slider::new(0.088_392, 0.144_78), bore: 0.102_362, reciprocating: 0.7, rotating: 0.45 };
        for (speed, clearance) in [(680.0, 31.75e-6), (400.0, 25e-6), (850.0, 40e-6)] {
            let loads = Loads::of(|angle| gear.load(angle, speed, pulse(angle, 7e6, 14.0, 25.0)));
            let gained = |viscosity: f64| {
                let bearing = Bearing { diameter: 0.053_34, length: 0.02, lands: 1.0, clearance, viscosity };
                let found = orbit(bearing, &Finite::new(0.375), speed, &loads).unwrap();
                temperature_rise(found.power, found.flow, 800.0, 2_100.0)
            };
            let gain = Gain::through([4e-3, 8e-3, 1.6e-2].map(|v| (v, gained(v)))).unwrap();
            for v in [3.5e-3, 5e-3, 6.5e-3, 1e-2, 1.3e-2, 1.8e-2] {
                assert!((gain.at(v) / gained(v) - 1.0).abs() < 5e-3, "{v}: {} {}", gain.at(v), gained(v));
            }
            // thinner oil makes less heat, which is what leaves one temperature
            assert!(gained(4e-3) < gained(8e-3) && gained(8e-3) < gained(1.6e-2));
        }
    }
}
