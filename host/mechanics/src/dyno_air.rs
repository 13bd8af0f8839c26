//! Air on the dyno: how dry it is, and what the standards make of it.
//!
//! A power corrected by one standard is not comparable with one corrected by another: [`Corrected`] carries its standard
//! and refuses the comparison.

use crate::standard_atmosphere::AIR_CONSTANT;

/// Critical point of water, K. IAPWS-IF97.
const WATER_CRITICAL: f64 = 647.096;
const ICE: f64 = 273.15;
/// Gas constant of water, J/(kg·K). IAPWS-IF97.
const WATER_CONSTANT: f64 = 461.526;

/// Vapour pressure of water over water, Pa, at a temperature from 273.15 to 647.096 K; NaN outside.
/// IAPWS-IF97 (2007), region 4, eq. 30.
#[must_use]
pub fn saturation_pressure(temperature: f64) -> f64 {
    const N1: f64 = 0.116_705_214_527_67e4;
    const N2: f64 = -0.724_213_167_032_06e6;
    const N3: f64 = -0.170_738_469_400_92e2;
    const N4: f64 = 0.120_208_247_024_70e5;
    const N5: f64 = -0.323_255_503_223_33e7;
    const N6: f64 = 0.149_151_086_135_30e2;
    const N7: f64 = -0.482_326_573_615_91e4;
    const N8: f64 = 0.405_113_405_420_57e6;
    const N9: f64 = -0.238_555_575_678_49;
    const N10: f64 = 0.650_175_348_447_98e3;
    if !(ICE..=WATER_CRITICAL).contains(&temperature) {
        return f64::NAN;
    }
    let x = temperature + N9 / (temperature - N10);
    let a = (x + N1) * x + N2;
    let b = (N3 * x + N4) * x + N5;
    let c = (N6 * x + N7) * x + N8;
    1e6 * (2.0 * c / (-b + (b * b - 4.0 * a * c).sqrt())).powi(4)
}

/// The same by Magnus's formula, Pa, from -45 to 60 °C; NaN outside. WMO Guide to Instruments and Methods of Observation
/// (WMO-No. 8), annex 4.B. Some 0.3 % under pure vapour at room temperature, since it is fitted without the air.
#[must_use]
pub fn saturation_pressure_magnus(temperature: f64) -> f64 {
    let t = temperature - ICE;
    if (-45.0..=60.0).contains(&t) { 611.2 * (17.62 * t / (243.12 + t)).exp() } else { f64::NAN }
}

/// The air an engine breathed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Air {
    /// Barometer, absolute and of the place (not reduced to sea level), Pa.
    pub barometer: f64,
    /// Temperature at the intake, K.
    pub temperature: f64,
    /// Relative humidity, 0 to 1.
    pub humidity: f64,
}

impl Air {
    /// Pressure of the water in it, Pa; NaN for a humidity outside 0 to 1 or a temperature outside of the formula's.
    #[must_use]
    pub fn vapour(self) -> f64 {
        if (0.0..=1.0).contains(&self.humidity) {
            self.humidity * saturation_pressure(self.temperature)
        } else {
            f64::NAN
        }
    }
    /// Pressure of the air without its water, Pa; NaN where none is left.
    #[must_use]
    pub fn dry(self) -> f64 {
        let dry = self.barometer - self.vapour();
        if dry > 0.0 { dry } else { f64::NAN }
    }
    /// Its density, kg/m³: dry air and water, each by its own pressure and gas constant (the water's by IAPWS-IF97).
    #[must_use]
    pub fn density(self) -> f64 {
        (self.dry() / AIR_CONSTANT + self.vapour() / WATER_CONSTANT) / self.temperature
    }
}

/// A standard of correction.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Standard {
    /// SAE J1349 (2004, 2011), petrol, with a mechanical efficiency of 85 %.
    SaeJ1349,
    /// ISO 1585:2020, spark ignition.
    Iso1585,
    /// "STD", as the older dynos print it: SAE J607, a code for small engines, cancelled in 1988.
    StdJ607,
    /// DIN 70020, withdrawn; total pressure, as was the common use.
    Din70020,
}

