//! Wear that goes with the distance slid: worn volume = k load distance/hardness. Archard, J. Applied Physics 24 (1953) 981.
//!
//! The coefficient k spans orders of magnitude (1e-8 for a filmed ring, 1e-4 and more dry) and is nobody's to know
//! beforehand: find it on one engine, then compare duties by distance and load.

use crate::Outside;
use std::f64::consts::{PI, TAU};

/// Volume worn off, m³: coefficient (one), load in N, distance in m, hardness of the softer in Pa.
///
/// # Errors
/// [`Outside`] for a hardness that is not greater than zero.
pub fn volume(coefficient: f64, load: f64, distance: f64, hardness: f64) -> Result<f64, Outside> {
    Outside::unless_positive("the hardness", hardness)?;
    Ok(coefficient * load * distance / hardness)
}

/// Depth worn off where the load is spread to a pressure in Pa, m.
///
/// # Errors
/// As [`volume`].
pub fn depth(coefficient: f64, pressure: f64, distance: f64, hardness: f64) -> Result<f64, Outside> {
    volume(coefficient, pressure, distance, hardness)
}

/// The coefficient that a measured depth tells: [`depth`] turned round. One.
///
/// # Errors
/// [`Outside`] for a pressure or a distance that is not greater than zero.
pub fn coefficient(depth: f64, pressure: f64, distance: f64, hardness: f64) -> Result<f64, Outside> {
    Outside::unless_positive("the pressure", pressure)?;
    Outside::unless_positive("the distance", distance)?;
    Ok(depth * hardness / (pressure * distance))
}

/// Distance that a ring slides in some turns of the crank, m: the stroke in m down and up again each turn.
#[must_use]
pub fn ring_travel(stroke: f64, turns: f64) -> f64 {
    2.0 * stroke * turns
}

/// Way that a journal's surface slides, m: its diameter in m, once round a turn.
#[must_use]
pub fn journal_way(diameter: f64, turns: f64) -> f64 {
    PI * diameter * turns
}

/// Ring distance of a duty, m: segments of `[time, speed]` in s and rad/s.
#[must_use]
pub fn ring_travel_of(stroke: f64, duty: &[[f64; 2]]) -> f64 {
    ring_travel(stroke, duty.iter().fold(0.0, |sum, [time, speed]| sum + time * speed / TAU))
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn wear_goes_with_load_and_way_and_against_hardness() {
        let one = volume(1e-7, 100.0, 1_000.0, 2e9).unwrap();
        assert!((one - 5e-12).abs() < 1e-24);
        assert!((volume(1e-7, 200.0, 1_000.0, 2e9).unwrap() / one - 2.0).abs() < 1e-12);
        assert!((volume(1e-7, 100.0, 3_000.0, 2e9).unwrap() / one - 3.0).abs() < 1e-12);
        assert!((volume(1e-7, 100.0, 1_000.0, 4e9).unwrap() / one - 0.5).abs() < 1e-12);
        let worn = depth(3e-8, 2e5, 5e5, 2.2e9).unwrap();
        assert!((coefficient(worn, 2e5, 5e5, 2.2e9).unwrap() / 3e-8 - 1.0).abs() < 1e-12);
        assert!(volume(1e-7, 1.0, 1.0, 0.0).is_err() && coefficient(1.0, 0.0, 1.0, 1.0).is_err());
        assert!(coefficient(1.0, 1.0, f64::NAN, 1.0).is_err());
    }

    #[test]
    fn a_duty_is_the_sum_of_its_segments() {
        let duty = [[7.5, 733.0], [8.0, 576.0], [120.0, 146.6]];
        let parts: f64 = duty.iter().map(|d| ring_travel_of(0.0884, &[*d])).sum();
        assert!((ring_travel_of(0.0884, &duty) - parts).abs() < 1e-9);
        // mean piston speed by time is the same distance
        assert!(
            (ring_travel_of(0.0884, &[[7.5, 733.0]]) - 7.5 * crate::kinematics::mean_speed(0.0884, 733.0)).abs() < 1e-9
        );
        assert!((journal_way(0.05, 2.0) - 0.1 * PI).abs() < 1e-15);
    }
}
