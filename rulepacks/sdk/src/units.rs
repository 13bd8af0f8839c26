//! The trade's numbers in SI.

use thou_contract::factor;

/// Inches to metres.
pub const fn inches(x: f64) -> f64 {
    x * factor::INCH
}
/// Thousandths of an inch to metres.
pub const fn thou(x: f64) -> f64 {
    x * factor::THOU
}
/// Millimetres to metres.
pub const fn mm(x: f64) -> f64 {
    x * 1e-3
}
/// Microinches to metres.
pub const fn microinches(x: f64) -> f64 {
    x * 2.54e-8
}
/// Cubic centimetres to cubic metres.
pub const fn cc(x: f64) -> f64 {
    x * 1e-6
}
/// Revolutions a minute to radians a second.
pub const fn rpm(x: f64) -> f64 {
    x * factor::RPM
}
/// Degrees to radians.
pub const fn degrees(x: f64) -> f64 {
    x * factor::DEGREE
}
/// Pounds-force to newtons.
pub const fn pounds(x: f64) -> f64 {
    x * factor::POUND_FORCE
}
/// Pounds-force a square inch to pascals.
pub const fn psi(x: f64) -> f64 {
    x * factor::PSI
}
/// Conventional inches of mercury to pascals.
pub const fn inches_of_mercury(x: f64) -> f64 {
    x * factor::INCH_OF_MERCURY
}
/// Horsepower (550 ft lbf/s) to watts.
pub const fn hp(x: f64) -> f64 {
    x * factor::HORSEPOWER
}
/// Grams to kilograms.
pub const fn grams(x: f64) -> f64 {
    x * 1e-3
}
/// Feet a minute to metres a second.
pub const fn feet_a_minute(x: f64) -> f64 {
    x * (factor::FOOT / 60.0)
}
/// Ounce-inches to kilogram-metres.
pub const fn ounce_inches(x: f64) -> f64 {
    x * factor::OUNCE_INCH
}
/// Per cent to a share of one.
pub const fn percent(x: f64) -> f64 {
    x * 0.01
}
/// Degrees Celsius to kelvin.
pub const fn celsius(x: f64) -> f64 {
    x + 273.15
}
/// Degrees Fahrenheit to kelvin.
pub const fn fahrenheit(x: f64) -> f64 {
    (x + 459.67) * (5.0 / 9.0)
}
/// Months to seconds, a year of 365.25 days.
pub const fn months(x: f64) -> f64 {
    x * factor::MONTH
}
/// Miles to metres.
pub const fn miles(x: f64) -> f64 {
    x * factor::MILE
}
/// US quarts to cubic metres.
pub const fn quarts(x: f64) -> f64 {
    x * (factor::GALLON / 4.0)
}
