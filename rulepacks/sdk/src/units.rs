//! The trade's numbers in SI. Factors: NIST SP 811 (2008), B.8.

/// Inches to metres.
pub const fn inches(x: f64) -> f64 {
    x * 0.0254
}
/// Thousandths of an inch to metres.
pub const fn thou(x: f64) -> f64 {
    x * 2.54e-5
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
    x * (std::f64::consts::PI / 30.0)
}
/// Degrees to radians.
pub const fn degrees(x: f64) -> f64 {
    x * (std::f64::consts::PI / 180.0)
}
/// Pounds-force to newtons.
pub const fn pounds(x: f64) -> f64 {
    x * 4.448_221_615_260_5
}
/// Pounds-force a square inch to pascals.
pub const fn psi(x: f64) -> f64 {
    x * 6_894.757_293_168_361
}
/// Conventional inches of mercury to pascals.
pub const fn inches_of_mercury(x: f64) -> f64 {
    x * 3_386.389
}
/// Horsepower (550 ft lbf/s) to watts.
pub const fn hp(x: f64) -> f64 {
    x * 745.699_871_582_270_2
}
/// Grams to kilograms.
pub const fn grams(x: f64) -> f64 {
    x * 1e-3
}
/// Feet a minute to metres a second.
pub const fn feet_a_minute(x: f64) -> f64 {
    x * (0.3048 / 60.0)
}
/// Ounce-inches to kilogram-metres.
pub const fn ounce_inches(x: f64) -> f64 {
    x * 7.200_778_892_9e-4
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
    x * (365.25 * 86_400.0 / 12.0)
}
/// Miles to metres.
pub const fn miles(x: f64) -> f64 {
    x * 1_609.344
}
/// US quarts to cubic metres.
pub const fn quarts(x: f64) -> f64 {
    x * 9.463_529_46e-4
}
