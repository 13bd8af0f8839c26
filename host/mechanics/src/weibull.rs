//! Lives of parts by a Weibull distribution: fitted to failures and to parts that were taken out or still run, with
//! limits by the profile of the likelihood, which hold where few have failed.
//!
//! Lives in any one unit (h, passes, km). R(t) = exp(-(t/scale)^shape). Nelson, Applied Life Data Analysis, 1982; Meeker
//! and Escobar, Statistical Methods for Reliability Data, 1998, ch. 8. With fewer than ten failures the fitted shape is
//! on average too high: show the limits, not the figure alone.

use crate::root::crossing;
use crate::uncertainty::normal_quantile;
use statrs::function::gamma::checked_gamma_lr;

/// Why lives give no fit.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum Unfit {
    /// Not enough different lives.
    #[error("{failures} failed, {different} of the lives differ: a Weibull fit wants two that do, and one that failed")]
    TooFew {
        /** how many failed */
        failures: usize,
        /** how many different lives there are */
        different: usize,
    },
    /// A life that is none.
    #[error("life {index} is {value}: a life is a number greater than zero")]
    NotALife {
        /** place in the list, failures first */
        index: usize,
        /** what it was */
        value: f64,
    },
    /// The likelihood has no greatest value, or none that numbers can hold.
    #[error("these lives settle no shape: all that failed did so at or after the end of all others")]
    NoShape,
    /// Not a share.
    #[error("{0} is no share between zero and one")]
    NotAShare(f64),
}

/// Lives of like parts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lives<'a> {
    /// Lives at failure.
    pub failed: &'a [f64],
    /// Lives so far of those that have not failed: still running, or taken out whole. Leaving them out makes every
    /// figure a lie.
    pub running: &'a [f64],
}

/// A Weibull distribution.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weibull {
    /// Shape, > 0: over one it wears out.
    pub shape: f64,
    /// Scale, > 0, in the lives' unit: the life that 63.2 % do not reach.
    pub scale: f64,
}

/// The likeliest distribution, with how sure it is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fit {
    /// The distribution.
    pub weibull: Weibull,
    /// Logarithm of its likelihood.
    pub log_likelihood: f64,
    /// Standard errors of shape and scale by the observed information; for comparison with other programs, the profile
    /// limits are better.
    pub standard_errors: [f64; 2],
    /// How many failed.
    pub failures: usize,
}

/// Logarithms of the lives over their greatest, so that no power of them leaves the range of numbers.
struct Logs<'a> {
    lives: Lives<'a>,
    greatest: f64,
    mean_failed: f64,
}

impl Logs<'_> {
    fn all(&self) -> impl Iterator<Item = f64> + '_ {
        self.lives.failed.iter().chain(self.lives.running).map(|t| log_share(*t, self.greatest))
    }
    /// Sums of u^b, u^b ln u and u^b ln² u with u the life over the greatest.
    fn sums(&self, shape: f64) -> [f64; 3] {
        self.all().fold([0.0; 3], |[a, b, c], log| {
            let power = (shape * log).exp();
            [a + power, power.mul_add(log, b), (power * log).mul_add(log, c)]
        })
    }
    fn failures(&self) -> f64 {
        self.lives.failed.len() as f64
    }
    /// What is zero at the likeliest shape; rises with it.
    fn score(&self, shape: f64) -> f64 {
        let [a, b, _] = self.sums(shape);
        b / a - 1.0 / shape - self.mean_failed
    }
    /// The likeliest scale at a shape, over the greatest life: as a logarithm.
    fn log_scale(&self, shape: f64) -> f64 {
        (self.sums(shape)[0] / self.failures()).ln() / shape
    }
    /// The likelihood's logarithm, for a scale over the greatest life as a logarithm.
    fn log_likelihood(&self, shape: f64, log_scale: f64) -> f64 {
        let r = self.failures();
        let powers: f64 = self.all().map(|log| (shape * (log - log_scale)).exp()).sum();
        r * (shape.ln() - log_scale - self.greatest.ln() + (shape - 1.0) * (self.mean_failed - log_scale)) - powers
    }
    /// The greatest likelihood with the life that a share does not reach held, by the logarithm of `-ln(1 - share)`:
    /// concave in the shape, so its slope passes zero once.
    fn profile_of_life(&self, log_life: f64, log_hazard: f64) -> f64 {
        let scale_at = |shape: f64| log_life - log_hazard / shape;
        let hazard = log_hazard.exp();
        let slope = |shape: f64| {
            let r = self.failures();
            let tail: f64 = self
                .all()
                .map(|log| {
                    let off = log - log_life;
                    (shape * off).exp() * off
                })
                .sum();
            r / shape + r * (self.mean_failed - log_life) - hazard * tail
        };
        let shape = crossing(SHAPES, |log| -slope(log.exp())).exp();
        self.log_likelihood(shape, scale_at(shape))
    }
}

