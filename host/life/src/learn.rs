//! What the shop's own parts teach: the pack's range as what is believed beforehand, the lives of parts that failed and
//! that did not as what is seen, and a range that follows from both.
//!
//! Lives by a Weibull distribution. What is believed beforehand is put on its shape and on the life that a share does not
//! reach, not on its scale, since that life is what a shop has a feeling for: Meeker, Escobar and Pascual, Statistical
//! Methods for Reliability Data, 2nd ed., 2022, ch. 10; Tian, Lewis-Beck, Niemi and Meeker, Quality Engineering 36
//! (2024), on priors for reliability; both from memory. Bayes's rule on a grid of the two.
//!
//! The pack's low, nominal and high are taken as the 5, 50 and 95 % points of the life that 1 % (K1), 5 % (K2) or 20 %
//! (K3) do not reach; so with no lives at all the pack's range comes back. The shape is believed to be what
//! the part's service says, within a factor of 1.6 or so. Lives in any one unit.

use thou_mechanics::uncertainty::normal_quantile;
use thou_mechanics::weibull::Weibull;

/// What a part takes with it when it lets go.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Consequence {
    /// The engine (K1).
    Engine,
    /// Money (K2).
    Money,
    /// Power or time (K3).
    Power,
}

impl Consequence {
    /// By the word of a service.
    #[must_use]
    pub fn by_word(word: &str) -> Self {
        match word {
            "engine" => Self::Engine,
            "money" => Self::Money,
            _ => Self::Power,
        }
    }
    /// The share that may fail before the nominal life. Common practice, no source.
    #[must_use]
    pub fn share(self) -> f64 {
        match self {
            Self::Engine => 0.01,
            Self::Money => 0.05,
            Self::Power => 0.20,
        }
    }
    /// Failures from which on the shop's own lives may lengthen the pack's range: never, 5, 3.
    #[must_use]
    pub fn wanted(self) -> Option<usize> {
        match self {
            Self::Engine => None,
            Self::Money => Some(5),
            Self::Power => Some(3),
        }
    }
}

/// How sure the shape is: standard deviation of its logarithm, a factor of 1.6 at 95 %.
const SHAPE_SPREAD: f64 = 0.24;

/// A range of lives.
pub type LifeRange = [f64; 3];

/// What was learned.
#[derive(Debug, Clone, PartialEq)]
pub struct Learned {
    /// Low, nominal and high that count.
    pub range: LifeRange,
    /// What the lives alone would give it, held to nothing.
    pub unheld: LifeRange,
    /// Whether the shop's own lives moved it.
    pub moved: bool,
    /// The distribution in the middle of what is believed now: shape and scale.
    pub middle: Weibull,
    /// How many failed.
    pub failures: usize,
    /// How many did not, so far.
    pub sound: usize,
    /// Which of the two was used and why.
    pub words: String,
}

/// Lives of a part over the shop: those that failed, and those that were taken out sound or still run.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct ShopLives {
    /// At failure.
    pub failed: Vec<f64>,
    /// So far, without one.
    pub sound: Vec<f64>,
}

/// What the shop's own lives make of the pack's range, with the shape that the part's service believes in. None for a range that is none, or where nothing was logged.
#[must_use]
pub fn learn(shape: f64, takes: Consequence, pack: LifeRange, own: &ShopLives) -> Option<Learned> {
    let clean = |lives: &[f64]| lives.iter().copied().filter(|l| l.is_finite() && *l > 0.0).collect::<Vec<f64>>();
    let own = ShopLives { failed: clean(&own.failed), sound: clean(&own.sound) };
    let [low, nominal, high] = pack;
    if !(low > 0.0 && nominal >= low && high >= nominal && high > low && high.is_finite())
        || own.failed.is_empty() && own.sound.is_empty()
    {
        return None;
    }
    let belief = Belief { pack, shape, share: takes.share() };
    let (unheld, middle) = belief.after(&own);
    let (failures, sound) = (own.failed.len(), own.sound.len());
    let may_lengthen = takes.wanted().is_some_and(|n| failures >= n);
    let may_shorten = failures > 0;
    let hold = |own: f64, pack: f64| {
        if own > pack && !may_lengthen || own < pack && !may_shorten { pack } else { own }
    };
    let [a, b, c] = unheld;
    let range = [hold(a, low), hold(b, nominal), hold(c, high)];
    let moved = range != pack;
    let words = words(takes, failures, sound, moved, b > nominal);
    Some(Learned { range, unheld, moved, middle, failures, sound, words })
}

fn words(takes: Consequence, failures: usize, sound: usize, moved: bool, longer: bool) -> String {
    let of = format!("{failures} of this shop's own failed, {sound} did not");
    let why = match (takes.wanted(), moved) {
        (_, true) if longer => "they lengthen the pack's range".to_owned(),
        (_, true) => "they shorten the pack's range".to_owned(),
        (None, _) if failures == 0 => {
            "the pack's range stands: without a failure nothing is learned of the end".to_owned()
        }
        (None, _) => "the pack's range stands: what takes the engine is never lengthened by a few lives".to_owned(),
        (Some(wanted), _) if failures < wanted => {
            format!("the pack's range stands: to lengthen it takes {wanted} that failed")
        }
        _ => "they say what the pack's range says".to_owned(),
    };
    format!("{of}: {why}")
}

