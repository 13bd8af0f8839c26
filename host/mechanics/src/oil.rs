//! How thick an oil is: between its two stated temperatures, by a bearing designer's table, and under shear.
//!
//! Kinematic viscosities in m²/s (1 mm²/s = 1e-6), dynamic ones in Pa s (1 mPa s = 1e-3), temperatures in K. What a
//! grade promises is in `oil_grade`.

use crate::Outside;

/// Celsius to kelvin.
const ZERO_CELSIUS: f64 = 273.15;

/// Walther's line through two viscosities: log10 log10(v + 0.7) = a - b log10 T, v in mm²/s, T in K. ASTM D341 (2020);
/// McCoull and Walther. Good between the temperatures it was made from, fair some 30 K outside them, never below the
/// cloud point or above boiling.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Walther {
    /// Intercept.
    pub a: f64,
    /// Slope.
    pub b: f64,
}

impl Walther {
    /// Thinnest oil that the line holds for, m²/s: below it ASTM D341 has further terms.
    pub const THINNEST: f64 = 2e-6;
    /// Thickest, m²/s.
    pub const THICKEST: f64 = 20.0;

    /// Through a kinematic viscosity in m²/s at a temperature in K and another at another.
    ///
    /// # Errors
    /// [`Outside::NotPositive`] for a temperature or viscosity that is not greater than zero, or for two equal
    /// temperatures; the viscosities are held to the range of the line when they are asked for, not here.
    pub fn through(cold: (f64, f64), hot: (f64, f64)) -> Result<Self, Outside> {
        for (temperature, viscosity) in [cold, hot] {
            positive("an oil's temperature", temperature)?;
            // Walther's double logarithm needs more than 0.3 mm²/s; the line itself needs 2
            positive("an oil's viscosity over 0.3 mm²/s", viscosity * 1e6 - 0.3)?;
        }
        let span = hot.0.log10() - cold.0.log10();
        positive("the difference of an oil's two temperatures", span.abs())?;
        let (wc, wh) = (double(cold.1), double(hot.1));
        let b = (wc - wh) / span;
        Ok(Self { a: wc + b * cold.0.log10(), b })
    }

    /// Kinematic viscosity in m²/s at a temperature in K. NaN where it would be under 2 mm²/s or over 2e7 mm²/s.
    #[must_use]
    pub fn viscosity(self, temperature: f64) -> f64 {
        let v = (10_f64.powf(10_f64.powf(self.a - self.b * temperature.log10())) - 0.7) * 1e-6;
        if (Self::THINNEST..=Self::THICKEST).contains(&v) { v } else { f64::NAN }
    }
}

fn double(viscosity: f64) -> f64 {
    (viscosity * 1e6 + 0.7).log10().log10()
}

fn positive(what: &'static str, value: f64) -> Result<(), Outside> {
    if value > 0.0 && value.is_finite() { Ok(()) } else { Err(Outside::NotPositive { what, value }) }
}

/// Vogel's form as bearing designers print it: mu = mu0 exp(b / (T + 95)), T in °F, for a mineral oil of one grade.
/// Seireg and Dandage, J. Lubrication Technology 104 (1982), as Shigley's Mechanical Engineering Design
/// prints it for SAE 10 to 60; fitted for about 20 to 140 °C.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Vogel {
    /// Grade, SAE number.
    pub grade: u8,
    /// Viscosity factor, Pa s.
    pub mu0: f64,
    /// Temperature factor, °F.
    pub b: f64,
}

/// Pa s in one reyn (lbf s/in²).
const REYN: f64 = 6_894.757_293_168_361;

/// The six oils of the table.
pub const VOGEL: [Vogel; 6] = [
    Vogel { grade: 10, mu0: 0.015_8e-6 * REYN, b: 1_157.5 },
    Vogel { grade: 20, mu0: 0.013_6e-6 * REYN, b: 1_271.6 },
    Vogel { grade: 30, mu0: 0.014_1e-6 * REYN, b: 1_360.0 },
    Vogel { grade: 40, mu0: 0.012_1e-6 * REYN, b: 1_474.4 },
    Vogel { grade: 50, mu0: 0.017_0e-6 * REYN, b: 1_509.6 },
    Vogel { grade: 60, mu0: 0.018_7e-6 * REYN, b: 1_564.0 },
];

impl Vogel {
    /// The oil of a grade.
    #[must_use]
    pub fn of(grade: u8) -> Option<Self> {
        VOGEL.into_iter().find(|v| v.grade == grade)
    }

    /// Dynamic viscosity in Pa s at a temperature in K. NaN at and below -95 °F, where the form has its pole.
    #[must_use]
    pub fn viscosity(self, temperature: f64) -> f64 {
        let over_pole = (temperature - ZERO_CELSIUS) * 1.8 + 32.0 + 95.0;
        if over_pole > 0.0 { self.mu0 * (self.b / over_pole).exp() } else { f64::NAN }
    }
}

