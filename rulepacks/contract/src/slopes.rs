//! How life answers stress: slopes by name, for packs that scale lives by them. A pack's manifest carries the numbers that
//! it scaled by, and the log counts down by those.
//!
//! Life goes as g^-m, g being a part's stress or load over that of the engine that its life is known from, and m the
//! slope of its stress-life line (Miner 1945: damage adds up cycle by cycle). Nobody knows the slope to better than
//! half, so there are two: the steep one shortens a harder engine's life, the shallow one lengthens a softer one's.

/// A pair of slopes of a stress-life line; pure numbers over 0.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Slope {
    /// Where g is over 1.
    pub harder: f64,
    /// Where g is under 1.
    pub softer: f64,
}

const fn slope(harder: f64, softer: f64) -> Slope {
    Slope { harder, softer }
}

/// The shortest that a calculation makes a life, as a share of the known one. Common practice, no source.
pub const SHORTEST: f64 = 0.2;
/// The longest. More than this a shop's own measurements must say. Common practice, no source.
pub const LONGEST: f64 = 1.5;

/// Rod bolts, steel rods and cranks on their inertia stress: a two-point line from 0.9 Sut at 1,000 cycles to the
/// endurance limit at a million (Shigley, eq. 6-14) has 8.5 for machined steel, 6.4 to 9.6 by strength and finish.
pub const STEEL: Slope = slope(8.5, 4.0);
/// Aluminium rods and rockers: 7075-T6, log N = 18.21 - 7.73 log(S - 10 ksi), is 10 to 13 at 25 to 40 ksi; from memory.
pub const ALUMINIUM: Slope = slope(12.0, 6.0);
/// Valve springs on their shear stress: 10.5 by Gerber's line through peened-wire data, 26 by Goodman's through the
/// same. The lower one, since the slope is the model's and not the wire's; from memory.
pub const WIRE: Slope = slope(10.5, 5.0);
/// Valve springs, and what hangs on them, where only a load is known. Common practice, no source.
pub const SPRING_LOAD: Slope = slope(4.0, 2.0);
/// A spring going soft: relaxation is driven by stress and heat; from memory.
pub const RELAXATION: Slope = slope(3.0, 2.0);
/// Needles and wheels: ISO 281, roller bearings, life as load^-(10/3), on both sides.
pub const NEEDLES: Slope = slope(10.0 / 3.0, 10.0 / 3.0);
/// Lobes: line contact, pressure as the root of the load and life as pressure^-8; from memory.
pub const LOBE: Slope = slope(4.0, 3.0);
/// Overlays of plain bearings, on their specific load; from memory.
pub const OVERLAY: Slope = slope(6.0, 3.0);
/// Wear (Archard 1953): as load and distance.
pub const WEAR: Slope = slope(1.0, 1.0);
/// Piston crowns on pressure and heat, and gaskets on pressure; from memory.
pub const CROWN: Slope = slope(5.0, 3.0);
/// Pin bosses on inertia; from memory.
pub const BOSS: Slope = slope(8.0, 3.0);
/// Valves and seats: impact energy goes as speed squared, with slope 2 on energy; hot valves on pressure the same;
/// from memory.
pub const VALVE: Slope = slope(4.0, 2.0);

/// The slopes by the names that a manifest or a table may call them by.
pub const NAMED: [(&str, Slope); 12] = [
    ("steel", STEEL),
    ("aluminium", ALUMINIUM),
    ("wire", WIRE),
    ("spring-load", SPRING_LOAD),
    ("relaxation", RELAXATION),
    ("needles", NEEDLES),
    ("lobe", LOBE),
    ("overlay", OVERLAY),
    ("wear", WEAR),
    ("crown", CROWN),
    ("boss", BOSS),
    ("valve", VALVE),
];

impl Slope {
    /// The slope that a manifest calls by this name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        NAMED.iter().find(|(known, _)| *known == name).map(|(_, slope)| *slope)
    }

    /// The life at this ratio, over the life at 1. Both are pure numbers; g is over 0.
    #[must_use]
    pub fn life(self, g: f64) -> f64 {
        g.powf(-if g > 1.0 { self.harder } else { self.softer })
    }
}
