//! A bearing with an oil groove in one half only.

use super::{Finite, Mobility};

/// A film that has two lands in its grooved half and one, as wide as both, in the other.
///
/// The mobility is that of the half in which the film is least: the fluid that carries is about that place. Where it
/// passes the parting line, the two are blended over 30 degrees to each side, about as far as the film that carries
/// reaches; that width is ours and has no source: it makes the step smooth. Booker, J. Lubrication
/// Technology 93 (1971) 168, gives the mobility of a grooved bearing as that of its lands.
#[derive(Debug, Clone, PartialEq)]
pub struct HalfGrooved {
    whole: Finite,
    land: Finite,
    middle: [f64; 2],
}

impl HalfGrooved {
    /// For a length over diameter of the half without a groove, and the angle of the grooved half's middle in rad, in
    /// the frame of the load's two axes.
    #[must_use]
    pub fn new(ratio: f64, middle: f64) -> Self {
        let (s, c) = middle.sin_cos();
        Self { whole: Finite::new(ratio), land: Finite::new(ratio / 2.0), middle: [c, s] }
    }

    /// How much of the film is in the grooved half: 0 to 1.
    fn share(&self, at: [f64; 2]) -> f64 {
        let e = at[0].hypot(at[1]);
        if e < 1e-12 {
            return 0.5;
        }
        // sine of 30 degrees
        let t = ((at[0] * self.middle[0] + at[1] * self.middle[1]) / e + 0.5).clamp(0.0, 1.0);
        t * t * (3.0 - 2.0 * t)
    }
}

impl Mobility for HalfGrooved {
    fn at(&self, x: f64, y: f64) -> (f64, f64) {
        self.whole.at(x, y)
    }
    fn in_frame(&self, at: [f64; 2], [c, s]: [f64; 2]) -> (f64, f64) {
        let (x, y) = (at[0] * c + at[1] * s, at[1] * c - at[0] * s);
        let share = self.share(at);
        if share <= 0.0 {
            return self.whole.at(x, y);
        }
        let (along, across) = self.land.at(x, y);
        if share >= 1.0 {
            return (along, across);
        }
        let (a, b) = self.whole.at(x, y);
        (a + share * (along - a), b + share * (across - b))
    }
    fn ratio(&self) -> f64 {
        self.whole.ratio()
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::orbit::{Bearing, Load, Loads, orbit};
    use std::f64::consts::{FRAC_PI_2, PI};

    const WHOLE: Bearing = Bearing { diameter: 0.062_2, length: 0.02, lands: 1.0, clearance: 33e-6, viscosity: 8e-3 };
    const SPEED: f64 = 700.0;

    fn steady(angle: f64) -> impl Fn(f64) -> Load {
        move |_| Load { x: 4e3 * angle.cos(), y: 4e3 * angle.sin(), mean: SPEED / 2.0, relative: SPEED }
    }

    #[test]
    fn a_steady_load_has_the_film_of_the_half_that_it_presses_into() {
        let ratio = WHOLE.length / WHOLE.diameter;
        let lands = Bearing { length: WHOLE.length / 2.0, lands: 2.0, ..WHOLE };
        let plain = orbit(WHOLE, &Finite::new(ratio), SPEED, &Loads::of(steady(0.0))).unwrap().least;
        let grooved = orbit(lands, &Finite::new(ratio / 2.0), SPEED, &Loads::of(steady(0.0))).unwrap().least;
        assert!(grooved < 0.7 * plain, "{grooved} {plain}");
        // the journal stands some way round from where the load points: the film's middle is there
        let half =
            |load: f64| orbit(WHOLE, &HalfGrooved::new(ratio, 0.0), SPEED, &Loads::of(steady(load))).unwrap().least;
        let (all, mut seen) = ((0..36).map(|n| half(f64::from(n) * PI / 18.0)), (0, 0));
        for film in all {
            assert!(film > 0.99 * grooved && film < 1.01 * plain, "{film}");
            seen.0 += usize::from((film / grooved - 1.0).abs() < 1e-3);
            seen.1 += usize::from((film / plain - 1.0).abs() < 1e-3);
        }
        // a third of the turn is blended, and the rest is halved between the two
        assert!(seen.0 >= 10 && seen.1 >= 10, "{seen:?}");
    }

    #[test]
    fn the_frame_can_be_turned() {
        let one = HalfGrooved::new(0.3, 0.0).in_frame([0.5, 0.2], [0.8, 0.6]);
        let turned = HalfGrooved::new(0.3, FRAC_PI_2).in_frame([-0.2, 0.5], [-0.6, 0.8]);
        assert!((one.0 - turned.0).abs() < 1e-12 && (one.1 - turned.1).abs() < 1e-12);
    }
}
