//! Finish of a surface from a measured profile: Ra, Rq, Rz, and of the material ratio curve Rk, Rpk, Rvk, Mr1, Mr2.
//!
//! ISO 21920-2:2021 (before it ISO 13565-2:1996): of all windows that hold 40 % of the material ratio curve the one whose
//! secant falls least; the least-squares line of its heights, drawn out to 0 and 100 %, spans the core Rk; where its ends
//! meet the curve are Mr1 and Mr2; what stands above and below becomes triangles of equal area, Rpk and Rvk. The curve is
//! brought to a fixed number of classes first, or the flattest window of a noisy profile is chance.

use crate::Outside;

/// Classes that a curve is resampled to: enough for one part in a thousand, few enough that the window does not follow
/// the noise.
pub const CLASSES: usize = 1000;

/// The core parameters: heights in m, ratios as shares of one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoreRoughness {
    /// Core roughness, m.
    pub rk: f64,
    /// Reduced peaks, m.
    pub rpk: f64,
    /// Reduced valleys, m.
    pub rvk: f64,
    /// Share of material at the core's upper edge.
    pub mr1: f64,
    /// Share of material at the core's lower edge.
    pub mr2: f64,
}

/// Why a profile has no core.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum Unusable {
    /// Too few heights for a material ratio curve.
    #[error("{0} heights: a profile has at least {FEWEST}")]
    TooFew(usize),
    /// A height that is no number.
    #[error("height {0} of the profile is not a number")]
    NotFinite(usize),
    /// A spacing or cut-off that does not fit.
    #[error(transparent)]
    Filter(#[from] Outside),
}

/// Fewest heights that are taken for a profile.
pub const FEWEST: usize = 100;

fn usable(heights: &[f64]) -> Result<(), Unusable> {
    if heights.len() < FEWEST {
        return Err(Unusable::TooFew(heights.len()));
    }
    heights.iter().position(|z| !z.is_finite()).map_or(Ok(()), |at| Err(Unusable::NotFinite(at)))
}

fn mean(heights: &[f64]) -> f64 {
    heights.iter().sum::<f64>() / heights.len() as f64
}

/// Arithmetical mean deviation, m: mean of |z| from the mean line. ISO 21920-2:2021. NaN for an empty profile.
#[must_use]
pub fn ra(heights: &[f64]) -> f64 {
    let middle = mean(heights);
    heights.iter().map(|z| (z - middle).abs()).sum::<f64>() / heights.len() as f64
}

/// Root mean square deviation, m. ISO 21920-2:2021. NaN for an empty profile.
#[must_use]
pub fn rq(heights: &[f64]) -> f64 {
    let middle = mean(heights);
    (heights.iter().map(|z| (z - middle) * (z - middle)).sum::<f64>() / heights.len() as f64).sqrt()
}

/// Mean over five section lengths of the highest above the lowest, m. ISO 21920-2:2021. NaN for fewer than five
/// heights.
#[must_use]
pub fn rz(heights: &[f64]) -> f64 {
    let section = heights.len() / 5;
    if section == 0 {
        return f64::NAN;
    }
    let height = |part: &[f64]| {
        let (low, high) =
            part.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), z| (low.min(*z), high.max(*z)));
        high - low
    };
    heights.chunks_exact(section).take(5).map(height).sum::<f64>() / 5.0
}

/// The material ratio curve of a profile: height, m, by the share of material, in [`CLASSES`] equal steps from 0 to 1,
/// and the heights that it is of, highest first: what stands above and below the core is summed over them, since the
/// steps at the ends are too coarse for it.
#[derive(Debug, Clone, PartialEq)]
pub struct MaterialRatioCurve {
    steps: Vec<f64>,
    heights: Vec<f64>,
}

