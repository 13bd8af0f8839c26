//! Lives without a distribution: the share that is still good at an age, from those that failed and those that did not
//! (Kaplan and Meier, J. Am. Stat. Assoc. 53 (1958) 457), and whether groups of them differ (the log-rank test: Mantel,
//! Cancer Chemother. Rep. 50 (1966) 163; Peto and Peto, J. R. Stat. Soc. A 135 (1972) 185).
//!
//! Lives in any one unit. One that is no number greater than zero is left out. What did not fail at an age counts as
//! among those at risk at that age.

use crate::uncertainty::normal_quantile;
use statrs::function::gamma::checked_gamma_ur;

/// Lives of like parts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Group<'a> {
    /// Those that failed.
    pub failed: &'a [f64],
    /// Those that had not failed when they were seen last.
    pub sound: &'a [f64],
}

fn lives(all: &[f64]) -> impl Iterator<Item = f64> + '_ {
    all.iter().copied().filter(|l| l.is_finite() && *l > 0.0)
}

impl Group<'_> {
    /// How many had come to an age.
    fn at_risk(&self, age: f64) -> usize {
        lives(self.failed).chain(lives(self.sound)).filter(|l| *l >= age).count()
    }

    fn failed_at(&self, age: f64) -> usize {
        lives(self.failed).filter(|l| *l == age).count()
    }
}

/// The ages at which one failed, each once, the first first.
fn ages(groups: &[Group<'_>]) -> Vec<f64> {
    let mut all: Vec<f64> = groups.iter().flat_map(|g| lives(g.failed)).collect();
    all.sort_by(f64::total_cmp);
    all.dedup();
    all
}

/// What is known at an age at which one failed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// The age.
    pub age: f64,
    /// How many had come to it.
    pub at_risk: usize,
    /// How many of them failed at it.
    pub failed: usize,
    /// Share that is good past it.
    pub good: f64,
    /// Limits of that share at 95 %, by the logarithm of its own logarithm and Greenwood's variance (Kalbfleisch and
    /// Prentice, The Statistical Analysis of Failure Time Data, 1980, sec. 1.3); none where all failed.
    pub limits: Option<[f64; 2]>,
}

/// The share that is good past each age at which one failed.
#[must_use]
pub fn kaplan_meier(group: Group<'_>) -> Vec<Step> {
    let (mut good, mut greenwood) = (1.0, 0.0);
    let mut out = Vec::new();
    for age in ages(&[group]) {
        let (at_risk, failed) = (group.at_risk(age), group.failed_at(age));
        let (n, d) = (at_risk as f64, failed as f64);
        good *= 1.0 - d / n;
        greenwood += d / (n * (n - d));
        let limits = (failed < at_risk && good > 0.0).then(|| {
            let log = f64::ln(good);
            let wide = normal_quantile(0.975) * f64::sqrt(greenwood) / log.abs();
            [good.powf(wide.exp()), good.powf((-wide).exp())]
        });
        out.push(Step { age, at_risk, failed, good, limits });
    }
    out
}

/// The age that half of them do not reach: the first at which no more than half are good. None where more than half are to
/// the last.
#[must_use]
pub fn median(steps: &[Step]) -> Option<f64> {
    steps.iter().find(|s| s.good <= 0.5 + 1e-12).map(|s| s.age)
}

/// Whether groups differ.
#[derive(Debug, Clone, PartialEq)]
pub struct LogRank {
    /// How many of each group would have failed if there were no difference.
    pub expected: Vec<f64>,
    /// The statistic, chi-square with one degree less than there are groups.
    pub chi_square: f64,
    /// The chance of so great a difference where there is none.
    pub chance: f64,
}

/// Failures that a group must be expected to have for the statistic's distribution to hold: Cochran's rule for chi-square
/// (Biometrics 10 (1954) 417), from memory.
pub const ENOUGH: f64 = 5.0;

impl LogRank {
    /// Whether there are enough of each group for the chance to mean what it says.
    #[must_use]
    pub fn enough(&self) -> bool {
        self.expected.iter().all(|e| *e >= ENOUGH)
    }
}

