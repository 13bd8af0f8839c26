//! When to change a part by its age, from what a planned change and a failure cost. Barlow and Hunter, Operations
//! Research 8 (1960) 90; Barlow and Proschan, Mathematical Theory of Reliability, 1965, ch. 4.
//!
//! Ages in any one unit, costs in any one money.

use crate::Outside;
use crate::uncertainty::normal_cdf;
use crate::weibull::Weibull;

/// Costs of one change.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Costs {
    /// Planned, > 0.
    pub planned: f64,
    /// After a failure, with all that it takes along; more than the planned one.
    pub failure: f64,
}

impl Costs {
    fn checked(self) -> Result<Self, Outside> {
        Outside::unless_positive("the cost of a planned change", self.planned)?;
        if self.failure > self.planned && self.failure.is_finite() {
            return Ok(self);
        }
        Err(Outside::NotBetween {
            what: "the cost of a failure",
            value: self.failure,
            low: self.planned,
            high: f64::MAX,
        })
    }
}

/// A distribution of lives as far as an age policy needs it.
pub trait Life {
    /// Share that reaches an age.
    fn reliability(&self, age: f64) -> f64;
    /// Failures a unit of age among those that have come so far.
    fn hazard(&self, age: f64) -> f64;
    /// An age by which nearly all have failed.
    fn end(&self) -> f64;
}

impl Life for Weibull {
    fn reliability(&self, age: f64) -> f64 {
        (*self).reliability(age)
    }
    fn hazard(&self, age: f64) -> f64 {
        (*self).hazard(age)
    }
    fn end(&self) -> f64 {
        // R is exp(-40) there
        self.scale * 40_f64.powf(1.0 / self.shape)
    }
}

/// Lives spread normally.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Normal {
    /// Mean life, > 0; some deviations over zero, or lives below zero are counted in.
    pub mean: f64,
    /// Standard deviation, > 0.
    pub deviation: f64,
}

impl Life for Normal {
    fn reliability(&self, age: f64) -> f64 {
        normal_cdf((self.mean - age) / self.deviation)
    }
    fn hazard(&self, age: f64) -> f64 {
        let z = (age - self.mean) / self.deviation;
        let density = (-z * z / 2.0).exp() / (std::f64::consts::TAU.sqrt() * self.deviation);
        density / self.reliability(age)
    }
    fn end(&self) -> f64 {
        self.mean + 9.0 * self.deviation
    }
}

/// Points and weights of Gauss and Legendre for five points on -1 to 1. Abramowitz and Stegun 1964, table 25.4.
const GAUSS: [(f64, f64); 5] = [
    (-0.906_179_845_938_664, 0.236_926_885_056_189_08),
    (-0.538_469_310_105_683_1, 0.478_628_670_499_366_47),
    (0.0, 0.568_888_888_888_888_9),
    (0.538_469_310_105_683_1, 0.478_628_670_499_366_47),
    (0.906_179_845_938_664, 0.236_926_885_056_189_08),
];

/// Mean time in use of a part that is changed at an age: the integral of the reliability up to it.
fn mean_use(life: &impl Life, age: f64) -> f64 {
    const PANELS: u32 = 64;
    let half = age / f64::from(2 * PANELS);
    let panel = |n: u32| {
        let middle = f64::from(2 * n + 1) * half;
        GAUSS.iter().map(|(x, w)| w * life.reliability(x.mul_add(half, middle))).sum::<f64>()
    };
    half * (0..PANELS).map(panel).sum::<f64>()
}

/// Cost a unit of age of changing at an age, or at failure where that comes first:
/// [cp R + cf (1 - R)] over the mean time in use. NaN at an age that is not greater than zero.
#[must_use]
pub fn cost_rate(life: &impl Life, costs: Costs, age: f64) -> f64 {
    if age.is_nan() || age <= 0.0 {
        return f64::NAN;
    }
    let reach = life.reliability(age);
    (costs.planned * reach + costs.failure * (1.0 - reach)) / mean_use(life, age.min(life.end()))
}

/// Cost a unit of age of changing at failure only.
#[must_use]
pub fn cost_rate_at_failure(life: &impl Life, costs: Costs) -> f64 {
    costs.failure / mean_use(life, life.end())
}

/// The age to change at, with its cost a unit of age: where h(t) times the mean time in use, and R(t), come to
/// cf/(cf - cp). `None` where no age is better than waiting for the failure: a hazard that does not rise (a Weibull
/// shape of one and less), or a failure hardly dearer than a change.
///
/// # Errors
/// [`Outside`] unless 0 < planned < failure.
pub fn best_age(life: &impl Life, costs: Costs) -> Result<Option<(f64, f64)>, Outside> {
    let costs = costs.checked()?;
    let wanted = costs.failure / (costs.failure - costs.planned);
    // rises with age where the hazard does; past the end of nearly all lives there is nothing left to plan
    let short = |age: f64| life.hazard(age).mul_add(mean_use(life, age), life.reliability(age)) - wanted;
    let (mut low, mut high) = (0.0, life.end());
    if !(high.is_finite() && high > 0.0 && short(high) > 0.0) || short(high * 1e-9) > 0.0 {
        return Ok(None);
    }
    for _ in 0..60 {
        let middle = f64::midpoint(low, high);
        if short(middle) < 0.0 { low = middle } else { high = middle }
    }
    let age = f64::midpoint(low, high);
    let rate = cost_rate(life, costs, age);
    Ok((rate < cost_rate_at_failure(life, costs)).then_some((age, rate)))
}

