//! Balance, bore finish, fatigue, lives and gauges: the functions of their files.

use super::Inputs;
use std::f64::consts::PI;
use thou_mechanics::balance::{self, CylinderPlace, Shake};
use thou_mechanics::fatigue::{self, StressLifeLine};
use thou_mechanics::honing::{Hone, about_the_axis};
use thou_mechanics::replacement::{self, ChangeCosts, NormalLife};
use thou_mechanics::roughness::{self, CoreRoughness, MaterialRatioCurve};
use thou_mechanics::uncertainty::{self, normal_cdf, normal_quantile};
use thou_mechanics::wear;
use thou_mechanics::weibull::{self, LifeData, Weibull};

/// The value of a function of these subjects, none for another's.
pub fn evaluate(function: &str, x: &Inputs<'_>) -> Option<f64> {
    let (subject, name) = function.split_once('.')?;
    match subject {
        "balance" => balance(name, x),
        "honing" => honing(name, x),
        "roughness" => finish(name, x),
        "profile" => of_a_sample(name, x),
        "fatigue" => fatigue(name, x),
        "wear" => wear(name, x),
        "weibull" => weibull(name, x),
        "by-chance" => by_chance(name, x),
        "replacement" => replacement(name, x),
        "uncertainty" => gauge(name, x),
        _ => None,
    }
}

/// The finish of the profile that a sample sheet names, read as the program reads it.
fn of_a_sample(name: &str, x: &Inputs<'_>) -> Option<f64> {
    let sheet = thou_tests::sheet_of(x.text("sheet"));
    let finish = sheet.finish.as_ref().expect("the sample names a profile");
    Some(match name {
        "ra" => finish.ra,
        "rk" => finish.core.rk,
        "rpk" => finish.core.rpk,
        "rvk" => finish.core.rvk,
        "mr1" => finish.core.mr1,
        "mr2" => finish.core.mr2,
        _ => return None,
    })
}

fn balance(name: &str, x: &Inputs<'_>) -> Option<f64> {
    let at = |name: &str| x.get(name);
    let arrow = || -> Shake {
        // rows of three, their middle bank upright, the throws of the rows half a turn apart
        let rows = at("rows") as usize;
        let row = |n: usize| {
            [-1.0, 0.0, 1.0].map(|side| CylinderPlace {
                pin: PI * n as f64,
                axis: side * at("bank"),
                position: 0.0,
                mass: at("mass"),
            })
        };
        let all: Vec<CylinderPlace> = (0..rows).flat_map(row).collect();
        balance::secondary_force(&all, at("stroke") / 2.0, at("rod"), at("speed")).unwrap()
    };
    Some(match name {
        "permissible" => balance::permissible(at("grade"), at("rotor"), at("speed")).unwrap(),
        "permissible-offset" => balance::permissible_offset(at("grade"), at("speed")).unwrap(),
        "grade" => balance::grade(at("unbalance"), at("rotor"), at("speed")).unwrap(),
        "pair-secondary-across" => {
            balance::pair_secondary(at("bank"), at("mass"), at("stroke") / 2.0, at("rod"), at("speed")).unwrap()[1]
        }
        "arrow-secondary-along" => arrow().along(0.0),
        "arrow-secondary-across" => arrow().along(PI / 2.0),
        _ => return None,
    })
}

fn honing(name: &str, x: &Inputs<'_>) -> Option<f64> {
    let strokes = |name: &str| x.get(name) / 60.0;
    let mut hone = Hone { bore: x.get("bore"), stroke: x.get("stroke"), strokes: 0.0, spindle: x.get("spindle") };
    if name == "strokes-for" {
        return Some(60.0 * hone.strokes_for(x.get("angle")).unwrap());
    }
    hone.strokes = strokes("strokes");
    Some(match name {
        "mean-axial-speed" => hone.mean_axial_speed(),
        "surface-speed" => hone.surface_speed(),
        "mean-angle" => hone.mean_angle(),
        "about-the-axis" => about_the_axis(hone.mean_angle()),
        "mid-stroke-angle" => hone.mid_stroke_angle(),
        _ => return None,
    })
}

