//! Flow through ports and valves: orifices up to choking, the least area of an open valve, and what a speed asks of it.

use crate::Outside;
use crate::performance::mach_index;
use std::f64::consts::PI;

/// Gas constant of dry air, J/(kg·K).
pub const AIR_CONSTANT: f64 = 287.05;
/// Ratio of the heat capacities of air near room temperature.
pub const AIR_GAMMA: f64 = 1.4;
/// Density of dry air at 20 °C and 101.325 kPa, kg/m³.
pub const ROOM_AIR_DENSITY: f64 = 1.204_1;
/// Pressure of the standard atmosphere, Pa.
pub const ATMOSPHERE: f64 = 101_325.0;
/// Pressure across a head on the bench that the trade usually flows at: 28 in of water, Pa.
pub const TEST_DEPRESSION: f64 = 28.0 * 249.088_91;

/// A gas at rest upstream of an orifice.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Upstream {
    /// Pressure, Pa.
    pub pressure: f64,
    /// Temperature, K.
    pub temperature: f64,
    /// Ratio of the heat capacities, over 1.
    pub gamma: f64,
    /// Gas constant, J/(kg·K).
    pub constant: f64,
}

impl Upstream {
    /// Air at this pressure (Pa) and temperature (K).
    #[must_use]
    pub fn air(pressure: f64, temperature: f64) -> Self {
        Self { pressure, temperature, gamma: AIR_GAMMA, constant: AIR_CONSTANT }
    }
}

/// Ratio of pressures, down over up, at and below which an orifice is choked: 0.528 for air. NaN unless gamma is over 1.
/// Heywood 1988, eq. C.7.
#[must_use]
pub fn critical_ratio(gamma: f64) -> f64 {
    if gamma > 1.0 { (2.0 / (gamma + 1.0)).powf(gamma / (gamma - 1.0)) } else { f64::NAN }
}

/// Mass flow through an orifice, kg/s: area in m², coefficient of discharge, pressure behind it in Pa. Subsonic above the
/// critical ratio, choked below, none where nothing drives it; NaN for a gas that cannot be. Heywood 1988, eq. C.8, C.9.
#[must_use]
pub fn orifice(area: f64, discharge: f64, up: Upstream, behind: f64) -> f64 {
    let Upstream { pressure, temperature, gamma, constant } = up;
    if !(pressure > 0.0 && temperature > 0.0 && gamma > 1.0 && constant > 0.0) {
        return f64::NAN;
    }
    let ratio = (behind / pressure).clamp(critical_ratio(gamma), 1.0);
    // (2g/(g-1)) (r^(2/g) - r^((g+1)/g)), with the difference taken where it does not cancel
    let drop = -((gamma - 1.0) / gamma * ratio.ln()).exp_m1();
    let function = ratio.powf(1.0 / gamma) * (2.0 * gamma / (gamma - 1.0) * drop).sqrt();
    discharge * area * pressure / (constant * temperature).sqrt() * function
}

/// Choked mass flow, the most an orifice can pass, kg/s. Heywood 1988, eq. C.9.
#[must_use]
pub fn choked(area: f64, discharge: f64, up: Upstream) -> f64 {
    orifice(area, discharge, up, 0.0)
}

/// Ideal velocity at a test depression, m/s, incompressible: drop in Pa, density in kg/m³. Within 1 % of the
/// compressible one up to 28 in of water. NaN unless the drop is not negative and the density greater than zero.
#[must_use]
pub fn ideal_velocity(drop: f64, density: f64) -> f64 {
    if drop >= 0.0 && density > 0.0 { (2.0 * drop / density).sqrt() } else { f64::NAN }
}

/// Volume flow that an area passes on the bench, m³/s.
#[must_use]
pub fn bench_flow(area: f64, discharge: f64, drop: f64, density: f64) -> f64 {
    discharge * area * ideal_velocity(drop, density)
}

/// The inlet valve that an inlet Mach index asks for, m: the inverse of [`mach_index`]. NaN where there is none.
#[must_use]
pub fn valve_for_mach(bore: f64, index: f64, valves: f64, mean_piston_speed: f64, flow: f64, sound: f64) -> f64 {
    if index > 0.0 { (mach_index(bore, 1.0, valves, mean_piston_speed, flow, sound) / index).sqrt() } else { f64::NAN }
}

/// Mean flow through one cylinder's inlets while they are open, in the unit of `steady`, the cylinder's flow over a whole
/// cycle: `duration` in rad of the crank. NaN unless the duration is greater than zero.
#[must_use]
pub fn while_open(steady: f64, duration: f64) -> f64 {
    if duration > 0.0 { steady * 4.0 * PI / duration } else { f64::NAN }
}

/// A valve on its seat. Sizes in m, the seat's angle in rad from the plane of the head, 0 to under a right angle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ValveSeat {
    /// Outside diameter of the valve's head.
    pub head: f64,
    /// Diameter of the port below the seat.
    pub port: f64,
    /// Diameter of the stem in the port.
    pub stem: f64,
    /// Width of the seat as seen along the valve's axis: its radial projection, not the width along its face.
    pub width: f64,
    /// Angle of the seat.
    pub angle: f64,
}