/// The log-rank test over two groups or more. None where nothing can be compared: fewer than two groups, no failure, or no
/// age at which two groups were running.
#[must_use]
pub fn log_rank(groups: &[Group<'_>]) -> Option<LogRank> {
    let free = groups.len().checked_sub(1).filter(|free| *free > 0)?;
    let mut expected = vec![0.0; groups.len()];
    let mut off = vec![0.0; free];
    let mut spread = vec![vec![0.0; free]; free];
    for age in ages(groups) {
        let at_risk: Vec<f64> = groups.iter().map(|g| g.at_risk(age) as f64).collect();
        let failed: Vec<f64> = groups.iter().map(|g| g.failed_at(age) as f64).collect();
        let (n, d): (f64, f64) = (at_risk.iter().sum(), failed.iter().sum());
        for (sum, n_i) in expected.iter_mut().zip(&at_risk) {
            *sum += d * n_i / n;
        }
        for ((off, n_i), d_i) in off.iter_mut().zip(&at_risk).zip(&failed) {
            *off += d_i - d * n_i / n;
        }
        // hypergeometric; one alone tells nothing
        let scale = if n > 1.0 { d * (n - d) / (n - 1.0) } else { 0.0 };
        for (i, (row, n_i)) in spread.iter_mut().zip(&at_risk).enumerate() {
            for (j, (cell, n_j)) in row.iter_mut().zip(&at_risk).enumerate() {
                *cell += scale * n_i / n * (if i == j { 1.0 } else { 0.0 } - n_j / n);
            }
        }
    }
    let solved = solve(spread, off.clone())?;
    let chi_square: f64 = off.iter().zip(&solved).map(|(a, b)| a * b).sum();
    // the function is not defined at nought
    let chance = if chi_square > 0.0 { checked_gamma_ur(free as f64 / 2.0, chi_square / 2.0).ok()? } else { 1.0 };
    Some(LogRank { expected, chi_square, chance })
}

/// Gauss's elimination with the greatest pivot of each column; none for a matrix that has no inverse.
fn solve(mut rows: Vec<Vec<f64>>, mut right: Vec<f64>) -> Option<Vec<f64>> {
    let size = right.len();
    for column in 0..size {
        let pivot = (column..size).max_by(|a, b| {
            let at = |row: &usize| rows.get(*row).and_then(|r| r.get(column)).map_or(0.0, |v| v.abs());
            at(a).total_cmp(&at(b))
        })?;
        rows.swap(column, pivot);
        right.swap(column, pivot);
        let (head, on_right) = (rows.get(column)?.clone(), *right.get(column)?);
        let lead = *head.get(column)?;
        if lead.abs() < 1e-12 {
            return None;
        }
        for (at, row) in rows.iter_mut().enumerate().filter(|(at, _)| *at != column) {
            let times = row.get(column)? / lead;
            for (cell, of_head) in row.iter_mut().zip(&head) {
                *cell -= times * of_head;
            }
            *right.get_mut(at)? -= times * on_right;
        }
    }
    right.into_iter().enumerate().map(|(at, r)| Some(r / rows.get(at)?.get(at)?)).collect()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    // Weeks in remission, 42 children: Freireich et al., Blood 21 (1963) 699; the figures worked by hand in Kleinbaum and
    // Klein, Survival Analysis, ch. 2, and Collett, Modelling Survival Data in Medical Research.
    const DRUG: Group<'_> = Group {
        failed: &[6.0, 6.0, 6.0, 7.0, 10.0, 13.0, 16.0, 22.0, 23.0],
        sound: &[6.0, 9.0, 10.0, 11.0, 17.0, 19.0, 20.0, 25.0, 32.0, 32.0, 34.0, 35.0],
    };
    const PLACEBO: Group<'_> = Group {
        failed: &[
            1.0, 1.0, 2.0, 2.0, 3.0, 4.0, 4.0, 5.0, 5.0, 8.0, 8.0, 8.0, 8.0, 11.0, 11.0, 12.0, 12.0, 15.0, 17.0, 22.0,
            23.0,
        ],
        sound: &[],
    };

    #[test]
    fn the_textbooks_table() {
        let wanted = [
            (6.0, 21, 3, 0.857_1),
            (7.0, 17, 1, 0.806_7),
            (10.0, 15, 1, 0.752_9),
            (13.0, 12, 1, 0.690_2),
            (16.0, 11, 1, 0.627_5),
            (22.0, 7, 1, 0.537_8),
            (23.0, 6, 1, 0.448_2),
        ];
        let steps = kaplan_meier(DRUG);
        assert_eq!(steps.len(), wanted.len());
        for (step, (age, at_risk, failed, good)) in steps.iter().zip(wanted) {
            assert_eq!((step.age, step.at_risk, step.failed), (age, at_risk, failed));
            assert!((step.good - good).abs() < 5e-5, "{step:?}");
        }
        assert_eq!((median(&steps), median(&kaplan_meier(PLACEBO))), (Some(23.0), Some(8.0)));
    }

    #[test]
    fn the_textbooks_test() {
        let test = log_rank(&[DRUG, PLACEBO]).unwrap();
        assert!((test.chi_square - 16.79).abs() < 0.005, "{test:?}");
        assert!(test.expected.iter().zip([19.25, 10.75]).all(|(a, b)| (a - b).abs() < 0.005), "{test:?}");
        assert!(test.chance < 1e-4 && test.enough());
        // the order of the groups changes nothing but theirs
        let other = log_rank(&[PLACEBO, DRUG]).unwrap();
        assert!((other.chi_square - test.chi_square).abs() < 1e-9);
    }

    #[test]
    fn what_cannot_be_compared_is_not() {
        let group = |failed, sound| Group { failed, sound };
        assert_eq!(log_rank(&[DRUG]), None);
        assert_eq!(log_rank(&[group(&[], &[4.0]), group(&[], &[5.0])]), None);
        // all of one had gone before any of the other was there
        assert_eq!(log_rank(&[group(&[3.0], &[]), group(&[], &[1.0])]), None);
        assert!(!log_rank(&[group(&[1.0, 2.0], &[]), group(&[3.0, 4.0], &[])]).unwrap().enough());
        assert_eq!(kaplan_meier(group(&[f64::NAN, -1.0], &[])), []);
        let all = kaplan_meier(group(&[5.0], &[]));
        assert_eq!((all.first().unwrap().good, all.first().unwrap().limits), (0.0, None));
    }

    #[test]
    fn three_groups_that_are_alike_do_not_differ() {
        let test = log_rank(&[DRUG, DRUG, DRUG]).unwrap();
        assert!(test.chi_square.abs() < 1e-9 && (test.chance - 1.0).abs() < 1e-9, "{test:?}");
    }
}
