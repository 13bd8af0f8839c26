//! When to change a part by its age, from what a planned change and a failure cost. Barlow and Hunter, Operations
//! Research 8 (1960) 90; Barlow and Proschan, Mathematical Theory of Reliability, 1965, ch. 4.
//!
//! Ages in any one unit, costs in any one money.

use crate::Outside;
use crate::root::crossing;
use crate::uncertainty::normal_cdf;
use crate::weibull::Weibull;
use statrs::function::gamma::checked_gamma_lr;
use std::f64::consts::TAU;

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
    /// Mean time in use of a part that is changed at an age, or at failure where that comes first: the integral of the
    /// reliability up to it. The mean life for an endless age.
    fn mean_use(&self, age: f64) -> f64;
    /// An age by which nearly all have failed.
    fn end(&self) -> f64;
}

/// Weibull shapes from here up have an age policy; below it the mean life is past all that is ever in use.
pub const LEAST_SHAPE: f64 = 0.05;

/// NaN throughout below [`LEAST_SHAPE`].
impl Life for Weibull {
    fn reliability(&self, age: f64) -> f64 {
        (*self).reliability(age)
    }
    fn hazard(&self, age: f64) -> f64 {
        (*self).hazard(age)
    }
    /// With x = (t/scale)^shape the substitution makes it scale G(1 + 1/shape) P(1/shape, x), G the gamma function and P
    /// the lower incomplete one over it; Abramowitz and Stegun 1964, 6.5.
    fn mean_use(&self, age: f64) -> f64 {
        let Self { shape, scale } = *self;
        let power = (age / scale).powf(shape);
        if !(shape >= LEAST_SHAPE && power >= 0.0) {
            return f64::NAN;
        }
        // none has failed yet
        if power < 1e-17 {
            return age;
        }
        let share = if power.is_finite() { checked_gamma_lr(1.0 / shape, power).unwrap_or(f64::NAN) } else { 1.0 };
        self.mean() * share
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
        density(z) / (self.deviation * self.reliability(age))
    }
    /// By parts: the integral of the distribution is z times itself and the density.
    fn mean_use(&self, age: f64) -> f64 {
        let under = |z: f64| if z > -40.0 { z.mul_add(normal_cdf(z), density(z)) } else { 0.0 };
        self.deviation * (under(self.mean / self.deviation) - under((self.mean - age) / self.deviation))
    }
    fn end(&self) -> f64 {
        self.mean + 9.0 * self.deviation
    }
}

/// Of the standard normal distribution.
fn density(z: f64) -> f64 {
    (-z * z / 2.0).exp() / TAU.sqrt()
}

/// Cost a unit of age of changing at an age, or at failure where that comes first:
/// [cp R + cf (1 - R)] over the mean time in use. NaN at an age that is not greater than zero.
#[must_use]
pub fn cost_rate(life: &impl Life, costs: Costs, age: f64) -> f64 {
    if age.is_nan() || age <= 0.0 {
        return f64::NAN;
    }
    let reach = life.reliability(age);
    (costs.planned * reach + costs.failure * (1.0 - reach)) / life.mean_use(age)
}

/// Cost a unit of age of changing at failure only.
#[must_use]
pub fn cost_rate_at_failure(life: &impl Life, costs: Costs) -> f64 {
    costs.failure / life.mean_use(f64::INFINITY)
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
    let short = |age: f64| life.hazard(age).mul_add(life.mean_use(age), life.reliability(age)) - wanted;
    let (low, high) = (life.end() * 1e-9, life.end());
    if !(high.is_finite() && high > 0.0 && short(high) > 0.0) || short(low) > 0.0 {
        return Ok(None);
    }
    let age = crossing([low, high], short);
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

    /// The integral itself, by Simpson's rule over even steps of a power of the age that makes it smooth at zero.
    fn by_steps(life: &impl Life, age: f64) -> f64 {
        let steps = 20_000;
        let at = |i: i32| {
            let x = f64::from(i) / f64::from(steps);
            life.reliability(age * x.powi(6)) * 6.0 * x.powi(5)
        };
        let inside = (1..steps).map(|i| if i % 2 == 1 { 4.0 * at(i) } else { 2.0 * at(i) }).sum::<f64>();
        age * (at(0) + inside + at(steps)) / (3.0 * f64::from(steps))
    }

    #[test]
    fn the_mean_use_is_the_integral_of_the_reliability() {
        for age in [1e-3, 0.4, 3.0, 9.0, 14.0, 40.0] {
            for shape in [0.5, 0.8, 1.0, 1.2, 2.0, 3.5, 11.0, 80.0] {
                let life = Weibull { shape, scale: 10.0 };
                let (closed, summed) = (Life::mean_use(&life, age), by_steps(&life, age));
                assert!((closed / summed - 1.0).abs() < 1e-9, "{shape} {age}: {closed} {summed}");
            }
            for deviation in [0.3, 2.0, 5.0] {
                let life = Normal { mean: 10.0, deviation };
                let (closed, summed) = (life.mean_use(age), by_steps(&life, age));
                assert!((closed / summed - 1.0).abs() < 1e-9, "{deviation} {age}: {closed} {summed}");
            }
        }
    }

    #[test]
    fn the_mean_use_without_an_end_is_the_mean_life() {
        for shape in [0.05, 0.3, 1.2, 2.0, 3.5, 200.0] {
            let life = Weibull { shape, scale: 10.0 };
            assert!((Life::mean_use(&life, f64::INFINITY) / life.mean() - 1.0).abs() < 1e-12, "{shape}");
            // before anything fails it is the age
            assert!((Life::mean_use(&life, 1e-300) / 1e-300 - 1.0).abs() < 1e-9 || shape < 0.1);
        }
        assert!(Life::mean_use(&Weibull { shape: 0.01, scale: 10.0 }, 5.0).is_nan());
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
