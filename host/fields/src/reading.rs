//! What there is to know of a reading.

use crate::field::Field;
use thou_contract::Kind;

/// What a series of values runs over.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Axis {
    /// The engine: one value.
    One,
    /// Cylinders, in the shop's order.
    Cylinder,
    /// Banks of a block, or heads.
    Bank,
    /// Main bearings, front to back.
    Main,
    /// Rods, one a cylinder.
    Rod,
    /// Crankpins, front to back.
    Crankpin,
    /// Valves, cylinder by cylinder, inlets first.
    Valve,
    /// Cam journals, front to back.
    CamJournal,
}

impl Axis {
    /// Every axis.
    pub const ALL: [Self; 8] =
        [Self::One, Self::Cylinder, Self::Bank, Self::Main, Self::Rod, Self::Crankpin, Self::Valve, Self::CamJournal];
    /// Its name in manifests and in the entries.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::One => "one",
            Self::Cylinder => "cylinder",
            Self::Bank => "bank",
            Self::Main => "main",
            Self::Rod => "rod",
            Self::Crankpin => "crankpin",
            Self::Valve => "valve",
            Self::CamJournal => "cam-journal",
        }
    }
    /// The axis of this name.
    #[must_use]
    pub fn by_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|a| a.id() == id)
    }
}

/// The points read at one place where the set does not name them.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Points {
    /// One, without a name.
    One,
    /// Three heights, thrust and axial.
    Bore,
    /// Both ends of a journal or a housing: vertical and 45° either side of it.
    Ends,
    /// Round a cylinder's wall.
    Wall,
}

impl Points {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::One, Self::Bore, Self::Ends, Self::Wall];
    /// Its name in the entries.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::One => "one",
            Self::Bore => "bore",
            Self::Ends => "ends",
            Self::Wall => "wall",
        }
    }
    /// Their names, in the order they are written.
    #[must_use]
    pub fn names(self) -> &'static [&'static str] {
        match self {
            Self::One => &[""],
            Self::Bore => &["top thrust", "top axial", "mid thrust", "mid axial", "bottom thrust", "bottom axial"],
            Self::Ends => &["front vertical", "front left", "front right", "rear vertical", "rear left", "rear right"],
            Self::Wall => &["major thrust", "minor thrust", "front", "back"],
        }
    }
}

/// One kind of reading.
#[derive(Debug, Clone, Copy)]
pub struct ReadingField {
    /// Its entry; its band is of sizes that an engine can have at all: outside is a slip of the pen, not a bad part.
    pub field: Field,
    /// What it runs over.
    pub axis: Axis,
    /// Its points by default.
    pub points: Points,
    /// The usual gauge for it.
    pub gauge: &'static str,
    /// The field that says what the part is made of, or [`STEEL`], where a size that was read warm or cold is brought to
    /// 20 °C.
    pub grows_with: Option<&'static str>,
    /// What the sheet states of the same thing.
    pub agrees_with: &'static [Agreement],
    /// The work that makes it stale.
    pub moved_by: &'static [Moved],
    /// Whether it is judged only where it was read: many a good engine is built without it, so nobody is asked for it.
    pub when_read: bool,
}

/// What a part is made of that is steel in every engine.
pub const STEEL: &str = "steel";

/// A field of the sheet that states what a reading reads, and how far apart the two may be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Agreement {
    /// The field.
    pub field: &'static str,
    /// The field that says how much was taken off it; none where this is empty.
    pub less: &'static str,
    within: &'static str,
}

impl Agreement {
    /// How far apart the two may be, as its entry has it.
    #[must_use]
    pub const fn allowed(&self) -> &'static str {
        self.within
    }
    /// How far a reading of this kind may be from what is stated, SI: a part's tolerance, common practice, no source.
    #[must_use]
    pub fn within(&self, kind: Kind, stated: f64) -> f64 {
        let share = self.within.strip_suffix(" %").and_then(|n| n.parse::<f64>().ok());
        share.map_or_else(|| kind.parse(self.within).unwrap_or(0.0), |percent| stated.abs() * percent / 100.0)
    }
}

pub(crate) const fn agrees(field: &'static str, less: &'static str, within: &'static str) -> Agreement {
    Agreement { field, less, within }
}

/// Work that a reading is no longer true after.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moved {
    /// What was done, as `work` has it: `honed`; `new rods` where that part of the sheet was changed.
    pub work: &'static str,
    /// Metres of change for each metre taken, where that is plain geometry; the reading grows by it.
    pub by: Option<f64>,
}

impl ReadingField {
    /// Its name under `readings`.
    #[must_use]
    pub fn name(&self) -> &'static str {
        self.field.path.strip_prefix("readings.").unwrap_or(self.field.path)
    }
    pub(crate) const fn new(field: Field, axis: Axis, points: Points, gauge: &'static str) -> Self {
        Self { field, axis, points, gauge, grows_with: None, agrees_with: &[], moved_by: &[], when_read: false }
    }
    pub(crate) const fn grows_with(self, path: &'static str) -> Self {
        Self { grows_with: Some(path), ..self }
    }
    pub(crate) const fn agrees_with(self, agrees_with: &'static [Agreement]) -> Self {
        Self { agrees_with, ..self }
    }
    pub(crate) const fn moved_by(self, moved_by: &'static [Moved]) -> Self {
        Self { moved_by, ..self }
    }
    pub(crate) const fn when_read(self) -> Self {
        Self { when_read: true, ..self }
    }
}

impl Moved {
    /// Whether this is the work: what was done, and the part where it was changed.
    #[must_use]
    pub fn is(&self, did: &str, part: Option<&str>) -> bool {
        match self.work.strip_prefix("new ") {
            Some(section) => did == "part-changed" && part == Some(section),
            None => did == self.work,
        }
    }
}

pub(crate) const fn after(work: &'static str) -> Moved {
    Moved { work, by: None }
}

pub(crate) const fn by(work: &'static str, by: f64) -> Moved {
    Moved { work, by: Some(by) }
}
