//! How much sooner a part is due than on the reference engine.
//!
//! The reference engine: 4,500 ft/min (22.9 m/s) mean piston speed at the shift, 13.1 bar mean effective pressure,
//! 650 lbf on the open spring, petrol, no adder, 120 s of idle a pass.
//!
//! Each part has a ratio g of its own stress or load to that engine's, and a slope m of its stress-life line, so that
//! life goes as g^-m (Miner 1945: damage adds up cycle by cycle). Nobody knows the slope to better than half, so there
//! are two: the steep one shortens a harder engine's life, the shallow one lengthens a softer one's. Speed enters as
//! mean piston speed: for engines of one shape, inertia stress goes as its square whatever their size.

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

/// The shortest that a calculation makes a life, as a share of the reference engine's.
pub(crate) const LEAST: f64 = 0.2;
/// The longest. More than this a shop's own measurements must say.
pub(crate) const MOST: f64 = 1.5;

/// A pair of slopes of a stress-life line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Slope {
    /// Where g is over 1.
    pub(crate) up: f64,
    /// Where g is under 1.
    pub(crate) down: f64,
}

const fn slope(up: f64, down: f64) -> Slope {
    Slope { up, down }
}

/// Rod bolts, steel rods and cranks on their inertia stress: a two-point line from 0.9 Sut at 1,000 cycles to the
/// endurance limit at a million (Shigley, eq. 6-14) has 8.5 for machined steel, 6.4 to 9.6 by strength and finish.
pub(crate) const STEEL: Slope = slope(8.5, 4.0);
/// Aluminium rods and rockers: 7075-T6, log N = 18.21 - 7.73 log(S - 10 ksi), is 10 to 13 at 25 to 40 ksi; from memory.
pub(crate) const ALUMINIUM: Slope = slope(12.0, 6.0);
/// Valve springs on their shear stress: 10.5 by Gerber's line through peened-wire data, 26 by Goodman's through the
/// same. The lower one, since the slope is the model's and not the wire's; from memory.
pub(crate) const WIRE: Slope = slope(10.5, 5.0);
/// Valve springs, and what hangs on them, where only a load is known. Common practice, no source.
pub(crate) const SPRING_LOAD: Slope = slope(4.0, 2.0);
/// A spring going soft: relaxation is driven by stress and heat; from memory.
pub(crate) const RELAXATION: Slope = slope(3.0, 2.0);
/// Needles and wheels: ISO 281, roller bearings, life as load^-(10/3), on both sides.
pub(crate) const NEEDLES: Slope = slope(10.0 / 3.0, 10.0 / 3.0);
/// Lobes: line contact, pressure as the root of the load and life as pressure^-8; from memory.
pub(crate) const LOBE: Slope = slope(4.0, 3.0);
/// Overlays of plain bearings, on their specific load; from memory.
pub(crate) const OVERLAY: Slope = slope(6.0, 3.0);
/// Wear (Archard 1953): as load and distance.
pub(crate) const WEAR: Slope = slope(1.0, 1.0);
/// Piston crowns on pressure and heat, and gaskets on pressure; from memory.
pub(crate) const CROWN: Slope = slope(5.0, 3.0);
/// Pin bosses on inertia; from memory.
pub(crate) const BOSS: Slope = slope(8.0, 3.0);
/// Valves and seats: impact energy goes as speed squared, with slope 2 on energy; hot valves on pressure the same;
/// from memory.
pub(crate) const VALVE: Slope = slope(4.0, 2.0);

impl Slope {
    /// The life at this ratio, over the life at 1. Both are pure numbers; g is over 0.
    pub(crate) fn life(self, g: f64) -> f64 {
        g.powf(-if g > 1.0 { self.up } else { self.down })
    }
}

/// Where the product of all ratios is held, and whether that held it.
pub(crate) fn held(factor: f64, most: f64) -> (f64, Held) {
    if factor < LEAST {
        (LEAST, Held::Shortest)
    } else if factor > most {
        (most, if most < MOST { Held::NotLengthened } else { Held::Longest })
    } else {
        (factor, Held::Free)
    }
}

/// What became of a factor.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Held {
    /// It stands as computed.
    Free,
    /// At [`LEAST`].
    Shortest,
    /// At [`MOST`].
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
        near(slope(8.5, 8.5).life((7_000.0f64 / 7_200.0).powi(2)), 1.61);
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
        assert_eq!(held(0.19, MOST), (0.2, Held::Shortest));
        assert_eq!(held(0.2, MOST), (0.2, Held::Free));
        assert_eq!(held(1.5, MOST), (1.5, Held::Free));
        assert_eq!(held(1.51, MOST), (1.5, Held::Longest));
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