/// Heights of a distribution at evenly spaced shares: no chance in them.
fn heights(of: &str) -> Vec<f64> {
    let n = 200_000;
    let shares = (0..n).map(|i| (f64::from(i) + 0.5) / f64::from(n));
    match of {
        "normal" => shares.map(normal_quantile).collect(),
        "uniform" => shares.collect(),
        "plateau" => shares.map(plateau).collect(),
        other => panic!("no heights '{other}'"),
    }
}

/// Quantile of the lesser of N(0, 0.10) and N(0.45, 0.60).
fn plateau(share: f64) -> f64 {
    let (mut low, mut high) = (-5.0, 1.0);
    for _ in 0..50 {
        let middle = f64::midpoint(low, high);
        let over = normal_cdf(-middle / 0.10) * normal_cdf((0.45 - middle) / 0.60);
        if 1.0 - over < share { low = middle } else { high = middle }
    }
    f64::midpoint(low, high)
}

fn finish(name: &str, x: &Inputs<'_>) -> Option<f64> {
    let heights = heights(x.text("heights"));
    let CoreRoughness { rk, rpk, rvk, mr1, mr2 } = MaterialRatioCurve::of(&heights).unwrap().core();
    Some(match name {
        "rk" => rk,
        "rpk" => rpk,
        "rvk" => rvk,
        "mr1" => mr1,
        "mr2" => mr2,
        "ra" => roughness::ra(&heights),
        "rk-over-ra" => rk / roughness::ra(&heights),
        _ => return None,
    })
}

fn fatigue(name: &str, x: &Inputs<'_>) -> Option<f64> {
    let at = |name: &str| x.get(name);
    let line = || StressLifeLine::of_steel(at("share"), at("strength"), at("limit")).unwrap();
    // a solid round bar with a stress that goes from nothing to full: half of it alternates
    let bar = |safety_at: &dyn Fn(f64) -> f64| (safety_at(1.0).recip() * at("safety")).cbrt();
    let bending = |diameter: f64| 16.0 * at("moment") / (PI * diameter.powi(3));
    Some(match name {
        "a" => line().a,
        "b" => line().b,
        "life" => line().life(at("stress")),
        "strength" => line().strength(at("cycles")),
        "block" => {
            let load = |cycles: f64, stress: f64| [cycles, line().life(stress * 1e6)];
            fatigue::miner(&[load(2_000.0, 700.0), load(10_000.0, 600.0), load(50_000.0, 500.0)])
        }
        "safety-of-limits" => {
            let [amplitude, mean] = fatigue::amplitude_and_mean(at("high"), at("low"));
            fatigue::safety_goodman(amplitude, mean, at("limit"), at("strength"))
        }
        "goodman" => fatigue::goodman(at("amplitude"), at("mean"), at("strength")),
        "gerber" => fatigue::gerber(at("amplitude"), at("mean"), at("strength")),
        "smith-watson-topper" => fatigue::smith_watson_topper(at("amplitude"), at("mean")),
        "safety-goodman" => fatigue::safety_goodman(at("amplitude"), at("mean"), at("limit"), at("strength")),
        "shaft-goodman" => bar(&|d| fatigue::safety_goodman(bending(d), bending(d), at("limit"), at("strength"))),
        "shaft-soderberg" => bar(&|d| fatigue::safety_soderberg(bending(d), bending(d), at("limit"), at("yielding"))),
        "notched-torsion" => {
            let shear = 8.0 * at("torque") / (PI * at("diameter").powi(3));
            fatigue::safety_soderberg(at("notch") * shear, shear, at("limit"), at("yielding") / 2.0)
        }
        "turns" => fatigue::turns(at("time"), at("speed")),
        "pass-turns" => ["run", "burn-out", "idle"]
            .iter()
            .map(|part| fatigue::turns(at(&format!("{part}-time")), at(&format!("{part}-speed"))))
            .sum(),
        _ => return None,
    })
}

fn wear(name: &str, x: &Inputs<'_>) -> Option<f64> {
    let at = |name: &str| x.get(name);
    Some(match name {
        "ring-travel" => wear::ring_travel(at("stroke"), at("turns")),
        "depth" => wear::depth(at("coefficient"), at("pressure"), at("distance"), at("hardness")).unwrap(),
        _ => return None,
    })
}

