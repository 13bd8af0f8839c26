//! How much sooner a part is due than on the reference engine.
//!
//! The reference engine: 4,500 ft/min (22.9 m/s) mean piston speed at the shift, 13.1 bar mean effective pressure,
//! 650 lbf on the open spring, petrol, no adder, 120 s of idle a pass.
//!
//! Each part has a ratio g of its own stress or load to that engine's, and a [slope](thou_contract::slopes::Slope) by which its life answers. Speed
//! enters as mean piston speed: for engines of one shape, inertia stress goes as its square whatever their size.

use thou_contract::slopes::{LONGEST, SHORTEST};
use thou_sdk::prelude::*;

/// Mean piston speed of the reference engine at its shift, m/s: 7,200 rpm on a stroke of 3.750 in.
pub(crate) const PISTON_SPEED: f64 = feet_a_minute(4_500.0);
/// Mean effective pressure of the reference engine, Pa.
pub(crate) const BMEP: f64 = 13.1e5;
/// Open spring load of the reference engine, N.
pub(crate) const OPEN_LOAD: f64 = pounds(650.0);
/// Idle of the reference engine a pass, s.
pub(crate) const IDLE: f64 = 120.0;
/// Sliding of one ring on the reference engine a pass, m: 7.5 s of run at 7,000 rpm, 8 s of burn-out at 5,500 and
/// 120 s of idle at 1,400 are 4,408 revolutions, each of them twice the stroke of 3.750 in.
pub(crate) const SLIDE: f64 = 2.0 * inches(3.75) * 4_408.0;
/// Oil in the reference engine, m³: 8 US quarts.
pub(crate) const OIL_VOLUME: f64 = quarts(8.0);

/// Where the product of all ratios is held, and whether that held it.
pub(crate) fn held(factor: f64, most: f64) -> (f64, Held) {
    if factor < SHORTEST {
        (SHORTEST, Held::Shortest)
    } else if factor > most {
        (most, if most < LONGEST { Held::NotLengthened } else { Held::Longest })
    } else {
        (factor, Held::Free)
    }
}

/// What became of a factor.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Held {
    /// It stands as computed.
    Free,
    /// At [`SHORTEST`].
    Shortest,
    /// At [`LONGEST`].
    Longest,
    /// At 1: this life is never lengthened by a calculation.
    NotLengthened,
}

/// What heat above a threshold takes off a life: `share` of it is left for every `step` kelvin over `from`.
pub(crate) fn heat(temperature: f64, from: f64, step: f64, share: f64) -> f64 {
    if temperature > from { share.powf((temperature - from) / step) } else { 1.0 }
}

/// What fuels and adders take off or add beside their load. All common practice, no source.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Chemistry {
    /// Oil is thinned by fuel.
    Oil,
    /// Rings and bores are washed.
    Rings,
    /// Guides are washed.
    Guides,
    /// Bearings have thinner oil.
    Bearings,
    /// Exhaust valves run cooler on methanol.
    ExhaustValves,
    /// Gaskets meet the spikes of nitrous.
    Gasket,
}

impl Chemistry {
    /// The fuel's multiplier on life.
    pub(crate) fn of_fuel(self, fuel: &str) -> f64 {
        match (self, fuel) {
            (Self::Oil, "methanol") => 0.3,
            (Self::Oil, "e85" | "ethanol") => 0.6,
            (Self::Rings, "methanol") => 0.75,
            (Self::Rings, "e85" | "ethanol") => 0.9,
            (Self::Guides, "methanol") => 0.8,
            (Self::Bearings, "methanol") => 0.85,
            (Self::ExhaustValves, "methanol") => 1.3,
            _ => 1.0,
        }
    }

    /// The adder's multiplier on life.
    pub(crate) fn of_adder(self, adder: &str) -> f64 {
        match (self, adder) {
            (Self::Rings, "blower") => 0.5,
            (Self::Bearings, "blower") => 0.6,
            (Self::Gasket, "nitrous") => 0.8,
            _ => 1.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use thou_contract::slopes::{CROWN, NEEDLES, OVERLAY, STEEL, Slope, WEAR, WIRE};

    fn near(a: f64, b: f64) {
        assert!((a - b).abs() < 0.005, "{a} is not {b}");
    }

    #[test]
    fn the_reference_engine_shifts_at_7200_on_three_and_three_quarters() {
        assert!((2.0 * inches(3.75) * 7_200.0 / 60.0 - PISTON_SPEED).abs() < 1e-9);
        near(PISTON_SPEED, 22.86);
        assert!((BMEP / psi(190.0) - 1.0).abs() < 1e-4);
        near(SLIDE, 839.72);
    }

    /// The same parts shifted at another speed: inertia goes as speed squared.
    #[test]
    fn bolts_at_7600_last_two_fifths_and_at_7000_a_quarter_longer() {
        let at = |rpm: f64| STEEL.life((rpm / 7_200.0f64).powi(2));
        near(at(7_600.0), 0.40);
        near(at(7_000.0), 1.25);
        near(Slope { harder: 8.5, softer: 8.5 }.life((7_000.0f64 / 7_200.0).powi(2)), 1.61);
        near(at(7_200.0), 1.0);
    }

    #[test]
    fn lifters_at_720_pounds_last_seven_tenths() {
        near(NEEDLES.life(720.0 / 650.0), 0.71);
        near(NEEDLES.life(585.0 / 650.0), 1.42);
    }

    /// A pass with a quarter more pressure counts as four for the shells, three for the pistons, 1.25 for the rings.
    #[test]
    fn a_quarter_more_pressure() {
        near(OVERLAY.life(1.25), 0.26);
        near(CROWN.life(1.25), 0.33);
        near(WEAR.life(1.25), 0.80);
    }

    #[test]
    fn springs_three_in_a_hundred_over_the_stress_lose_a_quarter() {
        near(WIRE.life(1.03), 0.73);
        near(WIRE.life(1.10), 0.37);
    }

    #[test]
    fn a_factor_is_held_between_a_fifth_and_one_and_a_half() {
        assert_eq!(held(0.19, LONGEST), (0.2, Held::Shortest));
        assert_eq!(held(0.2, LONGEST), (0.2, Held::Free));
        assert_eq!(held(1.5, LONGEST), (1.5, Held::Free));
        assert_eq!(held(1.51, LONGEST), (1.5, Held::Longest));
        assert_eq!(held(1.2, 1.0), (1.0, Held::NotLengthened));
        assert_eq!(held(0.9, 1.0), (0.9, Held::Free));
    }

    #[test]
    fn oxidation_doubles_with_ten_degrees() {
        near(heat(celsius(130.0), celsius(110.0), 10.0, 0.5), 0.25);
        near(heat(celsius(110.0), celsius(110.0), 10.0, 0.5), 1.0);
        near(heat(celsius(90.0), celsius(110.0), 10.0, 0.5), 1.0);
    }
}
