//! Whether the last of the charge goes off by itself.
//!
//! Livengood and Wu 1955: the reactions before self-ignition add up, so that the charge goes off where the integral of
//! dt over the delay at that pressure and temperature reaches one. Delay of petrols by Douaud and Eyzat 1978 (SAE
//! 780080), fitted to octane numbers of 80 to 100; not for alcohols. Unburned gas is compressed without loss from inlet
//! closing. What is left out: hot spots, wall heat, swirl, and how lean or cool a chamber's corner is; such an integral
//! ranks one engine against another and is a few octane numbers off as an absolute figure (from memory).

use crate::cycle::Cycle;
use crate::gas::Gas;
use std::f64::consts::PI;
use std::ops::RangeInclusive;

/// Octane numbers that the delay was fitted to.
pub const CALIBRATED: RangeInclusive<f64> = 80.0..=100.0;
const STANDARD_ATMOSPHERE: f64 = 101_325.0;
const POWER: f64 = 3.402;

/// Delay before self-ignition, s: octane number > 0 (fitted to [`CALIBRATED`]), pressure in Pa, temperature in K of the
/// unburned charge. Douaud and Eyzat 1978; Heywood 1988, ch. 9.
#[must_use]
pub fn delay(octane: f64, pressure: f64, temperature: f64) -> f64 {
    17.68e-3
        * (octane / 100.0).powf(POWER)
        * (pressure / STANDARD_ATMOSPHERE).powf(-1.7)
        * (3_800.0 / temperature).exp()
}

/// Livengood and Wu's integral over states that are equally far apart in time: `step` in s, pressure in Pa and
/// temperature in K. By trapezoids.
#[must_use]
pub fn integral(octane: f64, step: f64, states: impl IntoIterator<Item = (f64, f64)>) -> f64 {
    let mut states = states.into_iter().map(|(p, t)| 1.0 / delay(octane, p, t));
    let Some(mut before) = states.next() else { return 0.0 };
    let mut sum = 0.0;
    for rate in states {
        sum += 0.5 * (before + rate);
        before = rate;
    }
    sum * step
}

/// The last of the charge to burn.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct EndGas {
    /// Greatest temperature before it is burned, K.
    pub temperature: f64,
    /// Pressure at that moment, Pa.
    pub pressure: f64,
    /// The integral to the end of the burn for a petrol of 100 octane.
    pub at_hundred: f64,
}

/// A number with how it lies to what the formula was fitted to.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Octane {
    /// Inside 80 to 100.
    Within(f64),
    /// Under 80: any pump petrol would do; the figure says no more than that.
    Below(f64),
    /// Over 100: more than the formula can say, and than a pump petrol has.
    Above(f64),
}

impl EndGas {
    /// Follows the unburned charge of a cycle from inlet closing to the end of the burn.
    ///
    /// `unburned` is the charge's gas and `temperature` its temperature at inlet closing, K; `burned_out` the crank
    /// angle of the end of the burn, rad after firing top dead centre; `speed` the crank's, rad/s, > 0. NaN where the
    /// gas leaves 200 to 6000 K.
    #[must_use]
    pub fn follow(cycle: &Cycle, unburned: &Gas, temperature: f64, burned_out: f64, speed: f64) -> Self {
        let step = PI / 180.0 / speed;
        let end = burned_out.min(cycle.opening);
        let start = cycle.closing_pressure;
        let mut found = Self { temperature, pressure: start, at_hundred: 0.0 };
        let mut before = 1.0 / delay(100.0, start, temperature);
        let mut at = cycle.closing;
        let mut warm = temperature;
        // the same points as the cycle's, whole degrees
        let first = (cycle.closing * 180.0 / PI).floor() + 1.0;
        for (n, pressure) in (0_u16..).zip(cycle.pressures()) {
            let degree = f64::from(n) - 360.0;
            let angle = degree * PI / 180.0;
            if degree < first || angle > end {
                continue;
            }
            warm = unburned.isentropic_from(temperature, pressure / start, warm);
            let rate = 1.0 / delay(100.0, *pressure, warm);
            found.at_hundred += 0.5 * (before + rate) * (angle - at) / (PI / 180.0) * step;
            (before, at) = (rate, angle);
            if warm > found.temperature || warm.is_nan() {
                (found.temperature, found.pressure) = (warm, *pressure);
            }
        }
        found
    }

    /// The integral for an octane number: one or more goes off by itself. The number should be in [`CALIBRATED`].
    #[must_use]
    pub fn integral(&self, octane: f64) -> f64 {
        self.at_hundred * (octane / 100.0).powf(-POWER)
    }