/// What a standard holds for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Validity {
    /// Correction factor.
    pub factor: (f64, f64),
    /// Temperature at the intake, K.
    pub temperature: (f64, f64),
    /// Dry pressure, Pa.
    pub dry: (f64, f64),
}

/// Why a correction is not the standard's.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub enum Invalid {
    /// The factor is outside what the standard allows.
    #[error("the correction factor is {factor:.4}: the standard holds from {low} to {high}; run again in other air")]
    Factor {
        /** the factor */
        factor: f64,
        /** smallest */
        low: f64,
        /** largest */
        high: f64,
    },
    /// The intake air is too cold or too warm.
    #[error("the intake air is {kelvin} K: the standard holds from {low} to {high} K; run again in other air")]
    Temperature {
        /** temperature, K */
        kelvin: f64,
        /** smallest, K */
        low: f64,
        /** largest, K */
        high: f64,
    },
    /// The dry pressure is too low or too high.
    #[error("the dry pressure is {pascal} Pa: the standard holds from {low} to {high} Pa")]
    Dry {
        /** dry pressure, Pa */
        pascal: f64,
        /** smallest, Pa */
        low: f64,
        /** largest, Pa */
        high: f64,
    },
    /// The air cannot be: a humidity outside 0 to 1, no pressure left beside the water's.
    #[error("the barometer, temperature and humidity make no air: look at their units")]
    NoAir,
}

impl Standard {
    /// Every one.
    pub const ALL: [Self; 4] = [Self::SaeJ1349, Self::Iso1585, Self::StdJ607, Self::Din70020];

    /// Its name on a sheet.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::SaeJ1349 => "sae-j1349",
            Self::Iso1585 => "iso-1585",
            Self::StdJ607 => "std-j607",
            Self::Din70020 => "din-70020",
        }
    }
    /// The one of this name.
    #[must_use]
    pub fn by_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|s| s.id() == id)
    }
    /// Whether nobody keeps it any more.
    #[must_use]
    pub fn withdrawn(self) -> bool {
        matches!(self, Self::StdJ607 | Self::Din70020)
    }
    /// What it holds for; the withdrawn ones set no limits. From memory of SAE J1349 (2004) and ISO 1585:2020.
    #[must_use]
    pub fn validity(self) -> Option<Validity> {
        match self {
            Self::SaeJ1349 => {
                Some(Validity { factor: (0.93, 1.07), temperature: (288.15, 308.15), dry: (90e3, 105e3) })
            }
            Self::Iso1585 => Some(Validity { factor: (0.93, 1.07), temperature: (288.0, 308.0), dry: (80e3, 110e3) }),
            Self::StdJ607 | Self::Din70020 => None,
        }
    }

    /// Factor that a measured power is multiplied by; NaN for air that cannot be. It is computed outside of the
    /// standard's validity too: ask [`Self::valid`].
    #[must_use]
    pub fn factor(self, air: Air) -> f64 {
        // the standards count from 273, not from 273.15
        let kelvin = air.temperature - ICE + 273.0;
        match self {
            Self::SaeJ1349 => 1.18 * (99e3 / air.dry()) * (kelvin / 298.0).sqrt() - 0.18,
            Self::Iso1585 => iso_factor(air.dry(), kelvin, 99e3, 298.0),
            Self::StdJ607 => {
                let rankine = (air.temperature - ICE) * 1.8 + 32.0 + 460.0;
                29.92 * 3_386.389 / air.dry() * (rankine / 520.0).sqrt()
            }
            Self::Din70020 if air.barometer > 0.0 => 101_300.0 / air.barometer * (kelvin / 293.0).sqrt(),
            Self::Din70020 => f64::NAN,
        }
    }

    /// Whether the standard holds for this air.
    ///
    /// # Errors
    /// [`Invalid`]: the first of its limits that is passed.
    pub fn valid(self, air: Air) -> Result<(), Invalid> {
        let factor = self.factor(air);
        if !factor.is_finite() {
            return Err(Invalid::NoAir);
        }
        let Some(limits) = self.validity() else { return Ok(()) };
        // inclusive to one part in 10⁹: 35 °C from °F is a digit off
        let outside = |value: f64, (low, high): (f64, f64)| value < low * (1.0 - 1e-9) || value > high * (1.0 + 1e-9);
        if outside(factor, limits.factor) {
            return Err(Invalid::Factor { factor, low: limits.factor.0, high: limits.factor.1 });
        }
        if outside(air.temperature, limits.temperature) {
            let (low, high) = limits.temperature;
            return Err(Invalid::Temperature { kelvin: air.temperature, low, high });
        }
        let dry = air.dry();
        if outside(dry, limits.dry) {
            return Err(Invalid::Dry { pascal: dry, low: limits.dry.0, high: limits.dry.1 });
        }
        Ok(())
    }

    /// A measured power, W, corrected.
    #[must_use]
    pub fn correct(self, measured: f64, air: Air) -> Corrected {
        Corrected { power: measured * self.factor(air), standard: self }
    }
}