impl MaterialRatioCurve {
    /// Of heights in m, in any order; the steps' heights are drawn straight between the neighbours.
    ///
    /// # Errors
    /// [`Unusable`] for fewer than [`FEWEST`] heights, and for one that is no number.
    pub fn of(heights: &[f64]) -> Result<Self, Unusable> {
        usable(heights)?;
        let mut sorted = heights.to_vec();
        sorted.sort_unstable_by(|a, b| b.total_cmp(a));
        let at = |step: usize| {
            // the k-th of n heights stands at (k + 1/2)/n, so that both ends lose the same
            let place =
                (step as f64 / CLASSES as f64 * sorted.len() as f64 - 0.5).clamp(0.0, (sorted.len() - 1) as f64);
            let below = place as usize;
            let near = sorted.get(below).copied().unwrap_or(f64::NAN);
            let next = sorted.get(below + 1).copied().unwrap_or(near);
            (place - below as f64).mul_add(next - near, near)
        };
        Ok(Self { steps: (0..=CLASSES).map(at).collect(), heights: sorted })
    }

    /// Height at a share of material, m; the ends' heights outside 0 to 1.
    #[must_use]
    pub fn height(&self, ratio: f64) -> f64 {
        let place = (ratio * CLASSES as f64).clamp(0.0, CLASSES as f64);
        let below = place as usize;
        let near = self.step(below);
        let next = self.steps.get(below + 1).copied().unwrap_or(near);
        (place - below as f64).mul_add(next - near, near)
    }

    fn step(&self, at: usize) -> f64 {
        self.steps.get(at).copied().unwrap_or(f64::NAN)
    }

    /// The core parameters.
    #[must_use]
    pub fn core(&self) -> CoreRoughness {
        let window = CLASSES * 2 / 5;
        // a rise of less than a billionth of the height is the same slope: the first of them counts
        let least = (self.step(0) - self.step(CLASSES)).abs() * 1e-9;
        let (mut first, mut fall) = (0, f64::INFINITY);
        for at in 0..=CLASSES - window {
            let here = self.step(at) - self.step(at + window);
            if here < fall - least {
                (first, fall) = (at, here);
            }
        }
        let (upper, lower) = self.line(first, window);
        let share = 1.0 / self.heights.len() as f64;
        let peaks = share * self.heights.iter().map(|z| z - upper).take_while(|z| *z > 0.0).sum::<f64>();
        let valleys = share * self.heights.iter().rev().map(|z| lower - z).take_while(|z| *z > 0.0).sum::<f64>();
        let (mr1, mr2) = (self.share_above(upper), 1.0 - self.share_below(lower));
        let triangle = |area: f64, base: f64| if base > 0.0 { 2.0 * area / base } else { 0.0 };
        CoreRoughness { rk: upper - lower, rpk: triangle(peaks, mr1), rvk: triangle(valleys, 1.0 - mr2), mr1, mr2 }
    }

    /// Both ends of the equivalent straight line: the least-squares line in the heights over the region that the secant
    /// found, carried on to 0 and 100 %. ISO 13565-2:1996, 4.2; ISO 21920-2:2021.
    fn line(&self, first: usize, window: usize) -> (f64, f64) {
        let half = window as f64 / 2.0;
        let (mut weight, mut sum, mut moment, mut square) = (0.0, 0.0, 0.0, 0.0);
        for at in 0..=window {
            // the region ends at its outer steps: they stand for half a class each
            let w = if at == 0 || at == window { 0.5 } else { 1.0 };
            let (off, z) = (at as f64 - half, self.step(first + at));
            weight += w;
            sum += w * z;
            moment += w * off * z;
            square += w * off * off;
        }
        let (mean, slope) = (sum / weight, moment / square);
        let middle = first as f64 + half;
        (slope.mul_add(-middle, mean), slope.mul_add(CLASSES as f64 - middle, mean))
    }

    /// Share of material above a height: where the curve comes down to it.
    fn share_above(&self, height: f64) -> f64 {
        let at = self.steps.partition_point(|z| *z > height);
        self.crossing(at, height)
    }

    /// Share of the curve that lies below a height.
    fn share_below(&self, height: f64) -> f64 {
        let at = self.steps.partition_point(|z| *z >= height);
        1.0 - self.crossing(at, height)
    }

