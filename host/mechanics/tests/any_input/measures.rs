//! Chance: measurements, pulls, lives.

use crate::draw::{Draw, Told, fields, maybe, walks};
use thou_mechanics::dyno_statistics::{self as pulls, Compared};
use thou_mechanics::replacement::{self, ChangeCosts, LifeDistribution, NormalLife};
use thou_mechanics::root;
use thou_mechanics::survival::{self, Group, LogRank, Step};
use thou_mechanics::uncertainty;
use thou_mechanics::weibull::{LifeData, Weibull, WeibullFit, by_chance};

fields! {
    Compared: difference, t, freedom, p;
    Weibull: shape, scale;
    WeibullFit: weibull, log_likelihood, standard_errors;
}

fn weibull(d: &mut Draw) -> Weibull {
    Weibull { shape: d.over(0.3, 20.0), scale: d.over(1e-3, 1e6) }
}

fn normal(d: &mut Draw) -> NormalLife {
    let mean = d.over(1e-3, 1e6);
    NormalLife { mean, deviation: mean * d.between(0.02, 0.5) }
}

fn costs(d: &mut Draw) -> ChangeCosts {
    let planned = d.over(1e-2, 1e5);
    ChangeCosts { planned, failure: planned * d.between(1.1, 100.0) }
}

