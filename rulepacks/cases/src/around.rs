//! Readings to each side of every limit.

use thou_judge::{Limits, SAME};

/// How far from its limit a reading is put, as a share of it: a slip of the last digit of a limit shows.
const NEAR: f64 = 0.005;

/// A reading beside a limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NearReading {
    /// The limit, as a case names it.
    pub limit: &'static str,
    /// Whether it is on the side that the limit forbids.
    pub outside: bool,
    /// What is read, in the limits' unit.
    pub value: f64,
}

/// One half of a percent to each side of every limit but the aim, from the lowest limit up, the smaller reading first.
#[must_use]
pub fn around(limits: &Limits) -> Vec<NearReading> {
    let all = [limits.never_below, limits.low, limits.aim, limits.high, limits.never_above];
    let scale = all.into_iter().flatten().fold(0.0, |most, l: f64| f64::max(most, l.abs()));
    let sides = [
        ("never-below", limits.never_below, true),
        ("low", limits.low, true),
        ("high", limits.high, false),
        ("never-above", limits.never_above, false),
    ];
    let mut readings = Vec::new();
    for (limit, at, is_low) in sides {
        let Some(at) = at else { continue };
        // beside a limit of nothing a share of it is nothing, too
        let step = NEAR * if at == 0.0 { scale.max(1e-6) } else { at.abs() };
        readings.push(NearReading { limit, outside: is_low, value: at - step });
        readings.push(NearReading { limit, outside: !is_low, value: at + step });
    }
    readings
}

/// The limits that a value is outside of, by their names.
pub(crate) fn passed(value: f64, limits: &Limits) -> Vec<&'static str> {
    let under = |limit: Option<f64>| limit.is_some_and(|l| value < l - SAME * l.abs());
    let over = |limit: Option<f64>| limit.is_some_and(|l| value > l + SAME * l.abs());
    let all = [
        ("never-below", under(limits.never_below)),
        ("low", under(limits.low)),
        ("high", over(limits.high)),
        ("never-above", over(limits.never_above)),
    ];
    all.into_iter().filter(|(_, passed)| *passed).map(|(name, _)| name).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_limit_has_its_pair() {
        let limits = Limits {
            never_below: Some(0.0),
            low: Some(200.0),
            aim: Some(250.0),
            high: Some(300.0),
            ..Limits::default()
        };
        let got: Vec<(&str, bool, f64)> = around(&limits).iter().map(|r| (r.limit, r.outside, r.value)).collect();
        assert_eq!(
            got,
            [
                ("never-below", true, -1.5),
                ("never-below", false, 1.5),
                ("low", true, 199.0),
                ("low", false, 201.0),
                ("high", false, 298.5),
                ("high", true, 301.5),
            ]
        );
        let below_nothing = Limits { high: Some(-2.0), ..Limits::default() };
        assert_eq!(around(&below_nothing).iter().map(|r| r.value).collect::<Vec<_>>(), [-2.01, -1.99]);
        for reading in around(&limits) {
            assert_eq!(passed(reading.value, &limits).contains(&reading.limit), reading.outside);
        }
    }
}