/// ISO 1585's atmospheric factor between any two airs: dry pressures in Pa, temperatures in K.
/// (reference over actual pressure)^1.2 (actual over reference temperature)^0.6; NaN unless all are greater than zero.
#[must_use]
pub fn iso_factor(dry: f64, kelvin: f64, reference_dry: f64, reference_kelvin: f64) -> f64 {
    if dry > 0.0 && kelvin > 0.0 && reference_dry > 0.0 && reference_kelvin > 0.0 {
        (reference_dry / dry).powf(1.2) * (kelvin / reference_kelvin).powf(0.6)
    } else {
        f64::NAN
    }
}

/// ISO 3046's ratio of indicated power for an engine that is limited by its air: actual over reference dry pressure to
/// the `m`, reference over actual temperature to the `n`.
#[must_use]
pub fn iso_3046_indicated(dry_ratio: f64, temperature_ratio: f64, m: f64, n: f64) -> f64 {
    if dry_ratio > 0.0 && temperature_ratio > 0.0 { dry_ratio.powf(m) * temperature_ratio.powf(n) } else { f64::NAN }
}

/// ISO 3046's ratio of brake power: `k` the ratio of indicated power, mechanical efficiency over 0 to 1.
#[must_use]
pub fn iso_3046_brake(k: f64, mechanical_efficiency: f64) -> f64 {
    if mechanical_efficiency > 0.0 { k - 0.7 * (1.0 - k) * (1.0 / mechanical_efficiency - 1.0) } else { f64::NAN }
}

/// Torque corrected with the friction known: only what the gas gives is corrected. All in N·m.
#[must_use]
pub fn corrected_with_friction(measured: f64, friction: f64, factor: f64) -> f64 {
    (measured + friction) * factor - friction
}

/// A power with the standard that it is corrected by.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Corrected {
    /// W.
    pub power: f64,
    /// By which.
    pub standard: Standard,
}

/// Two powers by different standards.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[error(
    "a power by {} is not compared with one by {}: correct both measured powers by one standard", .0.id(), .1.id()
)]
pub struct AcrossStandards(
    /// The one.
    pub Standard,
    /// The other.
    pub Standard,
);

