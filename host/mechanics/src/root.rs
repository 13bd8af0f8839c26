//! Where a function passes through zero.

/// Root of a function that grows, for an argument greater than zero: brackets it outward from a guess, greater than zero
/// too, and closes in by regula falsi with Illinois' halving (Dowell and Jarratt 1971), to a relative width. None where
/// it stays below zero up to a hundred times the guess or above it down to a thousandth, or gives NaN.
#[must_use]
pub fn growing(f: &mut impl FnMut(f64) -> f64, guess: f64, relative: f64) -> Option<f64> {
    // from nothing a share of it leads nowhere
    if !(guess > 0.0 && guess.is_normal()) {
        return None;
    }
    let (mut a, mut fa) = (guess, f(guess));
    if fa == 0.0 {
        return Some(a);
    }
    let up = fa < 0.0;
    let (mut b, mut fb) = (a, fa);
    let mut factor = 1.25;
    while (fb < 0.0) == up {
        (a, fa) = (b, fb);
        b = if up { b * factor } else { b / factor };
        if fa.is_nan() || !(1e-3 * guess..=1e2 * guess).contains(&b) {
            return None;
        }
        factor *= 1.1;
        fb = f(b);
    }
    for _ in 0..60 {
        let c = (a * fb - b * fa) / (fb - fa);
        if !c.is_finite() || (b - a).abs() <= relative * c.abs() {
            break;
        }
        let fc = f(c);
        if fc.is_nan() {
            return None;
        }
        if fc.abs() == 0.0 || (c - b).abs() <= relative * c.abs() {
            return Some(c);
        }
        if (fc < 0.0) == (fb < 0.0) {
            fa *= 0.5
        } else {
            (a, fa) = (b, fb)
        }
        (b, fb) = (c, fc);
    }
    Some(b)
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

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn finds_roots_from_far_off() {
        for root in [1e-3, 0.7, 1.0, 42.0] {
            for away in [0.05, 1.0, 20.0] {
                for f in [|x: f64, r: f64| x - r, |x: f64, r: f64| x.powi(3) - r.powi(3), |x: f64, r: f64| (x / r).ln()]
                {
                    let got = growing(&mut |x| f(x, root), root * away, 1e-12).unwrap();
                    assert!((got / root - 1.0).abs() < 1e-10, "{root} {away} {got}");
                }
            }
        }
        for root in [0.8, 0.97, 1.0, 1.1, 30.0] {
            for f in [|x: f64, r: f64| x - r, |x: f64, r: f64| x.powf(1.2) - r.powf(1.2), |x: f64, r: f64| (x / r).ln()]
            {
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
}
