//! The standard atmosphere up to 11 km, ISO 2533:1975, which is ICAO's and there the U.S. one of 1976: 288.15 K and
//! 101,325 Pa at sea level, 6.5 K colder each km.

/// Temperature at sea level, K.
const TEMPERATURE: f64 = 288.15;
/// Fall of the temperature, K/m.
const LAPSE: f64 = 6.5e-3;
/// Gas constant of dry air, J/(kg·K), as ISO 2533 has it.
pub const AIR_CONSTANT: f64 = 287.052_87;
/// Standard gravity, m/s².
const GRAVITY: f64 = 9.806_65;
/// Density at sea level, kg/m³.
pub const DENSITY: f64 = 101_325.0 / (AIR_CONSTANT * TEMPERATURE);
/// Where the formula ends, m.
const RANGE: std::ops::RangeInclusive<f64> = -5_000.0..=11_000.0;

/// Power of the temperature that the density goes with.
const EXPONENT: f64 = GRAVITY / (AIR_CONSTANT * LAPSE) - 1.0;

/// Density, kg/m³, at a geopotential altitude in m from -5,000 to 11,000; NaN outside.
#[must_use]
pub fn density(altitude: f64) -> f64 {
    if RANGE.contains(&altitude) { DENSITY * (1.0 - LAPSE * altitude / TEMPERATURE).powf(EXPONENT) } else { f64::NAN }
}

/// Density altitude, m: where the standard atmosphere has this density, kg/m³; NaN outside of its range.
#[must_use]
pub fn density_altitude(density: f64) -> f64 {
    let altitude = TEMPERATURE / LAPSE * (1.0 - (density / DENSITY).powf(EXPONENT.recip()));
    if density > 0.0 && RANGE.contains(&altitude) { altitude } else { f64::NAN }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dyno_air::Air;

    // U.S. Standard Atmosphere 1976, table IV, to four digits, from memory; PyPI's fluids has the rest in tests/crosscheck
    #[test]
    fn the_table_of_the_standard() {
        for (altitude, wanted) in
            [(-1_000.0, 1.347), (0.0, 1.225), (1_000.0, 1.112), (2_000.0, 1.007), (3_000.0, 0.9093), (4_000.0, 0.8194)]
        {
            assert!((density(altitude) / wanted - 1.0).abs() < 6e-4, "{altitude}");
            assert!((density_altitude(density(altitude)) - altitude).abs() < 1e-6, "{altitude}");
        }
        assert!(density(11_001.0).is_nan() && density_altitude(-1.0).is_nan() && density_altitude(0.1).is_nan());
    }

    // The U.S. National Weather Service's formula (4wx.com and weather.gov, "Density Altitude"): Tv = T/(1 - e/P 0.378),
    // 145366 ft (1 - (17.326 P/Tr)^0.235), e = 6.11 10^(7.5 Td/(237.7 + Td)) mbar. It rounds its own exponent: within 15 m.
    #[test]
    fn the_weather_services_formula() {
        for (celsius, millibar, humidity) in
            [(15.0, 1_013.25, 0.0), (35.0, 980.0, 0.6), (5.0, 1_025.0, 0.9), (30.0, 840.0, 0.2)]
        {
            let air = Air { barometer: millibar * 100.0, temperature: celsius + 273.15, humidity };
            let e = humidity * 6.11 * 10_f64.powf(7.5 * celsius / (237.7 + celsius));
            let virtual_kelvin = (celsius + 273.15) / (1.0 - e / millibar * (1.0 - 0.622));
            let rankine = 1.8 * (virtual_kelvin - 273.15) + 32.0 + 459.69;
            let inches = millibar * 100.0 / 3_386.389;
            let feet = 145_366.0 * (1.0 - (17.326 * inches / rankine).powf(0.235));
            let ours = density_altitude(air.density());
            assert!((ours - feet * 0.304_8).abs() < 15.0, "{celsius}: {ours}, theirs {}", feet * 0.304_8);
        }
    }
}
