#![allow(clippy::unwrap_used)]
use super::*;
use std::f64::consts::{FRAC_PI_2, FRAC_PI_6, PI};

/// A function, its root, and brackets with the calls that Chandrupatla counts for them, both ends among them.
type Published = (fn(f64) -> f64, f64, [(f64, f64, usize); 5]);

/// T. R. Chandrupatla, Advances in Engineering Software 28 (1997) 145, table of the functions that were tried. The root of
/// the first is Wallis's, to the digits that anybody's root of that cubic has; those of the eighth and ninth to the digits
/// that SciPy 1.17 lists with the same table.
const CHANDRUPATLA: [Published; 9] = [
    (
        |x| x.powi(3) - 2.0 * x - 5.0,
        2.094_551_481_542_326_5,
        [(2.0, 3.0, 7), (1.0, 10.0, 11), (1.0, 100.0, 14), (-1e4, 1e4, 23), (-1e10, 1e10, 43)],
    ),
    (
        |x| 1.0 - 1.0 / (x * x),
        1.0,
        [(0.5, 1.51, 8), (1e-4, 1e4, 22), (1e-6, 1e6, 28), (1e-10, 1e10, 41), (1e-12, 1e12, 48)],
    ),
    (
        |x| (x - 3.0).powi(3),
        3.0,
        [(0.0, 5.0, 21), (-10.0, 10.0, 23), (-1e4, 1e4, 36), (-1e6, 1e6, 45), (-1e10, 1e10, 55)],
    ),
    (
        |x| 6.0 * (x - 2.0).powi(5),
        2.0,
        [(0.0, 5.0, 21), (-10.0, 10.0, 23), (-1e4, 1e4, 33), (-1e6, 1e6, 43), (-1e10, 1e10, 54)],
    ),
    (|x| x.powi(9), 0.0, [(-1.0, 4.0, 21), (-2.0, 5.0, 22), (-1.0, 10.0, 23), (-5.0, 50.0, 25), (-10.0, 100.0, 26)]),
    (|x| x.powi(19), 0.0, [(-1.0, 4.0, 21), (-2.0, 5.0, 22), (-1.0, 10.0, 23), (-5.0, 50.0, 25), (-10.0, 100.0, 26)]),
    (
        |x| if x.abs() < 3.8e-4 { 0.0 } else { x * (-1.0 / (x * x)).exp() },
        0.0,
        [(-1.0, 4.0, 8), (-2.0, 5.0, 8), (-1.0, 10.0, 11), (-5.0, 50.0, 18), (-10.0, 100.0, 19)],
    ),
    (
        |x| {
            let (xi, rest) = (0.61489, (1.0 - 0.61489) * (-x).exp());
            -3062.0 * rest / (xi + rest) - 1013.0 + 1628.0 / x
        },
        1.037_536_033_287_040_5,
        [(2e-4, 2.0, 9), (2e-4, 3.0, 10), (2e-4, 9.0, 11), (2e-4, 27.0, 12), (2e-4, 81.0, 14)],
    ),
    (
        |x| x.exp() - 2.0 - 0.01 / (x * x) + 2e-6 / x.powi(3),
        0.703_204_840_363_135_8,
        [(2e-4, 1.0, 7), (2e-4, 3.0, 8), (2e-4, 9.0, 10), (2e-4, 27.0, 11), (2e-4, 81.0, 13)],
    ),
];

#[test]
fn it_is_chandrupatlas_rule_call_by_call() {
    for (i, (f, root, brackets)) in CHANDRUPATLA.into_iter().enumerate() {
        for (a, b, published) in brackets {
            let mut calls = 2;
            let mut counted = |x| {
                calls += 1;
                f(x)
            };
            // his accuracies: 1e-10 of the root twice to each side, and 1e-5
            let near = Near { relative: 4e-10, absolute: 1e-5 };
            let got = between(&mut counted, [(a, f(a)), (b, f(b))], near).unwrap();
            assert_eq!(calls, published, "function {} between {a} and {b}", i + 1);
            // where the function is too small for a number every place is a root
            assert!((got - root).abs() <= 1e-5 || f(got) == 0.0, "function {} between {a} and {b}: {got}", i + 1);
        }
    }
}

