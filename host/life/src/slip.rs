//! What stands on a time slip and beside it: the lane, the air, what was in the car and how it was set up; and what two
//! passes come to in the same air.

use crate::amount::Amount;
use serde::{Deserialize, Serialize};
pub use thou_mechanics::dyno_air::Standard;
use thou_mechanics::dyno_air::{Air, Invalid};
use thou_mechanics::performance::run_time_ratio;
use thou_mechanics::standard_atmosphere::density_altitude;

/// What a pass was run in and with. What is not given is not known.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub struct Slip {
    /// Speed through the traps.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub trap_speed: Option<Amount>,
    /// left or right.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub lane: Option<String>,
    /// Pressure of the air at the strip, not reduced to sea level.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub air_pressure: Option<Amount>,
    /// Temperature of the air.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub air_temperature: Option<Amount>,
    /// Relative humidity of the air.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub humidity: Option<Amount>,
    /// As it raced, with who drove.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub weight: Option<Amount>,
    /// The fuel, in words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub fuel: Option<String>,
    /// The tire, in words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tire: Option<String>,
    /// Pressure in it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tire_pressure: Option<Amount>,
    /// What was changed, in words: jets, timing, launch.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tune: Option<String>,
    /// How the plugs read after it, in words.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub plugs: Option<String>,
}

/// A quantity of a slip: its name, kind, and what it can be, in its kind's own units.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SlipQuantity {
    /// Its name in a line of a log.
    pub name: &'static str,
    /// Its kind of quantity.
    pub kind: &'static str,
    /// The least that it can be.
    pub low: &'static str,
    /// The most.
    pub high: &'static str,
}

const fn q(name: &'static str, kind: &'static str, low: &'static str, high: &'static str) -> SlipQuantity {
    SlipQuantity { name, kind, low, high }
}

/// Bands of the possible. The lowest and the highest paved strips, and any weather, are within those of the air.
const QUANTITIES: [SlipQuantity; 6] = [
    q("trap-speed", "speed", "10 mph", "400 mph"),
    q("air-pressure", "pressure", "20 inHg", "32 inHg"),
    q("air-temperature", "temperature", "-40 °F", "140 °F"),
    q("humidity", "percent", "0 %", "100 %"),
    q("weight", "mass", "50 lb", "20000 lb"),
    q("tire-pressure", "pressure", "1 psi", "120 psi"),
];

impl Slip {
    /// Whether it says nothing.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// Its quantities, with what each can be.
    #[must_use]
    pub fn quantities(&self) -> [(SlipQuantity, Option<&Amount>); 6] {
        let all = [
            &self.trap_speed,
            &self.air_pressure,
            &self.air_temperature,
            &self.humidity,
            &self.weight,
            &self.tire_pressure,
        ];
        let mut own = all.into_iter();
        QUANTITIES.map(|q| (q, own.next().and_then(Option::as_ref)))
    }

    /// Its words.
    #[must_use]
    pub fn words(&self) -> [(&'static str, Option<&str>); 5] {
        [
            ("lane", self.lane.as_deref()),
            ("fuel", self.fuel.as_deref()),
            ("tire", self.tire.as_deref()),
            ("tune", self.tune.as_deref()),
            ("plugs", self.plugs.as_deref()),
        ]
    }

    /// What of the air is not given; nothing where all of it is.
    #[must_use]
    pub fn air_missing(&self) -> Vec<&'static str> {
        let all = [
            ("air-pressure", &self.air_pressure),
            ("air-temperature", &self.air_temperature),
            ("humidity", &self.humidity),
        ];
        all.into_iter().filter(|(_, a)| a.is_none()).map(|(name, _)| name).collect()
    }

    /// The air, where all of it is given.
    #[must_use]
    pub fn air(&self) -> Option<Air> {
        let si = |amount: &Option<Amount>, kind| amount.as_ref()?.si(kind).ok();
        Some(Air {
            barometer: si(&self.air_pressure, "pressure")?,
            temperature: si(&self.air_temperature, "temperature")?,
            humidity: si(&self.humidity, "percent")?,
        })
    }
}

/// What an air is worth.
#[derive(Debug, Clone, PartialEq)]
pub struct AirWorth {
    /// m.
    pub density_altitude: f64,
    /// The standard that counts.
    pub standard: Standard,
    /// What the power is multiplied by to be that in the standard's air.
    pub factor: f64,
    /// Whether the standard holds for such air.
    pub holds: Result<(), Invalid>,
}

impl AirWorth {
    /// By a standard; none for an air whose water nobody has worked out, as below freezing.
    #[must_use]
    pub fn of(air: Air, standard: Standard) -> Option<Self> {
        let (density_altitude, factor) = (density_altitude(air.density()), standard.factor(air));
        let worth = Self { density_altitude, standard, factor, holds: standard.valid(air) };
        (density_altitude.is_finite() && factor.is_finite()).then_some(worth)
    }

    /// An elapsed time, s, as it would be in the standard's air: the power is the factor's, the time goes with the cube root
    /// of the power.
    #[must_use]
    pub fn elapsed(&self, seconds: f64) -> f64 {
        seconds * run_time_ratio(self.factor, 1.0)
    }
}

/// An elapsed time, s, at another weight: both in kg.
#[must_use]
pub fn at_weight(seconds: f64, weight: f64, other: f64) -> f64 {
    seconds * run_time_ratio(1.0, other / weight)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn slip(text: &str) -> Slip {
        serde_json::from_str(text).unwrap()
    }

    // SAE J1349: 1.18 (990/Pd) sqrt((t + 273)/298) - 0.18. 97.5 kPa, 35 °C, 40 %: the steam tables have 5.628 kPa at 35 °C,
    // so Pd is 95.249 kPa, and 1.18 * 1.039380 * sqrt(308/298) - 0.18 = 1.066881. The run takes 1/1.066881^(1/3) = 0.978653
    // as long: 9.20 s are 9.0036 s.
    #[test]
    fn a_pass_in_thin_air_is_worth_more_in_the_standards() {
        let slip = slip(r#"{ "air-pressure": "97.5 kPa", "air-temperature": "35 °C", "humidity": "40 %" }"#);
        let worth = AirWorth::of(slip.air().unwrap(), Standard::SaeJ1349).unwrap();
        assert!((worth.factor - 1.066_881).abs() < 2e-5, "{}", worth.factor);
        assert!((worth.elapsed(9.20) - 9.0036).abs() < 2e-4, "{}", worth.elapsed(9.20));
        assert_eq!(worth.holds, Ok(()));
        // National Weather Service's formula for the same: e = 22.5 mbar, Tv = 310.86 K, 3,871 ft
        assert!((worth.density_altitude / 0.304_8 - 3_871.0).abs() < 50.0, "{}", worth.density_altitude / 0.304_8);
        assert!(AirWorth::of(Air { temperature: 270.0, ..slip.air().unwrap() }, Standard::SaeJ1349).is_none());
    }

    // twice 100 lb of 2,700: the cube root of 28/27 is 1.012197
    #[test]
    fn a_heavier_car_takes_longer() {
        assert!((at_weight(9.0, 1_350.0, 1_400.0) - 9.0 * 1.012_197).abs() < 1e-5);
    }

    #[test]
    fn what_is_missing_of_the_air_is_named() {
        let some = slip(r#"{ "air-pressure": "29.60 inHg", "lane": "left" }"#);
        assert_eq!(some.air_missing(), ["air-temperature", "humidity"]);
        assert!(some.air().is_none() && !some.is_empty() && Slip::default().is_empty());
    }
}
