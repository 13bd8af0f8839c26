//! Which column of lives an engine belongs to.
//!
//! Uses that run by the hour have columns of their own, and no interval where practice has none by the hour: an engine of
//! a day's race turns a drag engine's season in an hour.
//!
//! "All-out" is two classes that practice keeps a factor of four apart. One is the sportsman engine without boost or
//! adder, or with a small shot of nitrous. The other is the hardest: boosted, or nitrous that brings half of the power
//! or more. What a shop calls heads-up without an adder cannot be told from a sheet, and counts as sportsman; its
//! speed and pressure shorten its lives all the same. Nitrous whose share is not stated counts as the hardest.

use crate::facts::{ADDER, ADDER_POWER, BOOST, TARGET_POWER, USE};
use thou_sdk::prelude::*;

/// The share of the power from nitrous at which an all-out engine is of the hardest class. Common practice, no source.
pub(crate) const HARD_SHARE: f64 = 0.5;

/// A column of lives.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Class {
    /// Miles and months.
    Street,
    /// The durable drag engine.
    Bracket,
    /// All-out without boost, and with little nitrous or none.
    Sportsman,
    /// All-out and boosted, or half of the power from nitrous.
    Hardest,
    /// By the hour, on a road course.
    Circuit,
    /// By the hour, for half a day and more.
    Endurance,
    /// By the hour, round an oval.
    CircleTrack,
    /// By the hour, a single off the road.
    Motocross,
    /// By the hour, in a boat.
    Marine,
}

/// How a text names the classes, in the order of their indices.
pub(crate) const NAMES: &[&str] = &[
    "street",
    "bracket",
    "all-out, no adder",
    "all-out, boosted or half nitrous",
    "circuit",
    "endurance",
    "circle track",
    "motocross",
    "boat",
];

impl Class {
    /// The class of this engine; none for a use that this pack has no column for.
    pub(crate) fn of(f: &Facts<'_>) -> Option<Self> {
        match f.choice(USE)? {
            "street" => Some(Self::Street),
            "bracket" => Some(Self::Bracket),
            "circuit" => Some(Self::Circuit),
            "endurance" => Some(Self::Endurance),
            "circle-track" => Some(Self::CircleTrack),
            "motocross" => Some(Self::Motocross),
            "boat" => Some(Self::Marine),
            _ if hardest(f) => Some(Self::Hardest),
            _ => Some(Self::Sportsman),
        }
    }

    /// Whether it counts hours, of engines of its own kind: nothing of the drag strip's reference scales them.
    pub(crate) fn by_hour(self) -> bool {
        !matches!(self, Self::Street | Self::Bracket | Self::Sportsman | Self::Hardest)
    }

    /// Its place in [`NAMES`].
    pub(crate) fn index(self) -> f64 {
        f64::from(self as u8)
    }
}

fn hardest(f: &Facts<'_>) -> bool {
    let boosted = f.is(ADDER, &["turbo", "blower"]) || f.get(BOOST).is_some_and(|b| b > 0.0);
    let share = f.get(ADDER_POWER).zip(f.get(TARGET_POWER)).filter(|(_, whole)| *whole > 0.0).map(|(a, b)| a / b);
    boosted || (f.is(ADDER, &["nitrous"]) && share.is_none_or(|s| s >= HARD_SHARE))
}