/// Logarithms of the shapes that are looked at: 0.001 to 10,000.
const SHAPES: [f64; 2] = [-6.9, 9.2];

impl<'a> Lives<'a> {
    fn logs(self) -> Result<Logs<'a>, Unfit> {
        let mut greatest: f64 = 0.0;
        let mut least = f64::INFINITY;
        for (index, life) in self.failed.iter().chain(self.running).enumerate() {
            if !(life.is_finite() && *life > 0.0) {
                return Err(Unfit::NotALife { index, value: *life });
            }
            greatest = greatest.max(*life);
            least = least.min(*life);
        }
        if self.failed.is_empty() || least >= greatest {
            let different = usize::from(greatest > 0.0);
            return Err(Unfit::TooFew { failures: self.failed.len(), different });
        }
        let mean_failed = self.failed.iter().map(|t| log_share(*t, greatest)).sum::<f64>() / self.failed.len() as f64;
        Ok(Logs { lives: self, greatest, mean_failed })
    }

    /// The likeliest distribution.
    ///
    /// # Errors
    /// [`Unfit`] for a life that is not a number greater than zero, without a failure, without two different lives, and
    /// where the likelihood grows without end with the shape (all failures together and later than the rest).
    pub fn fit(self) -> Result<Fit, Unfit> {
        let logs = self.logs()?;
        let [low, high] = SHAPES;
        if logs.score(low.exp()) >= 0.0 || logs.score(high.exp()) <= 0.0 {
            return Err(Unfit::NoShape);
        }
        let shape = crossing(SHAPES, |log| logs.score(log.exp())).exp();
        let log_scale = logs.log_scale(shape);
        let scale = log_scale.exp() * logs.greatest;
        Ok(Fit {
            weibull: Weibull { shape, scale },
            log_likelihood: logs.log_likelihood(shape, log_scale),
            standard_errors: standard_errors(&logs, shape, log_scale, scale),
            failures: self.failed.len(),
        })
    }

    /// Limits of the shape at a confidence (0.95 for 95 %, two-sided): the shapes whose greatest likelihood is less by
    /// half of chi-squared with one degree of freedom. Meeker and Escobar, 1998, section 8.3.
    ///
    /// # Errors
    /// As [`Lives::fit`], and for a confidence that is no share.
    pub fn shape_limits(self, confidence: f64) -> Result<[f64; 2], Unfit> {
        let (logs, fit, least) = self.for_limits(confidence)?;
        let middle = fit.weibull.shape.ln();
        let short = |log: f64| logs.log_likelihood(log.exp(), logs.log_scale(log.exp())) - least;
        let [low, high] = SHAPES;
        Ok([crossing([low, middle], short).exp(), crossing([middle, high], |log| -short(log)).exp()])
    }

    /// Limits of the scale, by the same.
    ///
    /// # Errors
    /// As [`Lives::shape_limits`].
    pub fn scale_limits(self, confidence: f64) -> Result<[f64; 2], Unfit> {
        self.limits_at(0.0, confidence)
    }

    /// Limits of the life that a `share` does not reach (0.1: B10), by the same.
    ///
    /// # Errors
    /// As [`Lives::shape_limits`], and for a share that is none.
    pub fn life_limits(self, share: f64, confidence: f64) -> Result<[f64; 2], Unfit> {
        self.limits_at(log_hazard(share)?, confidence)
    }

    fn limits_at(self, log_hazard: f64, confidence: f64) -> Result<[f64; 2], Unfit> {
        let (logs, fit, least) = self.for_limits(confidence)?;
        let Weibull { shape, scale } = fit.weibull;
        let middle = (scale / logs.greatest).ln() + log_hazard / shape;
        let short = |log: f64| logs.profile_of_life(log, log_hazard) - least;
        // wide enough for any data that a shop can have; the limit is told as the end where it is not
        let reach = 40.0 + (40.0 + log_hazard.abs()) / shape;
        let low = crossing([middle - reach, middle], short);
        let high = crossing([middle, middle + reach], |log| -short(log));
        Ok([low.exp() * logs.greatest, high.exp() * logs.greatest])
    }

    fn for_limits(self, confidence: f64) -> Result<(Logs<'a>, Fit, f64), Unfit> {
        if !(confidence > 0.0 && confidence < 1.0) {
            return Err(Unfit::NotAShare(confidence));
        }
        let fit = self.fit()?;
        let z = normal_quantile(f64::midpoint(1.0, confidence));
        Ok((self.logs()?, fit, fit.log_likelihood - z * z / 2.0))
    }
}

/// Logarithm of a life over the greatest, also where the quotient is less than any number.
fn log_share(life: f64, greatest: f64) -> f64 {
    let share = life / greatest;
    if share >= f64::MIN_POSITIVE { share.ln() } else { life.ln() - greatest.ln() }
}