/// What is believed beforehand.
struct Belief {
    pack: LifeRange,
    shape: f64,
    share: f64,
}

/// Points of the grid: the life over six deviations to each side, the shape over four.
const LIVES: u32 = 241;
const SHAPES: u32 = 41;

impl Belief {
    /// The life, as a logarithm, so many deviations from nominal: the two sides have spreads of their own, so that low and
    /// high are its 5 and 95 % points.
    fn log_life(&self, off: f64) -> f64 {
        let [low, nominal, high] = self.pack.map(f64::ln);
        let side = if off < 0.0 { nominal - low } else { high - nominal };
        off.mul_add((side / normal_quantile(0.95)).max(1e-3), nominal)
    }

    /// The 5, 50 and 95 % points of the life after these were seen, and the distribution in the middle.
    fn after(&self, own: &ShopLives) -> (LifeRange, Weibull) {
        let hazard = -(-self.share).ln_1p();
        let grid = |n: u32, all: u32, reach: f64| (f64::from(n) / f64::from(all - 1) - 0.5) * 2.0 * reach;
        let shapes: Vec<(f64, f64, Seen)> = (0..SHAPES)
            .map(|n| grid(n, SHAPES, 4.0))
            .map(|off| (self.shape * (off * SHAPE_SPREAD).exp(), -off * off / 2.0))
            .map(|(shape, prior)| (shape, prior, Seen::of(own, shape, self.log_life(0.0))))
            .collect();
        let cells: Vec<Vec<f64>> = (0..LIVES)
            .map(|n| {
                let off = grid(n, LIVES, 6.0);
                let log = self.log_life(off);
                let before = -off * off / 2.0;
                shapes.iter().map(|(_, prior, seen)| before + prior + seen.likelihood(log, hazard)).collect()
            })
            .collect();
        let most = cells.iter().flatten().copied().fold(f64::NEG_INFINITY, f64::max);
        let by_life: Vec<f64> = cells.iter().map(|row| row.iter().map(|p| (p - most).exp()).sum()).collect();
        let total: f64 = by_life.iter().sum();
        let shape: f64 =
            cells.iter().flat_map(|row| row.iter().zip(&shapes)).map(|(p, (s, ..))| s.ln() * (p - most).exp()).sum();
        let shape = (shape / total).exp();
        let at = |share: f64| {
            let place = quantile(&by_life, share) / f64::from(LIVES - 1);
            self.log_life((place - 0.5) * 12.0).exp()
        };
        let range = [at(0.05), at(0.5), at(0.95)];
        let [_, middle, _] = range;
        (range, Weibull { shape, scale: middle / hazard.powf(1.0 / shape) })
    }
}

/// What the lives come to under a shape, so that every life of the grid is asked of the sums and not of each of them.
struct Seen {
    shape: f64,
    /// How many failed.
    failures: f64,
    /// The logarithms of the lives of those, summed.
    logs: f64,
    /// All lives over the life of this logarithm, each to the power of the shape, summed.
    powers: f64,
    about: f64,
}

impl Seen {
    fn of(own: &ShopLives, shape: f64, about: f64) -> Self {
        let power = |life: &f64| (shape * (life.ln() - about)).exp();
        Self {
            shape,
            failures: own.failed.len() as f64,
            logs: own.failed.iter().map(|t| t.ln()).sum(),
            powers: own.failed.iter().chain(&own.sound).map(power).sum(),
            about,
        }
    }

    /// Logarithm of the likelihood under the logarithm of the life that the share does not reach: of each that failed
    /// the density, of each that did not the share that lasts as long (Meeker, Escobar and Pascual, ch. 8, from memory).
    fn likelihood(&self, log_life: f64, hazard: f64) -> f64 {
        let Self { shape, failures, logs, powers, about } = self;
        let of_one = shape.ln() + hazard.ln() - shape * log_life;
        failures * of_one + (shape - 1.0) * logs - hazard * (shape * (about - log_life)).exp() * powers
    }
}

/// Where a share of the weights is reached, in steps from the first; each weight is spread over its own step.
fn quantile(weights: &[f64], share: f64) -> f64 {
    let wanted = share * weights.iter().sum::<f64>();
    let mut sum = 0.0;
    for (n, weight) in weights.iter().enumerate() {
        if sum + weight >= wanted {
            return n as f64 - 0.5 + (wanted - sum) / weight;
        }
        sum += weight;
    }
    weights.len() as f64 - 1.0
}

/// The life behind a range: at its nominal figure the share has let go that its stake allows, with this shape.
#[must_use]
pub fn life_behind(shape: f64, takes: Consequence, range: LifeRange) -> Option<Weibull> {
    let [_, nominal, _] = range;
    // R(nominal) = exp(-(nominal/scale)^shape) = 1 - share
    let scale = nominal / (-(-takes.share()).ln_1p()).powf(1.0 / shape);
    (nominal > 0.0).then_some(Weibull { shape, scale })
}

#[cfg(test)]
#[path = "learn_tests.rs"]
mod tests;