/// Radial projection of a seat's width measured along its face.
#[must_use]
pub fn radial_width(face: f64, angle: f64) -> f64 {
    face * angle.cos()
}

impl ValveSeat {
    /// This seat, if it can be.
    ///
    /// # Errors
    /// [`Outside::NotPositive`] for a size or an angle that cannot be: no head, no port left beside the stem, a seat wider
    /// than the head, an angle under 0 or of a right angle and over.
    pub fn checked(self) -> Result<Self, Outside> {
        let positive = [
            ("the valve's head", self.head),
            ("the seat's width", self.width),
            ("the head within its seat", self.head - 2.0 * self.width),
            ("the port beside the stem", self.port - self.stem),
            ("the seat's angle", self.angle),
            ("a right angle less the seat's angle", PI / 2.0 - self.angle),
        ];
        match positive.into_iter().find(|(_, value)| *value <= 0.0 || value.is_nan()) {
            Some((what, value)) => Err(Outside::NotPositive { what, value }),
            None if self.stem < 0.0 => Err(Outside::NotPositive { what: "the stem", value: self.stem }),
            None => Ok(self),
        }
    }

    /// Area of the port beside the stem, m².
    #[must_use]
    pub fn port_area(self) -> f64 {
        PI / 4.0 * (self.port * self.port - self.stem * self.stem)
    }

    /// Lift at which the least area stops to stand square on the seat, m. Heywood 1988, section 6.3.2.
    #[must_use]
    pub fn first_stage_ends(self) -> f64 {
        self.width / (self.angle.sin() * self.angle.cos())
    }

    /// Lift from which the port is the least area, m; more lift no longer helps the area. Heywood 1988, section 6.3.2.
    #[must_use]
    pub fn port_limits_from(self) -> f64 {
        let mean = self.head - self.width;
        let slant = self.port_area() / (PI * mean);
        let square = slant * slant - self.width * self.width;
        if square >= 0.0 {
            let lift = square.sqrt() + self.width * self.angle.tan();
            if lift >= self.first_stage_ends() {
                return lift;
            }
        }
        // a port so small that it limits before the valve leaves the first stage: pi L cos b (Dv - 2w + L sin b cos b)
        let (sin, cos) = self.angle.sin_cos();
        let inner = self.head - 2.0 * self.width;
        let want = self.port_area() / (PI * cos);
        let a = sin * cos;
        2.0 * want / (inner + (inner * inner + 4.0 * a * want).sqrt())
    }

    /// Least area of the open valve, m², at a lift in m; none at no lift. NaN for a seat that cannot be. Heywood 1988,
    /// eq. 6.7 to 6.9; a port that limits sooner than there holds throughout. Over the least of all frusta by up to 0.05 %
    /// at 45 degrees and 0.14 % at 30, where the first stage ends.
    #[must_use]
    pub fn least_area(self, lift: f64) -> f64 {
        if self.checked().is_err() || lift.is_nan() {
            return f64::NAN;
        }
        let (lift, (sin, cos)) = (lift.max(0.0), self.angle.sin_cos());
        let open = if lift < self.first_stage_ends() {
            PI * lift * cos * (self.head - 2.0 * self.width + lift * sin * cos)
        } else {
            let up = lift - self.width * self.angle.tan();
            PI * (self.head - self.width) * up.hypot(self.width)
        };
        open.min(self.port_area())
    }