/// Logarithm of `-ln(1 - share)`.
fn log_hazard(share: f64) -> Result<f64, Unfit> {
    if share > 0.0 && share < 1.0 { Ok((-(-share).ln_1p()).ln()) } else { Err(Unfit::NotAShare(share)) }
}

/// The information's inverse, its root of the diagonal; the scale in its own unit.
fn standard_errors(logs: &Logs<'_>, shape: f64, log_scale: f64, scale: f64) -> [f64; 2] {
    let r = logs.failures();
    let [mut b, mut c] = [0.0, 0.0];
    for log in logs.all() {
        let off = log - log_scale;
        let power = (shape * off).exp();
        b += power * off;
        c += power * off * off;
    }
    // by shape, by ln scale, and mixed; at the likeliest point the sum of powers is r
    let (ss, ll) = (r / (shape * shape) + c, shape * shape * r);
    let mixed = -shape * b;
    let det = ss * ll - mixed * mixed;
    [(ll / det).sqrt(), (ss / det).sqrt() * scale]
}

impl Fit {
    /// Akaike's criterion for two parameters: 4 - 2 ln L. Smaller is better, among fits to the same lives.
    #[must_use]
    pub fn akaike(&self) -> f64 {
        4.0 - 2.0 * self.log_likelihood
    }
}

impl Weibull {
    /// Share that reaches a life: exp(-(t/scale)^shape). One up to zero.
    #[must_use]
    pub fn reliability(self, life: f64) -> f64 {
        if life <= 0.0 { 1.0 } else { (-(life / self.scale).powf(self.shape)).exp() }
    }
    /// Share of those that have reached `run` and go on to reach `life`.
    #[must_use]
    pub fn reliability_after(self, life: f64, run: f64) -> f64 {
        let power = |t: f64| (t.max(0.0) / self.scale).powf(self.shape);
        (power(run) - power(life)).min(0.0).exp()
    }
    /// Failures a unit of life among those that have come so far.
    #[must_use]
    pub fn hazard(self, life: f64) -> f64 {
        self.shape / self.scale * (life / self.scale).powf(self.shape - 1.0)
    }
    /// Life that a share does not reach; B10 for 0.1.
    ///
    /// # Errors
    /// [`Unfit::NotAShare`] unless it is between zero and one.
    pub fn life(self, share: f64) -> Result<f64, Unfit> {
        Ok(self.scale * (log_hazard(share)? / self.shape).exp())
    }
    /// Mean life.
    #[must_use]
    pub fn mean(self) -> f64 {
        self.scale * libm::tgamma(1.0 + 1.0 / self.shape)
    }
    /// Standard deviation of the lives.
    #[must_use]
    pub fn deviation(self) -> f64 {
        let (one, two) = (libm::tgamma(1.0 + 1.0 / self.shape), libm::tgamma(1.0 + 2.0 / self.shape));
        self.scale * (two - one * one).max(0.0).sqrt()
    }
}

/// Mean life where failures come by chance alone, with its limits at a confidence, for a test that ends at a failure:
/// [likeliest, low, high], time on test over failures and over chi-squared of twice as many degrees. Epstein and Sobel
/// 1953; Nelson 1982, ch. 3.
///
/// # Errors
/// As [`Lives::fit`], but equal lives do.
pub fn by_chance(lives: Lives<'_>, confidence: f64) -> Result<[f64; 3], Unfit> {
    if !(confidence > 0.0 && confidence < 1.0) {
        return Err(Unfit::NotAShare(confidence));
    }
    let all = || lives.failed.iter().chain(lives.running);
    if let Some((index, value)) = all().enumerate().find(|(_, t)| !(t.is_finite() && **t > 0.0)) {
        return Err(Unfit::NotALife { index, value: *value });
    }
    let failures = lives.failed.len();
    if failures == 0 {
        return Err(Unfit::TooFew { failures, different: 0 });
    }
    let total: f64 = all().sum();
    let tail = (1.0 - confidence) / 2.0;
    let limit = |share: f64| 2.0 * total / chi_squared_even(failures, share);
    Ok([total / failures as f64, limit(1.0 - tail), limit(tail)])
}

/// Quantile of chi-squared with twice `pairs` degrees of freedom, by the incomplete gamma function.
fn chi_squared_even(pairs: usize, share: f64) -> f64 {
    let pairs = pairs as f64;
    let below = |x: f64| if x > 0.0 { checked_gamma_lr(pairs, x / 2.0).unwrap_or(f64::NAN) } else { 0.0 };
    crossing([0.0, 4.0 * pairs + 200.0], |x| below(x) - share)
}

#[cfg(test)]
#[path = "weibull_tests.rs"]
mod tests;