/// Lives of which one at least failed before the end of the others.
fn lives<T>(d: &mut Draw, of: impl Fn(LifeData<'_>, &mut Draw) -> T) -> T {
    let (failed, running) = (d.whole(2, 20) as usize, d.whole(0, 20) as usize);
    let mut failed = d.list(failed, 10.0, 1e3);
    failed.extend([15.0, 700.0]);
    let running = d.list(running, 10.0, 1e3);
    of(LifeData { failed: &failed, running: &running }, d)
}

impl crate::draw::Answer for Step {
    fn tell(self, told: &mut Told) {
        told.numbers.extend([self.age, self.good]);
        told.numbers.extend(self.limits.into_iter().flatten());
    }
}

impl crate::draw::Answer for LogRank {
    fn tell(self, told: &mut Told) {
        told.numbers.extend(self.expected.into_iter().chain([self.chi_square, self.chance]));
    }
}

/// A group of lives of which one at least failed, in whole numbers so that ages meet.
fn group<T>(d: &mut Draw, of: impl Fn(Group<'_>, &mut Draw) -> T) -> T {
    let whole = |d: &mut Draw, n: u32| (0..n).map(|_| f64::from(d.whole(1, 40))).collect::<Vec<f64>>();
    let (many, few) = (d.whole(1, 20), d.whole(0, 20));
    let (failed, sound) = (whole(d, many), whole(d, few));
    of(Group { failed: &failed, sound: &sound }, d)
}

fn set(d: &mut Draw) -> Vec<f64> {
    let (count, mean) = (d.whole(2, 12), d.over(1.0, 1e6));
    let mut set: Vec<f64> = (0..count).map(|_| mean * d.between(0.99, 1.01)).collect();
    set.push(mean * 1.02);
    set
}

walks! { d:
    "uncertainty::combine" => uncertainty::combine(&[d.over(1e-9, 1e3), d.over(1e-9, 1e3), d.over(1e-9, 1e3)]);
    "uncertainty::normal_cdf" => uncertainty::normal_cdf(d.between(-50.0, 50.0));
    "uncertainty::normal_quantile" => uncertainty::normal_quantile(d.over(1e-12, 0.999_999));
    "uncertainty::conformance_probability" => uncertainty::conformance_probability(d.between(-1.0, 1.0), d.over(1e-9, 1.0), d.between(-1.0, 0.0), d.between(0.0, 1.0));
    "uncertainty::guard_band" => uncertainty::guard_band(d.over(1e-9, 1e3));
    "uncertainty::gauge_variation" => uncertainty::gauge_variation(d.over(1e-9, 1e3), d.over(1e-9, 1e3));
    "uncertainty::share_of_tolerance" => uncertainty::share_of_tolerance(d.over(1e-9, 1e3), d.over(1e-9, 1e3));
    "uncertainty::distinct_groups" => uncertainty::distinct_groups(d.over(1e-9, 1e3), d.over(1e-9, 1e3));
    "uncertainty::test_ratio" => uncertainty::test_ratio(d.over(1e-9, 1e3), d.over(1e-9, 1e3));
    "dyno_statistics::mean" => pulls::mean(&set(d));
    "dyno_statistics::deviation" => pulls::deviation(&set(d));
    "dyno_statistics::student" => pulls::student(d.between(-50.0, 50.0), d.over(1.0, 1e4));
    "dyno_statistics::student_passed" => pulls::student_passed(d.over(1e-6, 0.5), d.over(1.0, 1e4));
    "dyno_statistics::shifted_student" => pulls::shifted_student(d.between(-50.0, 50.0), d.over(1.0, 1e4), d.between(-36.0, 36.0));
    "dyno_statistics::power" => pulls::power(d.between(-3.0, 3.0), d.whole(2, 60), d.over(1e-3, 0.5));
    "dyno_statistics::pulls_needed" => pulls::pulls_needed(d.over(0.05, 5.0), d.over(1e-3, 0.5), d.between(0.3, 0.99));
    "dyno_statistics::smallest_gain" => pulls::smallest_gain(d.whole(2, 60), d.over(1e-2, 0.2), d.between(0.3, 0.99));
    "dyno_statistics::half_width" => pulls::half_width(d.whole(2, 60), d.between(0.1, 0.999));
    "dyno_statistics::missed_one_sided" => pulls::missed_one_sided(d.over(1e-3, 10.0), d.over(1e-3, 10.0), d.over(1e-6, 0.5));
    "dyno_statistics::welch" => pulls::welch(&set(d), &set(d));
    "dyno_statistics::pooled" => pulls::pooled(&set(d), &set(d));
    "survival::kaplan_meier" => group(d, |g, _| survival::kaplan_meier(g));
    "survival::median" => group(d, |g, _| survival::median(&survival::kaplan_meier(g)).map_or((), |_| ()));
    "survival::log_rank" => group(d, |a, d| group(d, |b, _| survival::log_rank(&[a, b]).map_or((), |t| assert!(t.chance <= 1.0 && t.chi_square > -1e-6))));
    "survival::LogRank::enough" => group(d, |a, _| survival::log_rank(&[a, a]).is_some_and(|t| t.enough()));
    "weibull::LifeData::fit" => lives(d, |l, _| l.fit());
    "weibull::LifeData::shape_limits" => lives(d, |l, d| l.shape_limits(d.between(0.5, 0.99)));
    "weibull::LifeData::scale_limits" => lives(d, |l, d| l.scale_limits(d.between(0.5, 0.99)));
    "weibull::LifeData::life_limits" => lives(d, |l, d| l.life_limits(d.between(0.01, 0.99), d.between(0.5, 0.99)));
    "weibull::WeibullFit::akaike" => lives(d, |l, _| l.fit().map(|f| f.akaike()));
    "weibull::Weibull::reliability" => weibull(d).reliability(d.over(1e-6, 1e9));
    "weibull::Weibull::reliability_after" => weibull(d).reliability_after(d.over(1e-6, 1e6), d.over(1e-6, 1e3));
    "weibull::Weibull::hazard" => {
        let law = weibull(d);
        law.hazard(law.scale * d.over(1e-6, 1e6))
    };
    "weibull::Weibull::life" => weibull(d).life(d.between(1e-6, 0.999));
    "weibull::Weibull::mean" => weibull(d).mean();
    "weibull::Weibull::deviation" => weibull(d).deviation();
    "weibull::by_chance" => lives(d, |l, d| by_chance(l, d.between(0.5, 0.99)));
    "replacement::cost_rate" => {
        let law = weibull(d);
        let (law_rate, normal) = (replacement::cost_rate(&law, costs(d), law.scale * d.over(1e-6, 1e3)), normal(d));
        [law_rate, replacement::cost_rate(&normal, costs(d), normal.mean * d.over(1e-3, 1e3)), normal.end()]
    };
    "replacement::cost_rate_at_failure" => [replacement::cost_rate_at_failure(&weibull(d), costs(d)), replacement::cost_rate_at_failure(&normal(d), costs(d))];
    "replacement::best_age" => [replacement::best_age(&weibull(d), costs(d)).map(maybe), replacement::best_age(&normal(d), costs(d)).map(maybe)];
    "replacement::renewal_with_mending" => replacement::renewal_with_mending(weibull(d), d.over(1e-2, 1e5), d.over(1e-2, 1e5)).map(maybe);
    "root::growing" => {
        // the guess is the caller's own figure, greater than zero
        let root = d.over(1e-3, 1e3);
        root::growing(&mut |x: f64| x.powi(3) - root.powi(3), root.abs().clamp(1e-4, 1e4), 1e-12)
    };
    "root::nearly_straight" => {
        let root = d.over(1e-3, 1e3);
        root::nearly_straight(&mut |x: f64| x.powf(1.1) - root.powf(1.1), root.abs().clamp(1e-4, 1e4), 1e-9)
    };
}