    /// The same valve with another seat of the same width along its face.
    #[must_use]
    pub fn with_angle(self, angle: f64) -> Self {
        Self { angle, width: self.width / self.angle.cos() * angle.cos(), ..self }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn seat(angle: f64) -> ValveSeat {
        ValveSeat { head: 51.3e-3, port: 44.5e-3, stem: 8e-3, width: 1.5e-3, angle: angle.to_radians() }
    }

    /// The least frustum between the valve's face and the seat's, by trying them all.
    fn tried(seat: ValveSeat, lift: f64) -> f64 {
        let inner = seat.head / 2.0 - seat.width;
        let mut least = seat.port_area();
        for on_valve in 0..=40 {
            for on_seat in 0..=16_000 {
                let (p, q) = (seat.width * f64::from(on_valve) / 40.0, seat.width * f64::from(on_seat) / 16_000.0);
                let up = lift - (q - p) * seat.angle.tan();
                least = least.min(PI * (2.0 * inner + p + q) * up.hypot(q - p));
            }
        }
        least
    }

    #[test]
    fn the_three_stages_are_hardly_more_than_the_least_of_all_frusta() {
        for (angle, most) in [(20.0, 3.6e-3), (30.0, 1.4e-3), (45.0, 5e-4), (60.0, 1.6e-4), (75.0, 4e-5)] {
            for tenths in [1, 3, 7, 12, 20, 34, 48, 70, 95, 120, 150] {
                let lift = f64::from(tenths) * 1e-4;
                let (formula, tried) = (seat(angle).least_area(lift), tried(seat(angle), lift));
                let over = formula / tried - 1.0;
                // square on the seat is the shortest slant, not quite the least area
                assert!((-1e-4..most).contains(&over), "{angle} {lift}: {formula} {tried}");
            }
        }
    }

    #[test]
    fn the_stages_join_and_the_area_never_falls_with_lift() {
        for angle in [15.0, 30.0, 45.0, 60.0] {
            let s = seat(angle);
            for at in [s.first_stage_ends(), s.port_limits_from()] {
                let step = s.least_area(at * (1.0 + 1e-9)) - s.least_area(at * (1.0 - 1e-9));
                assert!(step.abs() < 1e-10, "{angle}");
            }
            assert!((s.least_area(s.port_limits_from()) / s.port_area() - 1.0).abs() < 1e-12);
            let areas: Vec<f64> = (0..200).map(|i| s.least_area(f64::from(i) * 1e-4)).collect();
            assert!(areas.iter().zip(areas.iter().skip(1)).all(|(a, b)| a <= b), "{angle}");
        }
        let small = ValveSeat { port: 12e-3, ..seat(45.0) };
        let at = small.port_limits_from();
        assert!(at < small.first_stage_ends());
        assert!(
            (small.least_area(at) / small.port_area() - 1.0).abs() < 1e-12
                && small.least_area(0.99 * at) < small.port_area()
        );
    }

    #[test]
    fn a_steeper_seat_is_never_larger() {
        for step in 1..150 {
            let lift = f64::from(step) * 1e-4;
            let areas = [20.0, 30.0, 45.0, 50.0, 55.0, 60.0].map(|a| seat(a).least_area(lift));
            assert!(areas.iter().zip(areas.iter().skip(1)).all(|(a, b)| a >= b), "{lift}: {areas:?}");
        }
    }

    #[test]
    fn a_face_of_one_width_is_narrower_from_above_on_a_steeper_seat() {
        let turned = seat(45.0).with_angle(60_f64.to_radians());
        assert!((turned.width / seat(45.0).width - 0.5 / 45_f64.to_radians().cos()).abs() < 1e-12);
        assert!((turned.with_angle(45_f64.to_radians()).width - seat(45.0).width).abs() < 1e-15);
        assert!((radial_width(1.0, 60_f64.to_radians()) - 0.5).abs() < 1e-12);
    }

    #[test]
    fn area_scales_with_the_square_of_size() {
        let s = seat(45.0);
        let twice = ValveSeat { head: 2.0 * s.head, port: 2.0 * s.port, stem: 2.0 * s.stem, width: 2.0 * s.width, ..s };
        for lift in [1e-3, 5e-3, 2e-2] {
            assert!((twice.least_area(2.0 * lift) / s.least_area(lift) - 4.0).abs() < 1e-12);
        }
    }

    #[test]
    fn an_orifice_goes_over_into_choking_and_into_bernoulli() {
        let up = Upstream::air(ATMOSPHERE, 300.0);
        let flow = |ratio: f64| orifice(1e-3, 1.0, up, ratio * ATMOSPHERE);
        let critical = critical_ratio(AIR_GAMMA);
        assert_eq!(flow(critical), flow(0.1));
        assert_eq!(flow(1.0), 0.0);
        assert_eq!(flow(1.2), 0.0, "nothing drives it backwards");
        let flows: Vec<f64> = (0..=100).map(|i| flow(critical + (1.0 - critical) * f64::from(i) / 100.0)).collect();
        assert!(flows.iter().zip(flows.iter().skip(1)).all(|(a, b)| a > b));
        let density = ATMOSPHERE / (AIR_CONSTANT * 300.0);
        for drop in [1e-6, 1e-4, 1e-3] {
            let bernoulli = density * bench_flow(1e-3, 1.0, drop * ATMOSPHERE, density);
            assert!((flow(1.0 - drop) / bernoulli - 1.0).abs() < drop, "{drop}");
        }
    }

    #[test]
    fn what_cannot_be_is_no_number_and_nothing_panics() {
        for value in [0.0, -1.0, 1e-300, 1e300, f64::MAX, f64::MIN] {
            let s = ValveSeat { head: value, ..seat(45.0) };
            let area = s.least_area(1e-3);
            assert!(s.checked().is_ok() || area.is_nan());
            let _ = (s.port_limits_from(), seat(value).least_area(1e-3), seat(45.0).least_area(value));
            assert!(value > 0.0 || orifice(1.0, 1.0, Upstream::air(value, 300.0), 0.0).is_nan());
        }
        assert!(ideal_velocity(-1.0, 1.2).is_nan() && critical_ratio(1.0).is_nan() && while_open(1.0, 0.0).is_nan());
    }

    #[test]
    fn the_valve_for_a_mach_index_has_it() {
        let valve = valve_for_mach(0.11, 0.55, 2.0, 20.0, 0.33, 343.0);
        assert!((mach_index(0.11, valve, 2.0, 20.0, 0.33, 343.0) - 0.55).abs() < 1e-12);
    }
}
