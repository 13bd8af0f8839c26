//! Fatigue: how many cycles a metal takes, what a mean stress costs, and how loads of several heights add up.
//!
//! Stresses in any one unit, Pa as a rule. A stress-life line is good to a factor of three or so in life even on a known
//! metal: use it to compare one duty with another, not to promise hours.

use crate::Outside;

/// A straight stress-life line on logarithmic paper: S = a N^b, between [`StressLifeLine::FROM`] and [`StressLifeLine::TO`] cycles. Basquin
/// 1910; Shigley's Mechanical Engineering Design, section 6-8.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StressLifeLine {
    /// Stress at one cycle, drawn out, in the stresses' unit.
    pub a: f64,
    /// Slope, negative.
    pub b: f64,
    /// Stress below which nothing accumulates. None for aluminium, which has no such limit.
    pub endurance: Option<f64>,
}

impl StressLifeLine {
    /// Fewest cycles that the line is drawn for.
    pub const FROM: f64 = 1e3;
    /// Cycles where a steel's line reaches its endurance limit.
    pub const TO: f64 = 1e6;

    /// Through `share` of the tensile strength at a thousand cycles and the endurance limit at a million: a =
    /// (f Sut)²/Se, b = -log10(f Sut/Se)/3. Shigley, eq. 6-14 and 6-15; share 0.9 where nothing better is known.
    ///
    /// # Errors
    /// [`Outside`] unless 0 < limit < share x strength.
    pub fn of_steel(share: f64, strength: f64, limit: f64) -> Result<Self, Outside> {
        let short = share * strength;
        let line = Self::through(Self::FROM, short, Self::TO, limit)?;
        Ok(Self { endurance: Some(limit), ..line })
    }

    /// Through two points of a test, cycles and stress, without an endurance limit.
    ///
    /// # Errors
    /// [`Outside`] unless 0 < `few` < `many` and 0 < `low` < `high`.
    pub fn through(few: f64, high: f64, many: f64, low: f64) -> Result<Self, Outside> {
        Outside::unless_positive("the fewer cycles", few)?;
        Outside::unless_positive("the lower stress", low)?;
        if high.is_nan() || high <= low || !high.is_finite() {
            return Err(Outside::NotBetween { what: "the higher stress", value: high, low, high: f64::MAX });
        }
        if many.is_nan() || many <= few || !many.is_finite() {
            return Err(Outside::NotBetween { what: "the many cycles", value: many, low: few, high: f64::MAX });
        }
        let b = (low / high).ln() / (many / few).ln();
        Ok(Self { a: high * few.powf(-b), b, endurance: None })
    }

    /// Cycles to failure at a fully reversed stress: (S/a)^(1/b); infinite at or below an endurance limit, and at no
    /// stress.
    #[must_use]
    pub fn life(self, stress: f64) -> f64 {
        if stress <= 0.0 || self.endurance.is_some_and(|limit| stress <= limit) {
            return f64::INFINITY;
        }
        self.drawn_out(stress)
    }

    /// The same without the endurance limit, which no longer holds once some loads are over it (Haibach's remark; the
    /// careful side): the line drawn on.
    #[must_use]
    pub fn drawn_out(self, stress: f64) -> f64 {
        if stress <= 0.0 { f64::INFINITY } else { (stress / self.a).powf(1.0 / self.b) }
    }

    /// Fully reversed stress that lasts this many cycles: a N^b.
    #[must_use]
    pub fn strength(self, cycles: f64) -> f64 {
        self.a * cycles.powf(self.b)
    }

    /// Power of the stress that damage goes with: -1/b, 8.5 for a usual machined steel.
    #[must_use]
    pub fn power(self) -> f64 {
        -1.0 / self.b
    }
}

/// Alternating and mean part of a stress that goes between two values.
#[must_use]
pub fn amplitude_and_mean(high: f64, low: f64) -> [f64; 2] {
    [(high - low) / 2.0, f64::midpoint(high, low)]
}

/// Fully reversed stress that hurts as much, by Goodman's line: sa/(1 - sm/Sut). Shigley, section 6-12. A compressive
/// mean is counted as none. NaN where the mean is at or over the strength.
#[must_use]
pub fn goodman(amplitude: f64, mean: f64, strength: f64) -> f64 {
    let left = 1.0 - mean.max(0.0) / strength;
    if left > 0.0 { amplitude / left } else { f64::NAN }
}

/// The same by Gerber's parabola: sa/(1 - (sm/Sut)²). Through the middle of tests where Goodman is on their safe side.
/// NaN where the mean is at or over the strength.
#[must_use]
pub fn gerber(amplitude: f64, mean: f64, strength: f64) -> f64 {
    let share = mean.max(0.0) / strength;
    let left = 1.0 - share * share;
    if left > 0.0 { amplitude / left } else { f64::NAN }
}

/// The same by Smith, Watson and Topper 1970: sqrt((sm + sa) sa), without a strength. Zero where it never pulls.
#[must_use]
pub fn smith_watson_topper(amplitude: f64, mean: f64) -> f64 {
    ((mean + amplitude).max(0.0) * amplitude).sqrt()
}

/// Safety for endless life by Goodman: 1/(sa/Se + sm/Sut). Shigley, eq. 6-46.
#[must_use]
pub fn safety_goodman(amplitude: f64, mean: f64, limit: f64, strength: f64) -> f64 {
    1.0 / (amplitude / limit + mean.max(0.0) / strength)
}

