#![allow(clippy::unwrap_used, clippy::indexing_slicing)]
use super::*;
use thou_contract::logged::USUAL_SHAPE;
use thou_mechanics::replacement::{ChangeCosts, best_age};
use thou_mechanics::weibull::LifeData;

const SPRINGS: LifeRange = [75.0, 120.0, 200.0];
const RINGS: LifeRange = [200.0, 300.0, 450.0];

fn own(failed: &[f64], sound: &[f64]) -> ShopLives {
    ShopLives { failed: failed.to_vec(), sound: sound.to_vec() }
}

/// Nothing failed and one that has hardly run: what was believed beforehand comes back.
#[test]
fn with_hardly_a_life_the_packs_range_comes_back() {
    for (takes, pack) in
        [(Consequence::Engine, SPRINGS), (Consequence::Money, RINGS), (Consequence::Power, [15.0, 20.0, 30.0])]
    {
        let learned = learn(USUAL_SHAPE, takes, pack, &own(&[], &[0.01])).unwrap();
        for (got, want) in learned.unheld.iter().zip(pack) {
            assert!((got / want - 1.0).abs() < 2e-3, "{:?} {pack:?}", learned.unheld);
        }
        assert!(!learned.moved && learned.range == pack);
    }
    assert!(learn(USUAL_SHAPE, Consequence::Power, RINGS, &own(&[], &[])).is_none());
    assert!(learn(USUAL_SHAPE, Consequence::Power, [300.0, 200.0, 450.0], &own(&[1.0], &[])).is_none());
    assert!(learn(USUAL_SHAPE, Consequence::Power, RINGS, &own(&[f64::NAN, -1.0], &[0.0])).is_none());
}

#[test]
fn what_takes_the_engine_is_shortened_by_failures_and_never_lengthened() {
    let early = learn(USUAL_SHAPE, Consequence::Engine, SPRINGS, &own(&[90.0, 100.0, 110.0], &[95.0, 60.0])).unwrap();
    assert!(early.moved && early.range[1] < 60.0 && early.range.is_sorted(), "{early:?}");
    assert!(early.words.starts_with("3 of this shop's own failed, 2 did not"), "{}", early.words);
    let late = own(&[900.0, 950.0, 980.0, 1_010.0, 1_050.0, 1_100.0, 1_130.0], &[1_200.0; 30]);
    let late = learn(USUAL_SHAPE, Consequence::Engine, SPRINGS, &late).unwrap();
    assert!(!late.moved && late.range == SPRINGS && late.unheld[1] > SPRINGS[1], "{late:?}");
    assert!(late.words.contains("never lengthened"), "{}", late.words);
    let sound = learn(USUAL_SHAPE, Consequence::Engine, SPRINGS, &own(&[], &[400.0; 12])).unwrap();
    assert!(!sound.moved && sound.unheld[1] > 120.0);
}

#[test]
fn money_takes_five_failures_to_lengthen_and_power_three() {
    let lives = [700.0, 760.0, 800.0, 820.0, 900.0];
    for (takes, wanted) in [(Consequence::Money, 5), (Consequence::Power, 3)] {
        for n in 1..=5 {
            let learned = learn(USUAL_SHAPE, takes, RINGS, &own(&lives[..n], &[650.0; 8])).unwrap();
            assert_eq!(learned.moved, n >= wanted, "{takes:?} {n} {learned:?}");
            assert!(learned.unheld[1] > RINGS[1]);
        }
    }
}

/// With many lives what was believed beforehand hardly counts: the likeliest distribution's own life.
#[test]
fn many_lives_speak_for_themselves() {
    // quantiles of a Weibull of shape 3 and scale 600: sixty parts that all failed
    let failed: Vec<f64> =
        (0..60).map(|n| 600.0 * (-(1.0 - (f64::from(n) + 0.5) / 60.0_f64).ln()).powf(1.0 / 3.0)).collect();
    let fit = LifeData { failed: &failed, running: &[] }.fit().unwrap().weibull.life(0.2).unwrap();
    let learned = learn(USUAL_SHAPE, Consequence::Power, RINGS, &own(&failed, &[])).unwrap();
    assert!((learned.range[1] / fit - 1.0).abs() < 0.03, "{} {fit}", learned.range[1]);
    assert!(learned.range[0] > 0.8 * fit && learned.range[2] < 1.2 * fit);
}

/// Leaving out the parts that did not fail makes the life too short: they count.
#[test]
fn sound_parts_lengthen_what_is_believed() {
    let without = learn(USUAL_SHAPE, Consequence::Power, RINGS, &own(&[250.0, 320.0, 350.0], &[])).unwrap();
    let with = learn(USUAL_SHAPE, Consequence::Power, RINGS, &own(&[250.0, 320.0, 350.0], &[400.0; 10])).unwrap();
    assert!(with.unheld[1] > without.unheld[1]);
    let more = learn(USUAL_SHAPE, Consequence::Power, RINGS, &own(&[100.0, 110.0, 120.0, 130.0], &[])).unwrap();
    assert!(more.unheld[1] < without.unheld[1]);
}

/// A spring set at 400 and an engine at 15,000: about a quarter of the characteristic life (small-age formula: 0.24).
#[test]
fn a_dear_engine_makes_a_spring_set_cheap_to_throw_away() {
    let Learned { middle, .. } = learn(USUAL_SHAPE, Consequence::Engine, SPRINGS, &own(&[], &[1.0])).unwrap();
    let best = |failure: f64| best_age(&middle, ChangeCosts { planned: 400.0, failure }).ok().flatten();
    let (age, _) = best(15_000.0).unwrap();
    assert!((age / middle.scale - 0.24).abs() < 0.01, "{age} {middle:?}");
    assert!(best(400.0).is_none());
}

/// 1 % of springs gone at 120 by a shape of 3: 120 / 0.0100503^(1/3) is 556.1.
#[test]
fn the_life_behind_a_range_has_lost_its_share_at_nominal() {
    let life = life_behind(3.0, Consequence::Engine, SPRINGS).unwrap();
    assert!((life.scale - 556.1).abs() < 0.05 && (life.reliability(120.0) - 0.99).abs() < 1e-12, "{life:?}");
    assert!(life_behind(3.0, Consequence::Engine, [0.0; 3]).is_none());
}