/// Density at a temperature in K of a mineral oil that weighs `at_fifteen` kg/m³ at 15 °C: 0.065 % less a kelvin, which
/// stands in for the tables of ASTM D1250; from memory, within 0.5 % from 0 to 150 °C. NaN where nothing would be left.
#[must_use]
pub fn density(at_fifteen: f64, temperature: f64) -> f64 {
    let left = 1.0 - 0.000_65 * (temperature - ZERO_CELSIUS - 15.0);
    if left > 0.0 { at_fifteen * left } else { f64::NAN }
}

/// Dynamic viscosity, Pa s: kinematic in m²/s by density in kg/m³.
#[must_use]
pub fn dynamic(kinematic: f64, density: f64) -> f64 {
    kinematic * density
}

/// An oil as its data sheet tells it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Oil {
    /// Its line over temperature.
    pub line: Walther,
    /// Density at 15 °C, kg/m³.
    pub density: f64,
    /// Dynamic viscosity at 150 °C and 1e6 1/s (ASTM D4683), Pa s.
    pub high_shear: f64,
}

impl Oil {
    /// Dynamic viscosity in Pa s at a temperature in K where nothing shears it.
    #[must_use]
    pub fn at_rest(self, temperature: f64) -> f64 {
        dynamic(self.line.viscosity(temperature), density(self.density, temperature))
    }

    /// How much of its viscosity is left in a bearing: high shear over rest at 150 °C, one at the most. A multigrade
    /// oil loses 15 to 40 %, a monograde next to nothing.
    #[must_use]
    pub fn left_under_shear(self) -> f64 {
        (self.high_shear / self.at_rest(150.0 + ZERO_CELSIUS)).min(1.0)
    }

    /// Dynamic viscosity in Pa s in a bearing whose film is at a temperature in K: that at rest, less what shear takes
    /// from it at 150 °C. That the share is the same at every temperature is an assumption (the polymer's second
    /// Newtonian plateau), good to about 10 % from 80 to 150 °C.
    #[must_use]
    pub fn in_a_bearing(self, temperature: f64) -> f64 {
        self.at_rest(temperature) * self.left_under_shear()
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn every_oil_is_thinner_warm_and_its_line_goes_through_what_made_it() {
        let line = Walther::through((313.15, 101e-6), (373.15, 14.3e-6)).unwrap();
        assert!((line.viscosity(313.15) / 101e-6 - 1.0).abs() < 1e-12);
        assert!((line.viscosity(373.15) / 14.3e-6 - 1.0).abs() < 1e-12);
        let mut before = f64::INFINITY;
        for t in 280..430 {
            let v = line.viscosity(f64::from(t));
            assert!(v < before);
            before = v;
            for pair in VOGEL.windows(2) {
                let (thin, thick) = (pair.first().unwrap(), pair.last().unwrap());
                assert!(thin.viscosity(f64::from(t)) < thick.viscosity(f64::from(t)), "{t} {thin:?}");
            }
        }
    }

    #[test]
    fn what_made_the_line_can_be_told_in_either_order() {
        let (cold, hot) = ((313.15, 32e-6), (373.15, 5.4e-6));
        let (one, other) = (Walther::through(cold, hot).unwrap(), Walther::through(hot, cold).unwrap());
        assert!((one.a - other.a).abs() < 1e-9 && (one.b - other.b).abs() < 1e-9);
    }

    #[test]
    fn outside_its_range_the_line_says_nothing() {
        let line = Walther::through((313.15, 32e-6), (373.15, 5.4e-6)).unwrap();
        assert!(line.viscosity(450.0).is_nan() && line.viscosity(0.0).is_nan() && line.viscosity(-3.0).is_nan());
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(Walther::through((bad, 32e-6), (373.15, 5.4e-6)).is_err());
            assert!(Walther::through((313.15, bad), (373.15, 5.4e-6)).is_err());
        }
        assert!(Walther::through((373.15, 32e-6), (373.15, 5.4e-6)).is_err());
    }

    #[test]
    fn shear_never_thickens() {
        let line = Walther::through((313.15, 160e-6), (373.15, 18e-6)).unwrap();
        let oil = |high_shear| Oil { line, density: 880.0, high_shear };
        assert!((0.7..1.0).contains(&oil(5.0e-3).left_under_shear()));
        assert!((oil(9.0e-3).left_under_shear() - 1.0).abs() < 1e-15);
        assert!(oil(5.0e-3).in_a_bearing(393.15) < oil(5.0e-3).at_rest(393.15));
    }
}
