//! Chance, and what measurements say.

use crate::args::{Answer, Args, one, tried};
use thou_mechanics::weibull::Weibull;

pub fn uncertainty(what: &str, a: &Args) -> Answer {
    use thou_mechanics::uncertainty;
    match what {
        "normal-cdf" => one(uncertainty::normal_cdf(a.n(0))),
        "normal-quantile" => one(uncertainty::normal_quantile(a.n(0))),
        "conformance-probability" => one(uncertainty::conformance_probability(a.n(0), a.n(1), a.n(2), a.n(3))),
        "combine" => one(uncertainty::combine(&a.list(0))),
        "guard-band" => one(uncertainty::guard_band(a.n(0))),
        _ => panic!("no uncertainty.{what}"),
    }
}

pub fn dyno_statistics(what: &str, a: &Args) -> Answer {
    use thou_mechanics::dyno_statistics::{self as d, Compared};
    let pulls = |place| u32::try_from(a.count(place)).unwrap();
    let compared = |c: Option<Compared>| {
        c.map(|c| vec![c.difference, c.t, c.freedom, c.p]).ok_or_else(|| "nothing to compare".to_owned())
    };
    match what {
        "student" => one(d::student(a.n(0), a.n(1))),
        "student-passed" => one(d::student_passed(a.n(0), a.n(1))),
        "shifted-student" => one(d::shifted_student(a.n(0), a.n(1), a.n(2))),
        "power" => one(d::power(a.n(0), pulls(1), a.n(2))),
        "pulls-needed" => one(d::pulls_needed(a.n(0), a.n(1), a.n(2)).map_or(f64::NAN, f64::from)),
        "smallest-gain" => one(d::smallest_gain(pulls(0), a.n(1), a.n(2))),
        "half-width" => one(d::half_width(pulls(0), a.n(1))),
        "missed-one-sided" => one(d::missed_one_sided(a.n(0), a.n(1), a.n(2))),
        "pooled" => compared(d::pooled(&a.list(0), &a.list(1))),
        "welch" => compared(d::welch(&a.list(0), &a.list(1))),
        _ => panic!("no dyno_statistics.{what}"),
    }
}

pub fn weibull(what: &str, a: &Args) -> Answer {
    use thou_mechanics::weibull::{LifeData, by_chance};
    let told = |e: thou_mechanics::weibull::Unfit| e.to_string();
    let law = || Weibull { shape: a.n(0), scale: a.n(1) };
    match what {
        "law" => {
            let (law, t, run) = (law(), a.n(2), a.n(3));
            let life = law.life(a.n(4)).map_err(told)?;
            let after = law.reliability_after(run + t, run);
            Ok(vec![law.reliability(t), law.hazard(t), life, law.mean(), law.deviation(), after])
        }
        "by-chance" => {
            let (failed, running) = (a.list(0), a.list(1));
            by_chance(LifeData { failed: &failed, running: &running }, a.n(2)).map(Vec::from).map_err(told)
        }
        _ => {
            let (failed, running) = (a.list(0), a.list(1));
            let lives = LifeData { failed: &failed, running: &running };
            match what {
                "fit" => {
                    let fit = lives.fit().map_err(told)?;
                    let [shape, scale] = fit.standard_errors;
                    Ok(vec![fit.weibull.shape, fit.weibull.scale, fit.log_likelihood, shape, scale])
                }
                "estimates" => lives.fit().map(|f| vec![f.weibull.shape, f.weibull.scale]).map_err(told),
                "shape-limits" => lives.shape_limits(a.n(2)).map(Vec::from).map_err(told),
                "scale-limits" => lives.scale_limits(a.n(2)).map(Vec::from).map_err(told),
                "life-limits" => lives.life_limits(a.n(2), a.n(3)).map(Vec::from).map_err(told),
                _ => panic!("no weibull.{what}"),
            }
        }
    }
}

pub fn replacement(what: &str, a: &Args) -> Answer {
    use thou_mechanics::replacement::{self as r, ChangeCosts, NormalLife};
    let law = Weibull { shape: a.n(0), scale: a.n(1) };
    let normal = NormalLife { mean: a.n(0), deviation: a.n(1) };
    let best = |found: Option<(f64, f64)>| found.map_or(vec![f64::NAN, f64::NAN], |(t, c)| vec![t, c]);
    let costs = || ChangeCosts { planned: a.n(2), failure: a.n(3) };
    match what {
        "cost-rate" => one(r::cost_rate(&law, costs(), a.n(4))),
        "cost-rate-normal" => one(r::cost_rate(&normal, costs(), a.n(4))),
        "cost-rate-at-failure" => one(r::cost_rate_at_failure(&law, costs())),
        "best-age" => r::best_age(&law, costs()).map(best).map_err(|e| e.to_string()),
        "best-age-normal" => r::best_age(&normal, costs()).map(best).map_err(|e| e.to_string()),
        "renewal" => tried(r::renewal_with_mending(law, a.n(2), a.n(3)).map(|t| t.unwrap_or(f64::NAN))),
        _ => panic!("no replacement.{what}"),
    }
}

pub fn fatigue(what: &str, a: &Args) -> Answer {
    use thou_mechanics::fatigue::{self as f, StressLifeLine};
    let pairs = |place: usize| a.list(place).chunks_exact(2).map(|p| [p[0], p[1]]).collect::<Vec<_>>();
    match what {
        "life" => tried(StressLifeLine::of_steel(a.n(0), a.n(1), a.n(2)).map(|l| l.life(a.n(3)))),
        "through" => StressLifeLine::through(a.n(0), a.n(1), a.n(2), a.n(3))
            .map(|l| vec![l.strength(a.n(4)), l.drawn_out(l.strength(a.n(4)))])
            .map_err(|e| e.to_string()),
        "reversed" => {
            let (amplitude, mean, strength) = (a.n(0), a.n(1), a.n(2));
            Ok(vec![
                f::goodman(amplitude, mean, strength),
                f::gerber(amplitude, mean, strength),
                f::smith_watson_topper(amplitude, mean),
            ])
        }
        "safety-goodman" => one(f::safety_goodman(a.n(0), a.n(1), a.n(2), a.n(3))),
        "miner" => one(f::miner(&pairs(0))),
        "equivalent-turns" => one(f::equivalent_turns(&pairs(0), a.n(1), a.n(2))),
        _ => panic!("no fatigue.{what}"),
    }
}

pub fn survival(what: &str, a: &Args) -> Answer {
    use thou_mechanics::survival::{self, Group};
    let one = (a.list(0), a.list(1));
    let first = Group { failed: &one.0, sound: &one.1 };
    match what {
        "kaplan-meier" => Ok(survival::kaplan_meier(first)
            .iter()
            .flat_map(|s| {
                let [low, high] = s.limits.unwrap_or([f64::NAN; 2]);
                [s.age, s.at_risk as f64, s.good, low, high]
            })
            .collect()),
        "log-rank" => {
            let (other, third, fourth, fifth) = (a.list(2), a.list(3), a.list(4), a.list(5));
            let mut groups = vec![first, Group { failed: &other, sound: &third }];
            if !(fourth.is_empty() && fifth.is_empty()) {
                groups.push(Group { failed: &fourth, sound: &fifth });
            }
            let test = survival::log_rank(&groups).ok_or_else(|| "nothing to compare".to_owned())?;
            Ok(vec![test.chi_square, test.chance])
        }
        _ => panic!("no survival.{what}"),
    }
}
