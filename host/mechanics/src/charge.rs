//! The charge before it is trapped: pressed, cooled, and cooled by its own fuel.

use crate::gas::Gas;

/// Temperature after a compressor, K: inlet temperature in K, ratio of absolute pressures >= 1, isentropic efficiency
/// 0 to 1. Real heat capacity along the isentropic; Heywood 1988, section 6.8. NaN outside.
#[must_use]
pub fn compressed(air: &Gas, temperature: f64, ratio: f64, efficiency: f64) -> f64 {
    if ratio >= 1.0 && efficiency > 0.0 && efficiency <= 1.0 {
        let ideal = air.enthalpy(air.isentropic(temperature, ratio)) - air.enthalpy(temperature);
        // dh = cp dT; the heat capacity of air changes by a per cent over a compressor
        let mut rise = ideal / (efficiency * air.heat_capacity(temperature));
        for _ in 0..4 {
            let missing = ideal / efficiency - (air.enthalpy(temperature + rise) - air.enthalpy(temperature));
            rise += missing / air.heat_capacity(temperature + rise);
        }
        temperature + rise
    } else {
        f64::NAN
    }
}

/// Temperature after a cooler, K, from that before it, that of what cools it, and the cooler's effectiveness, 0 to 1:
/// the share of the difference that it takes away. Heywood 1988, section 6.8.
#[must_use]
pub fn cooled(hot: f64, coolant: f64, effectiveness: f64) -> f64 {
    hot - effectiveness * (hot - coolant)
}

/// What evaporating the fuel could cool the charge by, K, if all of it evaporated and all of the heat came from the
/// charge: heat of vaporisation in J/kg, fuel to air by mass, heat capacity of the charge in J/(kg K). An upper bound:
/// petrol comes near a third of it, and of methanol most stays liquid until the valve is shut.
#[must_use]
pub fn evaporation(heat: f64, fuel_to_air: f64, heat_capacity: f64) -> f64 {
    if heat_capacity > 0.0 { heat * fuel_to_air / ((1.0 + fuel_to_air) * heat_capacity) } else { f64::NAN }
}

/// Pressure of the air at a height above the sea, Pa; m, 0 to 11,000, else NaN. ISO 2533, standard atmosphere.
#[must_use]
pub fn air_at(height: f64) -> f64 {
    if (-1_000.0..=11_000.0).contains(&height) {
        101_325.0 * (1.0 - 0.0065 * height / 288.15).powf(9.806_65 / (0.0065 * 287.052_87))
    } else {
        f64::NAN
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::gas::air;

    #[test]
    fn a_perfect_compressor_is_isentropic_and_a_poor_one_hotter() {
        let air = air();
        for ratio in [1.0, 1.6, 2.5, 4.0] {
            let ideal = air.isentropic(298.0, ratio);
            assert!((compressed(&air, 298.0, ratio, 1.0) - ideal).abs() < 1e-6);
            assert!(ratio == 1.0 || compressed(&air, 298.0, ratio, 0.6) > ideal);
            // constant heat capacity, gamma 1.4, is near at these temperatures
            let plain = 298.0 * (1.0 + (ratio.powf(0.4 / 1.4) - 1.0) / 0.7);
            assert!((compressed(&air, 298.0, ratio, 0.7) / plain - 1.0).abs() < 6e-3);
        }
        assert!(compressed(&air, 298.0, 0.5, 0.7).is_nan() && compressed(&air, 298.0, 2.0, 0.0).is_nan());
    }

    #[test]
    fn a_cooler_stays_between_hot_and_cold() {
        assert_eq!(cooled(420.0, 300.0, 0.0), 420.0);
        assert_eq!(cooled(420.0, 300.0, 1.0), 300.0);
        assert!((cooled(420.0, 300.0, 0.7) - 336.0).abs() < 1e-9);
    }

    #[test]
    fn standard_heights() {
        assert!((air_at(0.0) - 101_325.0).abs() < 1e-9);
        // ISO 2533, table: 1000 m and 5000 m
        assert!((air_at(1_000.0) / 89_874.6 - 1.0).abs() < 1e-5);
        assert!((air_at(5_000.0) / 54_019.9 - 1.0).abs() < 1e-5);
    }
}
