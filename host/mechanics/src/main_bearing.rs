//! What the throws of a crank load its main bearings with through the cycle.
//!
//! Statically: a main to each side of every crankpin, and half of a throw's load to each of the two, as if the crank
//! were hinged at every main. Taylor, The Internal-Combustion Engine in Theory and Practice, vol. 2, ch. 8. A crank in
//! one piece and a block that gives share the load over more of them. The crank's own throws are taken to be countered
//! where they are; mass that hangs on the pins is countered by what the caller says.

use crate::big_end::BigEnd;
use crate::orbit::{DEGREES, Load, Loads};

/// One cylinder on a crank.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OnCrank {
    /// Its crankpin, counted from the front from 0.
    pub pin: usize,
    /// Where its axis points, rad, measured as the crank turns.
    pub axis: f64,
    /// Crank angle at which it is at firing top dead centre, rad.
    pub turn: f64,
}

/// A crank in its mains: all cylinders alike, one main more than crankpins.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mains<'a> {
    /// Running gear of each cylinder.
    pub gear: BigEnd,
    /// The cylinders.
    pub cylinders: &'a [OnCrank],
    /// Mass at the crank's radius that the counterweights of a throw make up for, kg a cylinder.
    pub countered: f64,
}

impl Mains<'_> {
    /// How many mains there are.
    #[must_use]
    pub fn count(&self) -> usize {
        self.cylinders.iter().map(|c| c.pin + 2).max().unwrap_or(0)
    }

    /// Load on the journal of a main, counted from the front from 0, at a crank angle in rad and a speed in rad/s, in
    /// axes that stand still: the first is the one that the cylinders' angles are measured from. `pressure` is that in a
    /// cylinder over that in the crankcase, Pa, by the angle after its own firing top dead centre in rad. NaN where the
    /// rod cannot follow.
    #[must_use]
    pub fn load(&self, main: usize, angle: f64, speed: f64, pressure: impl Fn(f64) -> f64) -> Load {
        let (mut x, mut y) = (0.0, 0.0);
        let pull = self.countered * self.gear.slider.radius * speed * speed;
        // the throw behind a main and the one in front of it
        for cylinder in self.cylinders.iter().filter(|c| c.pin == main || c.pin + 1 == main) {
            let own = angle - cylinder.turn;
            let load = self.gear.load(own, speed, pressure(own));
            let (sin, cos) = own.sin_cos();
            let (along, across) = ((load.x - pull * cos) / 2.0, (load.y - pull * sin) / 2.0);
            let (sin, cos) = cylinder.axis.sin_cos();
            x += along * cos - across * sin;
            y += along * sin + across * cos;
        }
        Load { x, y, mean: speed / 2.0, relative: speed }
    }

    /// The same loads through the cycle of the mains from `first` up to `end`, at a speed in rad/s, from those on one
    /// crankpin by the angle after its own firing top dead centre: what a throw gives is worked out once and turned to
    /// every cylinder's place.
    #[must_use]
    pub fn loads(&self, mains: std::ops::Range<usize>, pin: &Loads, speed: f64) -> Vec<Loads> {
        let pull = self.countered * self.gear.slider.radius * speed * speed;
        let countered = pin.degrees().enumerate().map(|(degree, load)| {
            let (sin, cos) = (degree as f64 - 360.0).to_radians().sin_cos();
            Load { x: (load.x - pull * cos) / 2.0, y: (load.y - pull * sin) / 2.0, ..load }
        });
        let half = Loads::from_degrees(countered);
        let nothing = [[0.0; 2]; DEGREES];
        let mut sums = vec![nothing; mains.len()];
        for cylinder in self.cylinders {
            let beside = [cylinder.pin, cylinder.pin + 1].into_iter().filter(|main| mains.contains(main));
            let (sin, cos) = cylinder.axis.sin_cos();
            let mut turned = None;
            for main in beside {
                let turned = turned.get_or_insert_with(|| half.later(cylinder.turn));
                for (sum, load) in sums.get_mut(main - mains.start).into_iter().flatten().zip(turned.degrees()) {
                    sum[0] += load.x * cos - load.y * sin;
                    sum[1] += load.x * sin + load.y * cos;
                }
            }
        }
        let of = |sum: &[[f64; 2]; DEGREES]| {
            Loads::from_degrees(sum.iter().map(|[x, y]| Load { x: *x, y: *y, mean: speed / 2.0, relative: speed }))
        };
        sums.iter().map(of).collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::big_end::pulse;
    use crate::kinematics::Slider;
    use std::f64::consts::{FRAC_PI_4, PI};

    const SPEED: f64 = 700.0;

    fn gear() -> BigEnd {
        BigEnd { slider: Slider::new(0.095_25, 0.152_4), bore: 0.105_5, reciprocating: 0.75, rotating: 0.5 }
    }

    fn gas(own: f64) -> f64 {
        pulse(own, 8e6, 14.0, 25.0)
    }

    fn degrees() -> impl Iterator<Item = f64> {
        (-360..360).map(|d| f64::from(d).to_radians())
    }

    /// An in-line four that fires 1-3-4-2.
    fn four() -> [OnCrank; 4] {
        [(0, 0.0), (1, 3.0), (2, 1.0), (3, 2.0)].map(|(pin, nth)| OnCrank { pin, axis: 0.0, turn: nth * PI })
    }

    #[test]
    fn a_lone_throw_gives_half_of_its_pins_load_to_each_side() {
        let lone = [OnCrank { pin: 0, axis: 0.3, turn: 1.0 }];
        let mains = Mains { gear: gear(), cylinders: &lone, countered: 0.0 };
        assert_eq!(mains.count(), 2);
        for angle in degrees() {
            let pin = gear().load(angle - 1.0, SPEED, gas(angle - 1.0));
            let (front, rear) = (mains.load(0, angle, SPEED, gas), mains.load(1, angle, SPEED, gas));
            assert_eq!(front, rear);
            assert!((front.x.hypot(front.y) - pin.x.hypot(pin.y) / 2.0).abs() < 1e-6);
            // the axis turns the load with it
            let turned = pin.y.atan2(pin.x) + 0.3 - front.y.atan2(front.x);
            assert!(turned.sin().abs() < 1e-9 && turned.cos() > 0.0);
            assert!((front.mean - 350.0).abs() < 1e-9 && (front.relative - 700.0).abs() < 1e-9);
        }
        assert_eq!(mains.load(2, 0.1, SPEED, gas).x.to_bits(), 0.0_f64.to_bits());
    }

    #[test]
    fn mains_carry_all_that_the_pins_are_loaded_with() {
        let cylinders = four();
        let mains = Mains { gear: gear(), cylinders: &cylinders, countered: 0.0 };
        assert_eq!(mains.count(), 5);
        for angle in degrees() {
            let sum: f64 = (0..5).map(|main| mains.load(main, angle, SPEED, gas).x).sum();
            let pins: f64 = cylinders.iter().map(|c| gear().load(angle - c.turn, SPEED, gas(angle - c.turn)).x).sum();
            assert!((sum - pins).abs() < 1e-6 * pins.abs().max(1e3), "{angle}: {sum} {pins}");
        }
    }

    #[test]
    fn a_four_is_the_same_from_both_ends_a_turn_apart() {
        let cylinders = four();
        let mains = Mains { gear: gear(), cylinders: &cylinders, countered: 0.2 };
        for angle in degrees() {
            for main in 0..3 {
                let (here, there) =
                    (mains.load(main, angle, SPEED, gas), mains.load(4 - main, angle + 2.0 * PI, SPEED, gas));
                assert!((here.x - there.x).abs() < 1e-4 && (here.y - there.y).abs() < 1e-4, "{main} {angle}");
            }
        }
        // without gas the middle main has two throws side by side, the second what two opposed leave
        let peak = |main: usize| {
            degrees().map(|a| mains.load(main, a, SPEED, |_| 0.0)).map(|l| l.x.hypot(l.y)).fold(0.0, f64::max)
        };
        assert!((peak(2) / peak(0) - 2.0).abs() < 1e-9);
        assert!(peak(1) < peak(0));
    }

    #[test]
    fn counterweights_for_the_bobweight_leave_a_right_angled_pair_its_secondary_alone() {
        // two on one pin at 90 degrees; an all but endless rod has no secondary
        let slider = Slider::new(0.095_25, 1e4);
        let gear = BigEnd { slider, ..gear() };
        let pair = [
            OnCrank { pin: 0, axis: FRAC_PI_4, turn: FRAC_PI_4 },
            OnCrank { pin: 0, axis: -FRAC_PI_4, turn: -FRAC_PI_4 },
        ];
        let mains = Mains { gear, cylinders: &pair, countered: gear.rotating + gear.reciprocating / 2.0 };
        let whole = gear.reciprocating * slider.radius * SPEED * SPEED;
        for angle in degrees() {
            let left = mains.load(0, angle, SPEED, |_| 0.0);
            assert!(left.x.hypot(left.y) < 1e-4 * whole, "{angle}: {left:?}");
        }
    }

    #[test]
    fn throws_turned_to_their_places_load_the_mains_as_each_worked_out_where_it_is() {
        // whole degrees apart, and a pair that is not
        let odd = [
            OnCrank { pin: 0, axis: FRAC_PI_4, turn: 0.3 },
            OnCrank { pin: 0, axis: -0.7, turn: 4.123 },
            OnCrank { pin: 1, axis: 0.2, turn: -5.0 },
        ];
        let pin = Loads::of(|angle| gear().load(angle, SPEED, gas(angle)));
        for (cylinders, close) in [(four().as_slice(), 1e-9), (odd.as_slice(), 1e-5)] {
            let mains = Mains { gear: gear(), cylinders, countered: 0.2 };
            let all = mains.loads(0..mains.count(), &pin, SPEED);
            assert_eq!(all.len(), mains.count());
            for (main, loads) in all.iter().enumerate() {
                assert_eq!(mains.loads(main..main + 1, &pin, SPEED), std::slice::from_ref(loads));
                for angle in degrees() {
                    let (one, other) = (loads.at(angle), mains.load(main, angle, SPEED, gas));
                    let off = (one.x - other.x).hypot(one.y - other.y);
                    assert!(off < close * loads.peak(), "{main} {angle}: {one:?} {other:?}");
                    assert!((one.mean - other.mean).abs() < 1e-9 && (one.relative - other.relative).abs() < 1e-9);
                }
            }
        }
    }

    #[test]
    fn a_load_is_a_number_all_through_the_cycle_and_none_where_the_rod_is_too_short() {
        let cylinders = four();
        let mains = Mains { gear: gear(), cylinders: &cylinders, countered: 0.5 };
        for main in 0..7 {
            for angle in degrees() {
                let load = mains.load(main, angle, SPEED, gas);
                assert!(load.x.is_finite() && load.y.is_finite());
            }
        }
        let short = BigEnd { slider: Slider::new(0.095_25, 0.03), ..gear() };
        assert!(Mains { gear: short, ..mains }.load(0, 1.5, SPEED, gas).x.is_nan());
        assert_eq!(Mains { cylinders: &[], ..mains }.count(), 0);
    }
}