/// Safety for endless life by Soderberg, which holds the mean to the yield point: 1/(sa/Se + sm/Sy). Shigley, eq. 6-45.
#[must_use]
pub fn safety_soderberg(amplitude: f64, mean: f64, limit: f64, yielding: f64) -> f64 {
    safety_goodman(amplitude, mean, limit, yielding)
}

/// Damage of loads, each `[cycles, cycles to failure]`: the sum of n/N. Palmgren 1924, Miner 1945: failure at one; tests
/// fail between 0.3 and 3, so designs stop at 0.3 to 0.5.
#[must_use]
pub fn miner(loads: &[[f64; 2]]) -> f64 {
    loads.iter().fold(0.0, |sum, [cycles, life]| sum + cycles / life)
}

/// Turns of a crank in a segment, time in s and speed in rad/s.
#[must_use]
pub fn turns(time: f64, omega: f64) -> f64 {
    time * omega / std::f64::consts::TAU
}

/// Turns at the speed `reference` that hurt as much as a duty does, segments of `[time, speed]` in s and rad/s: inertia
/// goes with the square of speed and damage with `power` of the stress, so each turn counts (w/w0)^(2 power). NaN
/// without a reference.
#[must_use]
pub fn equivalent_turns(duty: &[[f64; 2]], reference: f64, power: f64) -> f64 {
    duty.iter().fold(0.0, |sum, [time, speed]| sum + turns(*time, *speed) * (speed / reference).powf(2.0 * power))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn the_line_goes_through_its_two_points() {
        let line = StressLifeLine::of_steel(0.9, 1_000.0, 400.0).unwrap();
        assert!((line.strength(1e3) - 900.0).abs() < 1e-9 && (line.strength(1e6) - 400.0).abs() < 1e-9);
        for stress in [450.0, 600.0, 899.0] {
            assert!((line.strength(line.life(stress)) / stress - 1.0).abs() < 1e-12);
        }
        assert!(line.life(400.0).is_infinite() && line.life(399.0).is_infinite() && line.life(-5.0).is_infinite());
        assert!((line.drawn_out(400.0) / 1e6 - 1.0).abs() < 1e-9);
        assert!((line.power() - 8.518).abs() < 1e-3);
        let no_limit = StressLifeLine::through(1e4, 300.0, 1e7, 120.0).unwrap();
        assert!(no_limit.life(60.0).is_finite());
    }

    #[test]
    fn a_line_that_does_not_fall_is_refused() {
        for (few, high, many, low) in [
            (1e3, 400.0, 1e6, 400.0),
            (1e3, 300.0, 1e6, 400.0),
            (1e6, 900.0, 1e3, 400.0),
            (0.0, 900.0, 1e6, 400.0),
            (1e3, f64::NAN, 1e6, 400.0),
            (1e3, 900.0, 1e6, 0.0),
            (1e3, f64::INFINITY, 1e6, 4.0),
        ] {
            assert!(StressLifeLine::through(few, high, many, low).is_err());
        }
        assert!(StressLifeLine::of_steel(0.9, 400.0, 400.0).is_err());
    }

    #[test]
    fn a_mean_pull_costs_and_goodman_is_the_careful_one() {
        for mean in [1.0, 100.0, 300.0, 900.0] {
            let (g, p) = (goodman(200.0, mean, 1_000.0), gerber(200.0, mean, 1_000.0));
            assert!(g > p && p > 200.0);
        }
        assert!((goodman(200.0, 0.0, 1_000.0) - 200.0).abs() < 1e-12);
        assert!((goodman(200.0, -400.0, 1_000.0) - 200.0).abs() < 1e-12);
        assert!((smith_watson_topper(200.0, 0.0) - 200.0).abs() < 1e-12);
        assert!(smith_watson_topper(200.0, -300.0).abs() < 1e-12);
        assert!(goodman(200.0, 1_000.0, 1_000.0).is_nan() && gerber(200.0, 1_100.0, 1_000.0).is_nan());
        // fully reversed, endless life: safety is strength over stress
        assert!((safety_goodman(200.0, 0.0, 400.0, 1_000.0) - 2.0).abs() < 1e-12);
        assert_eq!(amplitude_and_mean(300.0, -150.0), [225.0, 75.0]);
    }

    #[test]
    fn damage_adds_and_an_endless_life_adds_none() {
        assert!((miner(&[[100.0, 1_000.0], [50.0, 100.0]]) - 0.6).abs() < 1e-12);
        assert!((miner(&[[100.0, 1_000.0], [1e9, f64::INFINITY]]) - 0.1).abs() < 1e-12);
        assert!(miner(&[]).abs() < 1e-300);
    }

    #[test]
    fn a_duty_at_the_reference_counts_its_own_turns() {
        let duty = [[7.5, 733.0], [8.0, 500.0]];
        let plain = turns(7.5, 733.0) + turns(8.0, 500.0);
        assert!((equivalent_turns(&duty, 733.0, 0.0) - plain).abs() < 1e-9);
        let hard = equivalent_turns(&duty, 733.0, 8.5);
        assert!(hard > turns(7.5, 733.0) && hard < plain);
        // twice the speed all over: 2^17 times the damage, and twice the turns
        let fast = [[7.5, 1_466.0], [8.0, 1_000.0]];
        assert!((equivalent_turns(&fast, 733.0, 8.5) / hard / 2_f64.powi(18) - 1.0).abs() < 1e-9);
        assert!(!equivalent_turns(&duty, 0.0, 8.5).is_finite());
    }
}
