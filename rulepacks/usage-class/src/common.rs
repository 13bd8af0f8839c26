//! What several rules share.

use crate::facts::{BEARING, BORE, CYLINDERS, FIRING_ORDER, SECONDARY_SHARE, STROKE, USE, VALVES};
use thou_sdk::prelude::*;

/// The three uses that this pack knows, mildest first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Usage {
    Street,
    Bracket,
    AllOut,
}

impl Usage {
    pub(crate) const EVERY: [Self; 3] = [Self::Street, Self::Bracket, Self::AllOut];

    /// One of three by use.
    pub(crate) fn pick<T>(self, street: T, bracket: T, all_out: T) -> T {
        match self {
            Self::Street => street,
            Self::Bracket => bracket,
            Self::AllOut => all_out,
        }
    }

    /// Its place among the uses, for an argument that is one of them.
    pub(crate) fn index(self) -> f64 {
        self.pick(0.0, 1.0, 2.0)
    }
}

/// The use that was asked for; none for a use of somebody else's that is like none of ours.
pub(crate) fn usage(f: &Facts<'_>) -> Option<Usage> {
    Usage::EVERY.into_iter().find(|c| f.is(USE, &[c.pick("street", "bracket", "all-out")]))
}

/// The reason that goes with none of them.
pub(crate) const UNKNOWN_USE: &str =
    "intent.use is none of street, bracket and all-out, and no pack says which of them it is like";

/// What the trade quotes for eight cylinders, for this engine's number of them.
pub(crate) fn for_eight(amount: f64, f: &Facts<'_>) -> f64 {
    amount * f.of(CYLINDERS) / 8.0
}

/// What is jetted, as if it went into eight cylinders.
pub(crate) fn as_eight(power: f64, f: &Facts<'_>) -> f64 {
    power * 8.0 / f.of(CYLINDERS)
}

/// Whether an order is stated that even spaces do not bring to its crankpins: nothing that hangs on it is worked out.
pub(crate) fn uneven_firing(f: &Facts<'_>) -> bool {
    f.flag(FIRING_ORDER).is_some() && f.get(SECONDARY_SHARE).is_none()
}

/// Why a rule of the shells' load does not apply to a crank in rollers.
pub(crate) const ROLLING: &str = "rolling bearings are rated in another way";

/// What these shells bear on their projected area, with the text of their kind; each rule names the source.
pub(crate) fn shells(f: &Facts<'_>, bi_metal: TextNumber, tri_metal: TextNumber) -> Window {
    if f.is(BEARING, &["bi-metal"]) {
        Window::at_most(psi(8_000.0)).never_above(psi(18_000.0)).text(bi_metal)
    } else {
        Window::at_most(psi(10_000.0)).never_above(psi(18_000.0)).text(tri_metal)
    }
}

/// Height over x of a line through these points, level beyond its ends; NaN for what is not known.
pub(crate) fn along(points: &[(f64, f64)], x: f64) -> f64 {
    if x.is_nan() {
        return f64::NAN;
    }
    let (Some(first), Some(last)) = (points.first(), points.last()) else { return f64::NAN };
    for pair in points.windows(2) {
        if let [(x0, y0), (x1, y1)] = *pair
            && (x0..=x1).contains(&x)
        {
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0);
        }
    }
    if x < first.0 { first.1 } else { last.1 }
}

/// A charge that is pressed in.
pub(crate) const PRESSED: &[&str] = &["turbo", "blower"];
/// Petrol of both kinds.
pub(crate) const PETROL: &[&str] = &["petrol-pump", "petrol-race"];

/// The ratios of compression that a small bore and four valves stand over a large one with two: the flame has less way,
/// and what lies in its corner stays cooler.
pub(crate) fn small_and_many_valved(f: &Facts<'_>) -> f64 {
    let bore = f.get(BORE).map_or(0.0, |bore| (mm(100.0) - bore).max(0.0) / mm(10.0) * 0.5);
    bore + if f.get(VALVES).is_some_and(|valves| valves > 3.5) { 1.0 } else { 0.0 }
}

/// What a speed that the trade quotes for a V8 of 3.75 in stroke is to be scaled by: loads go with stroke and the square
/// of speed.
pub(crate) fn by_stroke(f: &Facts<'_>) -> f64 {
    f.get(STROKE).map_or(1.0, |stroke| (inches(3.75) / stroke).sqrt())
}