    /// Where between step `at` and the one before it the curve passes a height, as a share.
    fn crossing(&self, at: usize, height: f64) -> f64 {
        if at == 0 {
            return 0.0;
        }
        if at > CLASSES {
            return 1.0;
        }
        let (before, after) = (self.step(at - 1), self.step(at));
        ((at - 1) as f64 + (before - height) / (before - after)) / CLASSES as f64
    }
}

/// The constant of the Gaussian filter, sqrt(ln 2/pi). ISO 16610-21:2011.
const ALPHA: f64 = 0.469_718_639_349_826_16;

/// The mean line of a profile by the Gaussian filter, m: heights in m at equal `spacing`, `cut_off` in m. ISO
/// 16610-21:2011; at the ends the weights that fall outside are left out and the rest scaled to one. One number a
/// height, `line` long as `heights`; nothing is done where they differ.
fn gaussian(heights: &[f64], spacing: f64, cut_off: f64, line: &mut [f64]) {
    let reach = ((cut_off / spacing).ceil() as usize).min(heights.len());
    let weight = |off: usize| {
        let share = off as f64 * spacing / (ALPHA * cut_off);
        (-std::f64::consts::PI * share * share).exp()
    };
    let weights: Vec<f64> = (0..=reach).map(weight).collect();
    for (at, out) in line.iter_mut().enumerate() {
        let from = at.saturating_sub(reach);
        let near = heights.iter().enumerate().skip(from).take(at + reach + 1 - from);
        let (mut sum, mut all) = (0.0, 0.0);
        for (other, z) in near {
            let w = weights.get(other.abs_diff(at)).copied().unwrap_or(0.0);
            sum += w * z;
            all += w;
        }
        *out = sum / all;
    }
}

fn filterable(heights: &[f64], spacing: f64, cut_off: f64) -> Result<(), Unusable> {
    usable(heights)?;
    Outside::unless_positive("the spacing of the profile", spacing)?;
    Outside::unless_positive("the cut-off", cut_off)?;
    // a cut-off longer than the profile leaves nothing to filter with, one shorter than two steps nothing to filter
    let length = spacing * heights.len() as f64;
    if cut_off > length || cut_off < 2.0 * spacing || !cut_off.is_finite() {
        return Err(
            Outside::NotBetween { what: "the cut-off", value: cut_off, low: 2.0 * spacing, high: length }.into()
        );
    }
    Ok(())
}

/// Roughness of a measured profile by the Gaussian filter, m: each height over the mean line. Heights in m at equal
/// `spacing`, `cut_off` in m (0.8 mm as a rule). ISO 16610-21:2011.
///
/// # Errors
/// [`Unusable`] for a profile without heights enough, and for a cut-off that does not fit its length and spacing.
pub fn roughness(heights: &[f64], spacing: f64, cut_off: f64) -> Result<Vec<f64>, Unusable> {
    filterable(heights, spacing, cut_off)?;
    let mut line = vec![0.0; heights.len()];
    gaussian(heights, spacing, cut_off, &mut line);
    Ok(heights.iter().zip(&line).map(|(z, l)| z - l).collect())
}

/// Roughness of a plateau-honed profile, m: the mean line is found, valleys below it are filled up to it, and the mean
/// line of what is left is the reference, so that deep valleys do not bend it. ISO 13565-1:1996 (kept by ISO
/// 21920-3:2021 as a special filter).
///
/// # Errors
/// As [`roughness`].
pub fn plateau_roughness(heights: &[f64], spacing: f64, cut_off: f64) -> Result<Vec<f64>, Unusable> {
    filterable(heights, spacing, cut_off)?;
    let mut line = vec![0.0; heights.len()];
    gaussian(heights, spacing, cut_off, &mut line);
    let filled: Vec<f64> = heights.iter().zip(&line).map(|(z, l)| z.max(*l)).collect();
    gaussian(&filled, spacing, cut_off, &mut line);
    Ok(heights.iter().zip(&line).map(|(z, l)| z - l).collect())
}

#[cfg(test)]
#[path = "roughness_tests.rs"]
mod tests;
