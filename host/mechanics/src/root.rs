//! Where a function passes through zero.
//!
//! For roots that are looked for now and then. What stands in an inner loop keeps its own few lines: Newton's rule where
//! the slope is known (`gas`, `charge`), and here [`nearly_straight`] from a neighbour's answer.

/// The argument between `low` and `high` at which `f`, which rises, is zero, to the last digits: four epsilon of it, or a
/// quarter of one of the width where the root is near zero. Where it is above zero all the way `low`, below it `high`; NaN
/// where it gives no number.
pub(crate) fn crossing([low, high]: [f64; 2], mut f: impl FnMut(f64) -> f64) -> f64 {
    let (at_low, at_high) = (f(low), f(high));
    if at_low.is_nan() || at_high.is_nan() {
        f64::NAN
    } else if at_low == 0.0 || (at_low > 0.0 && at_high > 0.0) {
        low
    } else if at_high == 0.0 || (at_low < 0.0 && at_high < 0.0) {
        high
    } else {
        let near = Near { relative: 4.0 * f64::EPSILON, absolute: f64::EPSILON / 4.0 * (high - low).abs() };
        between(&mut f, [(low, at_low), (high, at_high)], near).unwrap_or(f64::NAN)
    }
}

/// Root of a function that grows, for an argument greater than zero, to a relative width: brackets it outward from a
/// guess, greater than zero too, and closes in. None where it stays below zero up to a hundred times the guess or above it
/// down to a thousandth, or gives NaN.
#[must_use]
pub fn growing(f: &mut impl FnMut(f64) -> f64, guess: f64, relative: f64) -> Option<f64> {
    // from nothing a share of it leads nowhere
    if !(guess > 0.0 && guess.is_normal()) {
        return None;
    }
    let mut inner = (guess, f(guess));
    let up = inner.1 < 0.0;
    let mut factor = 1.25;
    while inner.1 != 0.0 {
        let x = if up { inner.0 * factor } else { inner.0 / factor };
        if inner.1.is_nan() || !(1e-3 * guess..=1e2 * guess).contains(&x) {
            return None;
        }
        let outer = (x, f(x));
        if (outer.1 < 0.0) != up {
            let near = Near { relative: relative.max(4.0 * f64::EPSILON), absolute: 0.0 };
            return between(f, [inner, outer], near);
        }
        inner = outer;
        factor *= 1.1;
    }
    Some(inner.0)
}

/// The same root by the secant rule, for a function that is nearly straight there: half the calls of [`growing`], and
/// that one where the rule leaves the neighbourhood of the guess or has not settled after eight calls.
#[must_use]
pub fn nearly_straight(f: &mut impl FnMut(f64) -> f64, guess: f64, relative: f64) -> Option<f64> {
    let (mut a, mut b) = (guess * 0.97, guess);
    let (mut fa, mut fb) = (f(a), f(b));
    for _ in 0..6 {
        let c = b - fb * (b - a) / (fb - fa);
        if !(0.2 * guess..=5.0 * guess).contains(&c) {
            break;
        }
        // the next step would be the square of this one's share
        if (c - b).abs() <= relative * c {
            return Some(c);
        }
        (a, fa) = (b, fb);
        (b, fb) = (c, f(c));
    }
    growing(f, guess, 1e-2 * relative)
}

/// How narrow a bracket has to be: a share of the root, and a width.
#[derive(Clone, Copy)]
struct Near {
    relative: f64,
    absolute: f64,
}

/// A place, and what the function is there.
type Point = (f64, f64);

/// Root between two places at which `f` has opposite signs, infinite or not, by Chandrupatla's rule (Advances in
/// Engineering Software 28 (1997) 145): inverse quadratic interpolation through the last three points where they tell
/// that it will not overshoot, else a bisection. The bracket is kept, so that it ends whatever `f` does. None where `f`
/// gives no number or the bracket has no end.
///
/// The newest point is (x1, f1), (x2, f2) has the other sign, (x3, f3) is what was given up last, as in the paper.
fn between(
    f: &mut impl FnMut(f64) -> f64,
    [(mut x1, mut f1), (mut x2, mut f2)]: [Point; 2],
    near: Near,
) -> Option<f64> {
    let mut t = 0.5;
    // a bisection alone would need a thousand for the widest bracket that there is
    for _ in 0..2000 {
        let width = (x2 - x1).abs();
        let (best, least) = if f1.abs() < f2.abs() { (x1, f1) } else { (x2, f2) };
        let wanted = near.relative * best.abs() + near.absolute;
        if !width.is_finite() || f1.is_nan() {
            return None;
        }
        if least == 0.0 || width <= wanted {
            return Some(best);
        }
        let nearest = 0.5 * wanted / width;
        let x = x1 + f64::clamp(t, nearest, 1.0 - nearest) * (x2 - x1);
        let fx = f(x);
        let (x3, f3);
        if (fx < 0.0) == (f1 < 0.0) {
            (x3, f3) = (x1, f1);
        } else {
            (x3, f3) = (x2, f2);
            (x2, f2) = (x1, f1);
        }
        (x1, f1) = (x, fx);
        let (xi, phi) = ((x1 - x2) / (x3 - x2), (f1 - f2) / (f3 - f2));
        // a difference of infinities is no number, and compares with nothing
        t = if phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi {
            f1 / (f2 - f1) * (f3 / (f2 - f3)) + (x3 - x1) / (x2 - x1) * (f1 / (f3 - f1)) * (f2 / (f3 - f2))
        } else {
            0.5
        };
    }
    None
}

#[cfg(test)]
#[path = "root_tests.rs"]
mod tests;