/// G. E. Alefeld, F. A. Potra and Y. Shi, ACM Trans. Math. Software 21 (1995) 327, the problems of their table 1: where the
/// root has a closed form it is that, else its digits as SciPy 1.17 lists them for the same problem.
#[test]
fn finds_the_roots_of_alefeld_potra_and_shis_problems() {
    let holds = |problem: &str, ends: [f64; 2], root: f64, f: &dyn Fn(f64) -> f64| {
        let got = crossing(ends, f);
        let allowed = 4.0 * f64::EPSILON * root.abs() + f64::EPSILON / 4.0 * (ends[1] - ends[0]).abs();
        assert!((got - root).abs() <= allowed, "{problem} in {ends:?}: {got}, not {root}");
    };
    holds("1", [FRAC_PI_2, PI], 1.895_494_267_033_981, &|x| x.sin() - x / 2.0);
    let poles = |x: f64| -> f64 {
        -2.0 * (1..=20).map(f64::from).map(|i| (2.0 * i - 5.0).powi(2) / (x - i * i).powi(3)).sum::<f64>()
    };
    for (n, root) in (1..=4).map(f64::from).zip([
        3.022_915_347_273_056_8,
        6.683_753_560_808_078_5,
        11.238_701_655_002_211,
        19.676_000_080_623_41,
    ]) {
        holds("2", [n * n + 1e-9, (n + 1.0).powi(2) - 1e-9], root, &poles);
    }
    for n in [4, 6, 8, 10, 12] {
        holds("4", [0.0, 5.0], 0.2_f64.powf(1.0 / f64::from(n)), &|x| x.powi(n) - 0.2);
        holds("4", [-0.95, 4.05], 1.0, &|x| x.powi(n) - 1.0);
    }
    holds("5", [0.0, 1.5], FRAC_PI_6, &|x| x.sin() - 0.5);
    for n in [2.0, 5.0, 15.0, 20.0] {
        holds("11", [0.01, 1.0], 1.0 / n, &|x| (n * x - 1.0) / ((n - 1.0) * x));
    }
    for n in [2.0, 7.0, 15.0, 33.0] {
        holds("12", [1.0, 100.0], n, &|x| x.powf(1.0 / n) - f64::powf(n, 1.0 / n));
    }
    for n in [1.0, 20.0, 40.0] {
        let bent = |x: f64| n / 20.0 * if x < 0.0 { -1.0 } else { x / 1.5 + x.sin() - 1.0 };
        holds("14", [-1e4, FRAC_PI_2], 0.623_806_518_961_612_4, &bent);
    }
    for n in [20.0, 100.0, 1000.0] {
        let rise = |x: f64| ((n + 1.0) * x * 500.0).clamp(0.0, 1.0).exp() - 1.859;
        holds("15", [-1e4, 1e-4], f64::ln(1.859) / (500.0 * (n + 1.0)), &rise);
    }
}

#[test]
fn finds_the_root_of_anything_that_rises() {
    for root in [-3.0, -1e-9, 0.0, 1e-12, 0.7, 41.0] {
        for f in [
            |x: f64, r: f64| x - r,
            |x: f64, r: f64| (x - r).powi(3),
            |x: f64, r: f64| (40.0 * (x - r)).exp_m1(),
            |x: f64, r: f64| (x - r).atan() + 1e-3 * (x - r).signum(),
            |x: f64, r: f64| if x < r { f64::NEG_INFINITY } else { f64::INFINITY },
        ] {
            let got = crossing([-5.0, 700.0], |x| f(x, root));
            assert!((got - root).abs() <= 2e-15 * root.abs().max(705.0 / 8.0), "{root} {got}");
        }
    }
}

#[test]
fn without_a_crossing_it_is_the_nearer_end_and_without_a_number_none() {
    assert_eq!(crossing([2.0, 9.0], |x| x), 2.0);
    assert_eq!(crossing([2.0, 9.0], |x| x - 10.0), 9.0);
    assert_eq!(crossing([2.0, 9.0], |x| x - 2.0), 2.0);
    assert_eq!(crossing([2.0, 9.0], |x| x - 9.0), 9.0);
    assert!(crossing([2.0, 9.0], |_| f64::NAN).is_nan() && crossing([f64::NAN, 9.0], |x| x).is_nan());
    assert!(crossing([2.0, f64::INFINITY], |x| x - 3.0).is_nan());
    // a hole in the middle, as of a formula that is asked outside its range
    assert!(crossing([2.0, 9.0], |x| if x > 4.0 && x < 8.0 { f64::NAN } else { x - 7.0 }).is_nan());
}

#[test]
fn finds_roots_from_far_off() {
    for root in [1e-3, 0.7, 1.0, 42.0] {
        for away in [0.05, 1.0, 20.0] {
            for f in [|x: f64, r: f64| x - r, |x: f64, r: f64| x.powi(3) - r.powi(3), |x: f64, r: f64| (x / r).ln()] {
                let got = growing(&mut |x| f(x, root), root * away, 1e-12).unwrap();
                assert!((got / root - 1.0).abs() < 1e-10, "{root} {away} {got}");
            }
        }
    }
    for root in [0.8, 0.97, 1.0, 1.1, 30.0] {
        for f in [|x: f64, r: f64| x - r, |x: f64, r: f64| x.powf(1.2) - r.powf(1.2), |x: f64, r: f64| (x / r).ln()] {
            let got = nearly_straight(&mut |x| f(x, root), 1.0, 1e-5).unwrap();
            assert!((got / root - 1.0).abs() < 1e-7, "{root} {got}");
        }
    }
    assert_eq!(nearly_straight(&mut |_| f64::NAN, 1.0, 1e-9), None);
    for nothing in [0.0, -0.0, 5e-324, -1.0, f64::NAN, f64::INFINITY] {
        assert_eq!(growing(&mut |x| x - 1.0, nothing, 1e-9), None, "{nothing}");
    }
    assert_eq!(growing(&mut |_| -1.0, 1.0, 1e-9), None);
    assert_eq!(growing(&mut |_| 1.0, 1.0, 1e-9), None);
    assert_eq!(growing(&mut |_| f64::NAN, 1.0, 1e-9), None);
}