/// Age to renew at where failures before it are only mended, as bad as before: scale (cp/(cm (shape - 1)))^(1/shape).
/// Barlow and Hunter 1960, policy II. `None` for a shape of one and less, where renewing gains nothing.
///
/// # Errors
/// [`Outside`] for costs that are not greater than zero.
pub fn renewal_with_mending(life: Weibull, renewal: f64, mending: f64) -> Result<Option<f64>, Outside> {
    Outside::unless_positive("the cost of a renewal", renewal)?;
    Outside::unless_positive("the cost of mending", mending)?;
    let Weibull { shape, scale } = life;
    Ok((shape > 1.0).then(|| scale * (renewal / (mending * (shape - 1.0))).powf(1.0 / shape)))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    const COSTS: Costs = Costs { planned: 1.0, failure: 5.0 };

    #[test]
    fn the_condition_and_the_least_cost_are_one_age() {
        for shape in [1.3, 1.7, 2.0, 3.0, 5.0, 9.0] {
            for failure in [1.5, 3.0, 10.0, 40.0] {
                let life = Weibull { shape, scale: 300.0 };
                let costs = Costs { failure, ..COSTS };
                let Some((age, rate)) = best_age(&life, costs).unwrap() else {
                    assert!(failure < 2.0 || shape < 1.5, "{shape} {failure}");
                    continue;
                };
                for off in [0.9, 0.98, 1.02, 1.1] {
                    assert!(cost_rate(&life, costs, age * off) > rate, "{shape} {failure} {off}");
                }
            }
        }
    }

    #[test]
    fn a_dearer_failure_is_forestalled_sooner() {
        let life = Weibull { shape: 2.5, scale: 1.0 };
        let mut last = f64::INFINITY;
        for failure in [2.0, 4.0, 8.0, 16.0, 32.0] {
            let (age, _) = best_age(&life, Costs { failure, ..COSTS }).unwrap().unwrap();
            assert!(age < last);
            last = age;
        }
    }

    #[test]
    fn without_wear_there_is_nothing_to_plan() {
        for shape in [0.5, 0.9, 1.0] {
            let life = Weibull { shape, scale: 100.0 };
            assert_eq!(best_age(&life, COSTS).unwrap(), None);
            assert_eq!(renewal_with_mending(life, 5.0, 1.0).unwrap(), None);
        }
    }

    #[test]
    fn ages_scale_with_the_lives_and_costs_with_money() {
        let (age, rate) = best_age(&Weibull { shape: 3.0, scale: 1.0 }, COSTS).unwrap().unwrap();
        let (far, less) = best_age(&Weibull { shape: 3.0, scale: 250.0 }, COSTS).unwrap().unwrap();
        assert!((far / age / 250.0 - 1.0).abs() < 1e-9 && (less * 250.0 / rate - 1.0).abs() < 1e-9);
        let dear = Costs { planned: 7.0, failure: 35.0 };
        let (same, more) = best_age(&Weibull { shape: 3.0, scale: 1.0 }, dear).unwrap().unwrap();
        assert!((same / age - 1.0).abs() < 1e-9 && (more / rate / 7.0 - 1.0).abs() < 1e-9);
    }

    #[test]
    fn the_mean_use_to_the_end_is_the_mean_life() {
        for shape in [1.2, 2.0, 3.5] {
            let life = Weibull { shape, scale: 10.0 };
            assert!((mean_use(&life, Life::end(&life)) / life.mean() - 1.0).abs() < 2e-5, "{shape}");
        }
        assert!((cost_rate_at_failure(&Normal { mean: 5.0, deviation: 0.5 }, COSTS) - 1.0).abs() < 1e-9);
    }

    #[test]
    fn what_makes_no_sense_is_refused() {
        let life = Weibull { shape: 3.0, scale: 1.0 };
        for costs in [(0.0, 5.0), (5.0, 5.0), (5.0, 1.0), (f64::NAN, 5.0), (1.0, f64::INFINITY)] {
            let costs = Costs { planned: costs.0, failure: costs.1 };
            assert!(best_age(&life, costs).is_err());
        }
        assert!(cost_rate(&life, COSTS, 0.0).is_nan() && cost_rate(&life, COSTS, f64::NAN).is_nan());
        assert!(renewal_with_mending(life, 0.0, 1.0).is_err());
    }
}
