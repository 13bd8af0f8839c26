//! Fuel that a power needs, and the usual figures of fuels.

/// A fuel of the trade.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fuel {
    /// Petrol, pump or race.
    Petrol,
    /// 51 to 83 % ethanol in petrol, as pumps sell it.
    E85,
    /// Ethanol.
    Ethanol,
    /// Methanol.
    Methanol,
}

const LB_PER_HP_H: f64 = 0.453_592_37 / (745.699_871_582_270_2 * 3_600.0);
const LB_PER_GALLON: f64 = 0.453_592_37 / 3.785_411_784e-3;

/// Whose figures [`usual_consumption`] are.
pub const CONSUMPTION_SOURCE: &str = "brake specific consumption at full load; common practice, no source";
/// Whose figures [`density`] are.
pub const DENSITY_SOURCE: &str = "US Department of Energy, Alternative Fuels Data Center, fuel properties";

/// Usual brake specific consumption at full load, low and high, kg/J; `boosted` with a turbocharger, a blower or
/// nitrous. The need is usually taken at the middle. The ratio of ethanol to E85 is that of their heating values.
#[must_use]
pub fn usual_consumption(fuel: Fuel, boosted: bool) -> (f64, f64) {
    let (low, high) = match (fuel, boosted) {
        (Fuel::Petrol, false) => (0.45, 0.50),
        (Fuel::Petrol, true) => (0.55, 0.65),
        (Fuel::E85, false) => (0.60, 0.70),
        (Fuel::E85, true) => (0.70, 0.80),
        (Fuel::Ethanol, false) => (0.65, 0.75),
        (Fuel::Ethanol, true) => (0.75, 0.90),
        (Fuel::Methanol, false) => (0.90, 1.10),
        (Fuel::Methanol, true) => (1.00, 1.20),
    };
    (low * LB_PER_HP_H, high * LB_PER_HP_H)
}

/// Density near 15 °C, low and high, kg/m³.
#[must_use]
pub fn density(fuel: Fuel) -> (f64, f64) {
    let (low, high) = match fuel {
        Fuel::Petrol => (6.0, 6.5),
        Fuel::E85 => (6.5, 6.6),
        Fuel::Ethanol => (6.61, 6.61),
        Fuel::Methanol => (6.63, 6.63),
    };
    (low * LB_PER_GALLON, high * LB_PER_GALLON)
}

/// Fuel that a power needs, kg/s: power in W, specific consumption in kg/J.
#[must_use]
pub fn need(power: f64, consumption: f64) -> f64 {
    power * consumption
}

/// How many times the need a pump delivers; flows in the same unit, NaN unless the need is greater than zero.
#[must_use]
pub fn margin(delivers: f64, need: f64) -> f64 {
    if need > 0.0 { delivers / need } else { f64::NAN }
}
