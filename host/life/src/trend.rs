//! A robust line through readings: the median of all slopes between two of them, which one bad reading does not turn.
//!
//! Theil 1950; Sen, Journal of the American Statistical Association 63 (1968) 1379, whose limits come from Kendall's S
//! with the normal approximation and its correction for ties (Kendall, Rank Correlation Methods). With four readings
//! the limits at 95 % are the least and the greatest of the six slopes: wide, as they should be.

use thou_mechanics::uncertainty::normal_quantile;

/// Fewest readings that a line is drawn through.
pub const FEWEST: usize = 4;

/// A line with the limits of its slope.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trend {
    /// Median slope, in units of y a unit of x.
    pub slope: f64,
    /// Lower limit of the slope.
    pub low: f64,
    /// Upper limit of the slope.
    pub high: f64,
    /// y at zero: the median of y less the slope times the median of x.
    pub intercept: f64,
    /// How many readings.
    pub count: usize,
}

/// The line through points `[x, y]` with limits at a confidence (0.95). None with fewer than [`FEWEST`], or where no two
/// have different x.
#[must_use]
pub fn theil_sen(points: &[[f64; 2]], confidence: f64) -> Option<Trend> {
    if points.len() < FEWEST || points.iter().flatten().any(|v| !v.is_finite()) {
        return None;
    }
    let mut slopes = Vec::new();
    for (n, [x, y]) in points.iter().enumerate() {
        for [x2, y2] in points.iter().skip(n + 1) {
            if x2 != x {
                slopes.push((y2 - y) / (x2 - x));
            }
        }
    }
    slopes.sort_by(f64::total_cmp);
    let slope = median(&slopes)?;
    let (mut x, mut y): (Vec<f64>, Vec<f64>) = points.iter().map(|[x, y]| (*x, *y)).unzip();
    x.sort_by(f64::total_cmp);
    y.sort_by(f64::total_cmp);
    let intercept = median(&y)? - slope * median(&x)?;
    let n = points.len() as f64;
    let k = |m: f64| m * (m - 1.0) * (2.0 * m + 5.0);
    let ties = |sorted: &[f64]| repeats(sorted).map(k).sum::<f64>();
    let sigma = ((k(n) - ties(&x) - ties(&y)) / 18.0).max(0.0).sqrt();
    let z = normal_quantile(f64::midpoint(1.0, confidence));
    let all = slopes.len() as f64;
    let upper = ((all + z * sigma) / 2.0).round_ties_even().min(all - 1.0);
    let lower = (((all - z * sigma) / 2.0).round_ties_even() - 1.0).max(0.0);
    let at = |place: f64| slopes.get(place as usize).copied();
    Some(Trend { slope, low: at(lower)?, high: at(upper)?, intercept, count: points.len() })
}

impl Trend {
    /// The line at x.
    #[must_use]
    pub fn at(&self, x: f64) -> f64 {
        self.slope.mul_add(x, self.intercept)
    }

    /// How much further from x to a limit, at the fast, the middle and the slow slope; none where that one never comes to
    /// it. From what the line says at x, zero where that is past the limit already.
    #[must_use]
    pub fn to_limit(&self, x: f64, limit: f64, rising: bool) -> [Option<f64>; 3] {
        let sign = if rising { 1.0 } else { -1.0 };
        let left = sign * (limit - self.at(x));
        let slopes = if rising { [self.high, self.slope, self.low] } else { [self.low, self.slope, self.high] };
        slopes.map(|slope| {
            let slope = sign * slope;
            if left <= 0.0 {
                Some(0.0)
            } else if slope > 0.0 {
                Some(left / slope)
            } else {
                None
            }
        })
    }
}

/// The middle of sorted values.
#[must_use]
pub fn median(sorted: &[f64]) -> Option<f64> {
    let half = sorted.len() / 2;
    let upper = sorted.get(half).copied()?;
    if sorted.len() % 2 == 1 { Some(upper) } else { Some(f64::midpoint(*sorted.get(half - 1)?, upper)) }
}

/// How often each value that comes more than once does.
fn repeats(sorted: &[f64]) -> impl Iterator<Item = f64> + '_ {
    sorted.chunk_by(|a, b| a == b).map(|same| same.len() as f64).filter(|n| *n > 1.0)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use super::*;

    /// The example in Sen's paper: x 1 2 3 4 10 12 18, y 9 15 19 20 45 55 78: slope 4, and 26/7 to 35/8 at 93 %.
    #[test]
    fn the_example_of_the_paper() {
        let x = [1.0, 2.0, 3.0, 4.0, 10.0, 12.0, 18.0];
        let y = [9.0, 15.0, 19.0, 20.0, 45.0, 55.0, 78.0];
        let points: Vec<[f64; 2]> = x.iter().zip(y).map(|(x, y)| [*x, y]).collect();
        let trend = theil_sen(&points, 0.93).unwrap();
        assert!((trend.slope - 4.0).abs() < 1e-12, "{trend:?}");
        assert!((trend.low - 26.0 / 7.0).abs() < 1e-12 && (trend.high - 35.0 / 8.0).abs() < 1e-12, "{trend:?}");
    }

    #[test]
    fn one_bad_reading_does_not_turn_the_line() {
        let mut points: Vec<[f64; 2]> = (0..9).map(|n| [f64::from(n) * 10.0, 2.0 + 0.1 * f64::from(n)]).collect();
        points[8][1] = 40.0;
        let trend = theil_sen(&points, 0.95).unwrap();
        assert!((trend.slope - 0.01).abs() < 1e-9);
        let [fast, middle, _] = trend.to_limit(80.0, 4.8, true);
        assert!((middle.unwrap() - 200.0).abs() < 1e-6 && fast.unwrap() <= middle.unwrap());
    }

    #[test]
    fn a_flat_line_never_comes_to_its_limit_and_one_that_is_past_is_there() {
        let flat: Vec<[f64; 2]> = (0..5).map(|n| [f64::from(n), 3.0]).collect();
        assert_eq!(theil_sen(&flat, 0.95).unwrap().to_limit(4.0, 7.0, true), [None; 3]);
        let falling: Vec<[f64; 2]> = (0..5).map(|n| [f64::from(n), 250.0 - 4.0 * f64::from(n)]).collect();
        let trend = theil_sen(&falling, 0.95).unwrap();
        assert_eq!(trend.to_limit(4.0, 226.0, false), [Some(2.0); 3]);
        assert_eq!(trend.to_limit(4.0, 240.0, false), [Some(0.0); 3]);
        assert_eq!(trend.to_limit(4.0, 260.0, true), [None; 3]);
    }

    #[test]
    fn three_readings_are_no_line_and_neither_are_four_of_one_day() {
        let three: Vec<[f64; 2]> = (0..3).map(|n| [f64::from(n), f64::from(n)]).collect();
        assert!(theil_sen(&three, 0.95).is_none());
        assert!(theil_sen(&[[1.0, 1.0], [1.0, 2.0], [1.0, 3.0], [1.0, 4.0]], 0.95).is_none());
        assert!(theil_sen(&[[1.0, 1.0], [2.0, f64::NAN], [3.0, 3.0], [4.0, 4.0]], 0.95).is_none());
    }
}