impl Corrected {
    /// How much more this is than the other, W.
    ///
    /// # Errors
    /// [`AcrossStandards`] where they are corrected by different ones.
    pub fn over(self, other: Self) -> Result<f64, AcrossStandards> {
        if self.standard == other.standard {
            Ok(self.power - other.power)
        } else {
            Err(AcrossStandards(self.standard, other.standard))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const REFERENCE: Air = Air { barometer: 99e3, temperature: 298.15, humidity: 0.0 };

    #[test]
    fn each_standard_is_one_at_its_own_reference() {
        for (standard, air) in [
            (Standard::SaeJ1349, REFERENCE),
            (Standard::Iso1585, REFERENCE),
            (Standard::StdJ607, Air { barometer: 29.92 * 3_386.389, temperature: 273.15 + 28.0 / 1.8, humidity: 0.0 }),
            (Standard::Din70020, Air { barometer: 101_300.0, temperature: 293.15, humidity: 0.0 }),
        ] {
            assert!((standard.factor(air) - 1.0).abs() < 1e-12, "{standard:?}");
        }
    }

    #[test]
    fn thinner_warmer_wetter_air_is_corrected_upwards() {
        assert!((corrected_with_friction(100.0, 0.0, 1.05) - 105.0).abs() < 1e-12);
        for standard in Standard::ALL {
            let one = standard.factor(REFERENCE);
            assert!(standard.factor(Air { barometer: 95e3, ..REFERENCE }) > one);
            assert!(standard.factor(Air { temperature: 305.0, ..REFERENCE }) > one);
            let wet = standard.factor(Air { humidity: 0.8, ..REFERENCE });
            assert!(if standard == Standard::Din70020 { wet == one } else { wet > one });
        }
    }

    #[test]
    fn powers_by_different_standards_are_not_compared() {
        let air = Air { barometer: 98e3, temperature: 305.15, humidity: 0.5 };
        for a in Standard::ALL {
            for b in Standard::ALL {
                let over = a.correct(5e5, air).over(b.correct(4e5, air));
                assert_eq!(over.is_ok(), a == b);
                if a == b {
                    assert!((over.unwrap_or(f64::NAN) - 1e5 * a.factor(air)).abs() < 1e-6);
                }
            }
        }
        let said = AcrossStandards(Standard::SaeJ1349, Standard::StdJ607).to_string();
        assert_eq!(
            said,
            "a power by sae-j1349 is not compared with one by std-j607: correct both measured powers by one standard"
        );
    }

    #[test]
    fn a_standard_says_what_it_does_not_hold_for() {
        let valid = |air| Standard::SaeJ1349.valid(air);
        assert_eq!(valid(REFERENCE), Ok(()));
        assert!(matches!(valid(Air { barometer: 84e3, ..REFERENCE }), Err(Invalid::Factor { .. })));
        assert!(matches!(valid(Air { temperature: 310.0, ..REFERENCE }), Err(Invalid::Temperature { .. })));
        let cold = Air { barometer: 89.9e3, temperature: 288.15, humidity: 0.0 };
        assert!(matches!(valid(cold), Err(Invalid::Factor { .. })), "the factor is told first");
        assert_eq!(valid(Air { humidity: 1.1, ..REFERENCE }), Err(Invalid::NoAir));
        assert_eq!(Standard::StdJ607.valid(Air { barometer: 84e3, ..REFERENCE }), Ok(()));
    }

    #[test]
    fn vapour_pressure_rises_boils_at_the_atmosphere_and_ends_at_the_critical_point() {
        let points: Vec<f64> = (0..=373).map(|k| saturation_pressure(ICE + f64::from(k))).collect();
        assert!(points.iter().zip(points.iter().skip(1)).all(|(a, b)| a < b));
        // 99.974 °C at one atmosphere, IAPWS
        assert!((saturation_pressure(ICE + 99.974) / 101_325.0 - 1.0).abs() < 2e-5);
        assert!((saturation_pressure(WATER_CRITICAL) / 22.064e6 - 1.0).abs() < 1e-5);
        for t in [0.0, 273.0, 648.0, -1.0, 1e300, f64::MIN] {
            assert!(saturation_pressure(t).is_nan() && saturation_pressure_magnus(t).is_nan() || t == 273.0);
        }
        for t in 0..=60 {
            let (a, b) = (saturation_pressure(ICE + f64::from(t)), saturation_pressure_magnus(ICE + f64::from(t)));
            assert!((b / a - 1.0).abs() < 0.005, "{t}");
        }
    }
}
