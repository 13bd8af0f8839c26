//! Where a rising function passes zero between two ends: Alefeld, Potra and Shi's algorithm 748 (ACM Trans. Math.
//! Software 21 (1995) 327) as the crate `root1d` has it, which keeps its bracket and wants a quarter of a bisection's calls.
//!
//! For roots that are looked for now and then. What stands in an inner loop keeps its own few lines: `root` for a charge,
//! which takes two calls from the neighbour's answer, Newton's rule where the slope is known (`gas`, `charge`), and the
//! bisection in `mobility`, which is for checks.

use root1d::{Error, toms748};

/// The argument between `low` and `high` at which `f`, which rises, is zero, to the last digits: four epsilon of it, or of
/// the width where the root is near zero. Where it is above zero all the way `low`, below it `high`; NaN where it gives
/// no number.
pub(crate) fn crossing([low, high]: [f64; 2], f: impl Fn(f64) -> f64) -> f64 {
    // an infinity says which side it is on, and the algorithm takes none
    let bounded = |x: f64| f(x).clamp(-1e200, 1e200);
    let near = f64::EPSILON / 4.0 * (high - low).abs();
    match toms748(bounded, low, high).atol(near).root() {
        Ok(root) => root,
        Err(Error::NoSignChange { fa, .. }) => {
            if fa > 0.0 {
                low
            } else {
                high
            }
        }
        Err(_) => f64::NAN,
    }
}

#[cfg(test)]
mod tests {
    use super::crossing;

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
        assert_eq!(crossing([2.0, 9.0], |x| x - 9.0), 9.0);
        assert!(crossing([2.0, 9.0], |_| f64::NAN).is_nan() && crossing([f64::NAN, 9.0], |x| x).is_nan());
        assert!(crossing([2.0, f64::INFINITY], |x| x - 3.0).is_nan());
    }
}
