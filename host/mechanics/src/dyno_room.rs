//! What a dyno room needs: air, where two published figures differ by ten, and time out of the noise.

use crate::combustion_air::AIR_HEAT_CAPACITY;

const HORSEPOWER: f64 = 745.699_871_582_270_2;
const CFM: f64 = 0.3048 * 0.3048 * 0.3048 / 60.0;
/// Density of a room's air as the ventilation figures take it, kg/m³.
pub const ROOM_DENSITY: f64 = 1.2;

/// Air for a room by the power run in it, m³/s, exhaust led outside: 2,000 cfm for each 100 hp. Trade article. The other
/// published figure, [`room_air_by_changes`], is up to ten times that: neither is a rule.
#[must_use]
pub fn room_air_by_power(power: f64) -> f64 {
    20.0 * CFM * power / HORSEPOWER
}

/// Air for a room by its volume, m³/s, low and high: 10 to 15 changes a minute. Trade article, and common practice (15).
/// See [`room_air_by_power`].
#[must_use]
pub fn room_air_by_changes(volume: f64) -> (f64, f64) {
    (volume * 10.0 / 60.0, volume * 15.0 / 60.0)
}

/// Heat that an engine gives to the room, W: 32 kW for each 100 hp. Trade article.
#[must_use]
pub fn room_heat(power: f64) -> f64 {
    320.0 * power / HORSEPOWER
}

/// How much warmer a flow of air leaves, K: heat in W, flow in m³/s; NaN unless the flow is greater than zero.
#[must_use]
pub fn room_rise(heat: f64, flow: f64) -> f64 {
    if flow > 0.0 { heat / (ROOM_DENSITY * AIR_HEAT_CAPACITY * flow) } else { f64::NAN }
}

/// Air that carries a heat away at a rise, m³/s: heat in W, rise in K; NaN unless the rise is greater than zero.
#[must_use]
pub fn room_air_for_rise(heat: f64, rise: f64) -> f64 {
    room_rise(heat, rise)
}

/// How long a noise may be borne, s: level and limit in dB(A), the limit for eight hours, `exchange` in dB for half the
/// time. OSHA 29 CFR 1910.95 (limit 90, exchange 5) and NIOSH 98-126 (85 and 3). NaN unless the exchange is positive.
#[must_use]
pub fn noise_time(level: f64, limit: f64, exchange: f64) -> f64 {
    if exchange > 0.0 { 8.0 * 3_600.0 / ((level - limit) / exchange).exp2() } else { f64::NAN }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rooms_scale() {
        assert!(
            (room_rise(room_heat(2e5), room_air_by_power(2e5)) - room_rise(room_heat(1e5), room_air_by_power(1e5)))
                .abs()
                < 1e-12
        );
        assert!((room_rise(1e4, room_air_for_rise(1e4, 10.0)) - 10.0).abs() < 1e-12);
        assert!((noise_time(90.0, 90.0, 5.0) - 28_800.0).abs() < 1e-9);
        assert!((noise_time(95.0, 90.0, 5.0) - 14_400.0).abs() < 1e-9);
        assert!(noise_time(95.0, 90.0, 0.0).is_nan() && room_rise(1.0, 0.0).is_nan());
    }
}
