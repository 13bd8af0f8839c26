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

/// Torque, N·m, at a crank speed in rad/s, of an engine that has its greatest torque at one speed and its greatest power
/// at a higher one: each given as speed and torque there. The cubic that has both values and both slopes, which are no
/// freedom of anybody's: zero at the greatest torque, -T/w where T w is greatest (Fritsch and Carlson, SIAM J. Numerical
/// Analysis 17 (1980) 238, for the form); past the power the straight line of that slope. NaN below the one and over 1.1
/// times the other, where nothing is known, where the two are not in that order, and where they contradict each other:
/// the torque would have to rise over 1 % above its greatest on the way.
#[must_use]
pub fn torque_between(omega: f64, torque: [f64; 2], power: [f64; 2]) -> f64 {
    let ([from, most], [to, last]) = (torque, power);
    if !(0.0 < from && from < to && from <= omega && omega <= 1.1 * to && 0.0 < last && last <= most) {
        return f64::NAN;
    }
    let slope = -last / to;
    let (fall, turn) = (last - most, (to - from) * slope);
    // where the cubic is level once more: between the two only where the last slope is over three times the mean one
    let level = (2.0 * turn - 6.0 * fall) / (3.0 * turn - 6.0 * fall);
    let of = |s: f64| most + fall * s * s * (3.0 - 2.0 * s) + turn * s * s * (s - 1.0);
    if turn < 3.0 * fall && of(level) > 1.01 * most {
        return f64::NAN;
    }
    if omega >= to {
        return last + slope * (omega - to);
    }
    of((omega - from) / (to - from))
}

/// How much longer a run from a standstill takes, as a ratio, with the power so many times as great and the mass so many
/// times as great: (mass/power)^(1/3), as for a constant power all the way. Fox, American Journal of Physics 41 (1973) 311,
/// which bears out Huntington's rule of 1958 from timed cars. Neither the tires' grip nor the wind nor the gears are in it.
/// NaN unless both are greater than zero.
#[must_use]
pub fn run_time_ratio(power: f64, mass: f64) -> f64 {
    if power > 0.0 && mass > 0.0 { (mass / power).cbrt() } else { f64::NAN }
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

#[cfg(test)]
mod tests {
    use super::torque_between;

    #[test]
    fn torque_has_both_peaks_where_they_are_said_to_be() {
        let (at_torque, at_power) = ([586.4, 793.0], [733.0, 712.0]);
        let of = |omega: f64| torque_between(omega, at_torque, at_power);
        assert!((of(586.4) - 793.0).abs() < 1e-9 && (of(733.0) - 712.0).abs() < 1e-9);
        let mut before = of(586.4);
        for tenth in 5_865..=8_063 {
            let omega = f64::from(tenth) / 10.0;
            assert!(of(omega) < before, "{omega}");
            before = of(omega);
            assert!(omega * of(omega) <= 733.0 * 712.0 + 1e-6, "{omega}");
        }
        for omega in [586.0, 810.0, 0.0, -5.0, f64::NAN, f64::INFINITY] {
            assert!(of(omega).is_nan(), "{omega}");
        }
        // a hair over the greatest is a figure that was rounded, and more a contradiction; never the other way round
        let hair = torque_between(640.0, [586.4, 740.0], [733.0, 712.0]);
        assert!(hair > 740.0 && hair < 747.4, "{hair}");
        assert!(torque_between(650.0, [586.4, 713.0], [733.0, 712.0]).is_nan());
        assert!(torque_between(650.0, [733.0, 712.0], [586.4, 793.0]).is_nan());
        assert!(torque_between(650.0, [586.4, 700.0], [733.0, 712.0]).is_nan());
    }
}