const TEN: &[f64] = &[54.0, 187.0, 216.0, 240.0, 244.0, 335.0, 361.0, 373.0, 375.0, 386.0];
const TEN_RUNNING: &[f64] = &[500.0; 10];
const BEARINGS: &[f64] = &[
    17.88, 28.92, 33.00, 41.52, 42.12, 45.60, 48.40, 51.84, 51.96, 54.12, 55.56, 67.80, 68.64, 68.64, 68.88, 84.12,
    93.12, 98.64, 105.12, 105.84, 127.92, 128.04, 173.40,
];
const BY_CHANCE: &[f64] = &[65.0, 110.0, 380.0, 420.0, 505.0, 580.0, 650.0, 840.0, 910.0, 950.0];

fn weibull(name: &str, x: &Inputs<'_>) -> Option<f64> {
    if name == "b10-share" {
        return Some(Weibull { shape: x.get("shape"), scale: 1.0 }.life(0.1).unwrap());
    }
    let lives = match x.text("lives") {
        "ten-of-twenty" => LifeData { failed: TEN, running: TEN_RUNNING },
        "ball-bearings" => LifeData { failed: BEARINGS, running: &[] },
        other => panic!("no lives '{other}'"),
    };
    let fit = lives.fit().unwrap();
    Some(match name {
        "shape" => fit.weibull.shape,
        "scale" => fit.weibull.scale,
        "log-likelihood" => fit.log_likelihood,
        "akaike" => fit.akaike(),
        "mean" => fit.weibull.mean(),
        "deviation" => fit.weibull.deviation(),
        "shape-error" => fit.standard_errors[0],
        "scale-error" => fit.standard_errors[1],
        "b10" => fit.weibull.life(0.1).unwrap(),
        "reliability-after" => fit.weibull.reliability_after(500.0, 200.0),
        _ => return None,
    })
}

fn by_chance(name: &str, x: &Inputs<'_>) -> Option<f64> {
    let running = [950.0; 40];
    let lives = LifeData { failed: BY_CHANCE, running: &running };
    let [mean, low, high] = weibull::by_chance(lives, x.get("confidence")).unwrap();
    Some(match name {
        "mean" => mean,
        "low" => low,
        "high" => high,
        "total" => mean * BY_CHANCE.len() as f64,
        _ => return None,
    })
}

fn replacement(name: &str, x: &Inputs<'_>) -> Option<f64> {
    let at = |name: &str| x.get(name);
    if let Some(name) = name.strip_prefix("normal-") {
        let (life, costs) = (NormalLife { mean: 5.0, deviation: 1.0 }, ChangeCosts { planned: 5.0, failure: 10.0 });
        let best = || replacement::best_age(&life, costs).unwrap().unwrap();
        return Some(match name {
            "rate" => replacement::cost_rate(&life, costs, at("age")),
            "best-age" => best().0,
            "best-rate" => best().1,
            _ => return None,
        });
    }
    let life = Weibull { shape: at("shape"), scale: at("scale") };
    if name == "renewal" {
        return Some(replacement::renewal_with_mending(life, at("planned"), at("mending")).unwrap().unwrap());
    }
    let costs = ChangeCosts { planned: at("planned"), failure: at("failure") };
    let (age, rate) = replacement::best_age(&life, costs).unwrap().unwrap();
    Some(match name {
        "best-age" => age,
        "best-rate" => rate,
        "at-failure" => replacement::cost_rate_at_failure(&life, costs),
        "failed-by-then" => 1.0 - life.reliability(age),
        _ => return None,
    })
}

fn gauge(name: &str, x: &Inputs<'_>) -> Option<f64> {
    let at = |name: &str| x.get(name);
    let variation = || uncertainty::gauge_variation(at("equipment"), at("people"));
    Some(match name {
        "gauge-variation" => variation(),
        "gauge-share" => uncertainty::share_of_tolerance(variation(), at("tolerance")),
        "gauge-groups" => uncertainty::distinct_groups(at("parts"), variation()),
        "gauge-ratio" => uncertainty::test_ratio(at("half"), uncertainty::combine(&[at("a"), at("b")])),
        _ => return None,
    })
}