    /// The octane number whose integral is just one. The delay goes with a power of the number, so the root is a
    /// closed form.
    #[must_use]
    pub fn octane_needed(&self) -> Octane {
        let number = 100.0 * self.at_hundred.powf(1.0 / POWER);
        match number {
            n if n < *CALIBRATED.start() => Octane::Below(n),
            n if n > *CALIBRATED.end() => Octane::Above(n),
            n => Octane::Within(n),
        }
    }
}

/// Octane index: research less `k` of the difference to motor octane. Kalghatgi 2001 (SAE 2001-01-3584): half is the
/// mean on the pump, zero or less fits engines that press a cool charge.
#[must_use]
pub fn octane_index(research: f64, motor: f64, k: f64) -> f64 {
    research - k * (research - motor)
}

/// Pressure on the cranking gauge, Pa over the air outside: the effective compression to the power `exponent`, 1.15 to
/// 1.30 in practice for what leaks and cools; `air` in Pa absolute. To compare cylinders and builds, not a limit.
#[must_use]
pub fn cranking_pressure(air: f64, effective: f64, exponent: f64) -> f64 {
    air * (effective.powf(exponent) - 1.0)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;
    use crate::cycle::{Burn, Charge, Cylinder, Exchange, Friction, Setup, Walls};
    use crate::gas::Blend;
    use crate::kinematics::Slider;

    fn end_gas(ratio: f64, temperature: f64, half: f64, rpm: f64) -> EndGas {
        let (bore, slider) = (0.101_6, Slider::new(0.088_4, 0.1524));
        let fuel = Blend::PETROL;
        let degree = PI / 180.0;
        let setup = Setup {
            cylinder: Cylinder {
                bore,
                slider,
                clearance: crate::geometry::swept_volume(bore, slider.stroke()) / (ratio - 1.0),
                crevice: 0.0,
                inlet_closing: 60.0 * degree,
                exhaust_opening: 60.0 * degree,
            },
            charge: Charge { unburned: fuel.mixed(1.15), burned: fuel.burned(1.15), temperature },
            burn: Burn { half: half * degree, duration: 60.0 * degree, form: 2.0, efficiency: 0.96 },
            walls: Walls { temperature: 450.0, scale: 1.0 },
            exchange: Exchange { inlet: 1.0e5, exhaust: 1.1e5 },
            speed: rpm * PI / 30.0,
        };
        let cycle = setup.at_brake(10.0e5, &Friction::USUAL).unwrap();
        let out = setup.burn.start() + setup.burn.duration;
        EndGas::follow(&cycle, &setup.charge.unburned, temperature, out, setup.speed)
    }

    #[test]
    fn compression_heat_timing_and_slowness_ask_for_octane() {
        let plain = end_gas(10.0, 340.0, 8.0, 5000.0).at_hundred;
        assert!(end_gas(11.0, 340.0, 8.0, 5000.0).at_hundred > plain);
        assert!(end_gas(10.0, 360.0, 8.0, 5000.0).at_hundred > plain);
        assert!(end_gas(10.0, 340.0, 4.0, 5000.0).at_hundred > plain);
        assert!(end_gas(10.0, 340.0, 8.0, 3000.0).at_hundred > plain);
    }

    #[test]
    fn at_the_octane_it_needs_the_integral_is_one() {
        for ratio in [8.0, 10.0, 13.0] {
            let gas = end_gas(ratio, 340.0, 8.0, 5000.0);
            let (Octane::Within(n) | Octane::Below(n) | Octane::Above(n)) = gas.octane_needed();
            assert!((gas.integral(n) - 1.0).abs() < 1e-12);
            assert!(gas.integral(n + 2.0) < 1.0);
        }
    }

    #[test]
    fn more_octane_waits_longer_and_pressure_and_heat_shorten_it() {
        assert!(delay(95.0, 4e6, 850.0) > delay(90.0, 4e6, 850.0));
        assert!(delay(95.0, 5e6, 850.0) < delay(95.0, 4e6, 850.0));
        assert!(delay(95.0, 4e6, 900.0) < delay(95.0, 4e6, 850.0));
        assert_eq!(integral(95.0, 1e-3, []), 0.0);
        let steady = integral(95.0, 1e-4, std::iter::repeat_n((4e6, 850.0), 11));
        assert!((steady - 1e-3 / delay(95.0, 4e6, 850.0)).abs() < 1e-12);
    }

    #[test]
    fn the_index_is_the_pump_mean_at_half() {
        assert!((octane_index(98.0, 88.0, 0.5) - 93.0).abs() < 1e-12);
        assert!((octane_index(98.0, 88.0, 0.0) - 98.0).abs() < 1e-12);
    }
}
