//! The trade's units in SI, from their exact definitions: NIST SP 811 (2008), appendix B.8, where nothing else is said.

/// An inch, m.
pub const INCH: f64 = 0.0254;
/// A thousandth of an inch, m.
pub const THOU: f64 = 2.54e-5;
/// A foot of 12 inches, m.
pub const FOOT: f64 = 0.3048;
/// A mile of 5,280 feet, m.
pub const MILE: f64 = 1_609.344;
/// A pound, kg.
pub const POUND: f64 = 0.453_592_37;
/// An ounce, kg.
pub const OUNCE: f64 = POUND / 16.0;
/// Standard gravity, m/s².
pub const GRAVITY: f64 = 9.806_65;
/// A pound-force, N.
pub const POUND_FORCE: f64 = POUND * GRAVITY;
/// A pound-force a square inch, Pa.
pub const PSI: f64 = POUND_FORCE / (INCH * INCH);
/// A conventional inch of mercury, Pa.
pub const INCH_OF_MERCURY: f64 = 3_386.389;
/// A horsepower of 550 ft lbf/s, W.
pub const HORSEPOWER: f64 = 550.0 * FOOT * POUND_FORCE;
/// A US gallon of 231 cubic inches, m³.
pub const GALLON: f64 = 3.785_411_784e-3;
/// An ounce-inch of unbalance, kg m.
pub const OUNCE_INCH: f64 = OUNCE * INCH;
/// A revolution a minute, rad/s.
pub const RPM: f64 = std::f64::consts::PI / 30.0;
/// A degree, rad.
pub const DEGREE: f64 = std::f64::consts::PI / 180.0;
/// A day, s.
pub const DAY: f64 = 86_400.0;
/// A year of 365.25 days, s.
pub const YEAR: f64 = 365.25 * DAY;
/// A month, a twelfth of it, s.
pub const MONTH: f64 = YEAR / 12.0;

#[cfg(test)]
mod tests {
    use super::*;

    /// The figures that the appendix prints, and what the exact ones are defined by.
    #[test]
    fn the_factors_are_those_of_the_appendix() {
        let printed = [
            (12.0 * INCH, FOOT, 1e-15),
            (5_280.0 * FOOT, MILE, 1e-15),
            (231.0 * INCH * INCH * INCH, GALLON, 1e-15),
            (OUNCE, 2.834_952e-2, 2e-7),
            (POUND_FORCE, 4.448_221_615_260_5, 1e-15),
            (PSI, 6.894_757e3, 1e-7),
            (HORSEPOWER, 7.456_999e2, 1e-7),
            (GALLON, 3.785_412e-3, 1e-7),
            (RPM, 1.047_198e-1, 5e-6),
            (DEGREE, 1.745_329e-2, 5e-7),
        ];
        for (factor, said, near) in printed {
            assert!((factor / said - 1.0).abs() < near, "{factor} for {said}");
        }
        // 0.45359237/16 of 0.0254, worked out by hand
        assert!((OUNCE_INCH / 7.200_778_873_75e-4 - 1.0).abs() < 1e-15);
    }
}
