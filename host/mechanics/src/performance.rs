//! What an engine is asked to give, against its size.

use std::f64::consts::PI;

/// Torque, N·m, of a power in W at a crank speed in rad/s; NaN unless the speed is greater than zero.
#[must_use]
pub fn torque(power: f64, omega: f64) -> f64 {
    if omega > 0.0 { power / omega } else { f64::NAN }
}

/// Brake mean effective pressure of a four-stroke, Pa: torque in N·m, displacement in m³, NaN unless that is greater
/// than zero. Heywood 1988, eq. 2.19 and 2.20.
#[must_use]
pub fn bmep(torque: f64, displacement: f64) -> f64 {
    if displacement > 0.0 { 4.0 * PI * torque / displacement } else { f64::NAN }
}

/// Power for the displacement, W/m³.
#[must_use]
pub fn specific_power(power: f64, displacement: f64) -> f64 {
    if displacement > 0.0 { power / displacement } else { f64::NAN }
}

/// Speed of sound in air, m/s, at a temperature in K: sqrt(1.4 * 287.05 * T).
#[must_use]
pub fn speed_of_sound(temperature: f64) -> f64 {
    (1.4 * 287.05 * temperature).sqrt()
}

/// Inlet Mach index Z = (b/D)² s / (Ci a): bore and (one) inlet valve's diameter in m, mean piston speed and speed of
/// sound in m/s, Ci the mean flow coefficient of the valve, `valves` inlets a cylinder. Volumetric efficiency falls off
/// past 0.5 to 0.6. Taylor, The Internal-Combustion Engine in Theory and Practice, vol. 1, ch. 6.
#[must_use]
pub fn mach_index(bore: f64, valve: f64, valves: f64, mean_piston_speed: f64, flow: f64, sound: f64) -> f64 {
    let area = valves * valve * valve * flow * sound;
    if area > 0.0 { bore * bore * mean_piston_speed / area } else { f64::NAN }
}

/// Curtain area of an open valve, m²: pi D L.
#[must_use]
pub fn curtain(valve: f64, lift: f64) -> f64 {
    PI * valve * lift
}
