//! Every reading that a sheet can hold: its kind, what it runs over, the points read at one place, and the sizes that
//! an engine can have at all. A value outside these is a slip of the pen, not a bad part.

use super::model::Axis;
use thou_contract::Kind;

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
pub struct ReadingKey {
    /// Its name under `readings`.
    pub key: &'static str,
    /// Id of its kind of quantity.
    pub kind: &'static str,
    /// What it runs over.
    pub axis: Axis,
    /// Its points by default.
    pub points: Points,
    /// Smallest that can be, as text.
    pub low: &'static str,
    /// Largest that can be, as text.
    pub high: &'static str,
}

impl ReadingKey {
    /// The reading of this name.
    #[must_use]
    pub fn by_name(name: &str) -> Option<&'static Self> {
        READINGS.iter().find(|r| r.key == name)
    }
    /// Its kind of quantity.
    #[must_use]
    pub fn quantity(&self) -> Option<Kind> {
        Kind::by_id(self.kind)
    }
}

const fn key(
    key: &'static str,
    kind: &'static str,
    axis: Axis,
    points: Points,
    low: &'static str,
    high: &'static str,
) -> ReadingKey {
    ReadingKey { key, kind, axis, points, low, high }
}

/// Every reading, in the order of the schema.
pub const READINGS: &[ReadingKey] = &[
    key("bore", "length", Axis::Cylinder, Points::Bore, "0.5 in", "20 in"),
    key("bore-chamfer", "length", Axis::Cylinder, Points::One, "0.5 in", "20 in"),
    key("bore-rpk", "roughness", Axis::Cylinder, Points::One, "0 µin", "1000 µin"),
    key("bore-rk", "roughness", Axis::Cylinder, Points::One, "0 µin", "1000 µin"),
    key("bore-rvk", "roughness", Axis::Cylinder, Points::One, "0 µin", "1000 µin"),
    key("bore-rz", "roughness", Axis::Cylinder, Points::One, "0 µin", "5000 µin"),
    key("crosshatch", "angle", Axis::Cylinder, Points::One, "1 deg", "179 deg"),
    key("wall-thickness", "length", Axis::Cylinder, Points::Wall, "0.01 in", "3 in"),
    key("bore-squareness", "clearance", Axis::Cylinder, Points::One, "0 thou", "60 thou"),
    key("liner-protrusion", "clearance", Axis::Cylinder, Points::One, "-50 thou", "100 thou"),
    key("deck-height", "length", Axis::Bank, Points::One, "1 in", "40 in"),
    key("deck-flatness", "clearance", Axis::Bank, Points::One, "0 thou", "60 thou"),
    key("deck-roughness", "roughness", Axis::Bank, Points::One, "0 µin", "1000 µin"),
    key("deck-squareness", "clearance", Axis::Bank, Points::One, "0 thou", "60 thou"),
    key("head-flatness", "clearance", Axis::Bank, Points::One, "0 thou", "60 thou"),
    key("head-roughness", "roughness", Axis::Bank, Points::One, "0 µin", "1000 µin"),
    key("main-housing", "length", Axis::Main, Points::Ends, "0.3 in", "12 in"),
    key("main-shell", "length", Axis::Main, Points::One, "0.01 in", "0.6 in"),
    key("main-inside", "length", Axis::Main, Points::One, "0.3 in", "12 in"),
    key("main-journal", "length", Axis::Main, Points::Ends, "0.3 in", "12 in"),
    key("main-clearance", "clearance", Axis::Main, Points::One, "-20 thou", "100 thou"),
    key("main-alignment-adjacent", "clearance", Axis::One, Points::One, "0 thou", "60 thou"),
    key("main-alignment-overall", "clearance", Axis::One, Points::One, "0 thou", "60 thou"),
    key("main-crush", "clearance", Axis::Main, Points::One, "-20 thou", "100 thou"),
    key("main-shell-to-fillet", "gap", Axis::Main, Points::One, "-0.25 in", "3 in"),
    key("main-cap-register", "clearance", Axis::Main, Points::One, "-20 thou", "100 thou"),
    key("end-play", "clearance", Axis::One, Points::One, "-20 thou", "100 thou"),
    key("thrust-width", "length", Axis::One, Points::One, "0.2 in", "6 in"),
    key("crank-straightness", "clearance", Axis::Main, Points::One, "0 thou", "60 thou"),
    key("crank-throw", "length", Axis::Crankpin, Points::One, "0.2 in", "12 in"),
    key("throw-index", "angle", Axis::Crankpin, Points::One, "-5 deg", "5 deg"),
    key("journal-roughness", "roughness", Axis::Main, Points::One, "0 µin", "1000 µin"),
    key("snout", "length", Axis::One, Points::One, "0.2 in", "6 in"),
    key("flange-runout", "clearance", Axis::One, Points::One, "0 thou", "60 thou"),
    key("counterweight-to-block", "gap", Axis::One, Points::One, "-0.25 in", "3 in"),
    key("rod-housing", "length", Axis::Rod, Points::Ends, "0.3 in", "12 in"),
    key("rod-shell", "length", Axis::Rod, Points::One, "0.01 in", "0.6 in"),
    key("rod-inside", "length", Axis::Rod, Points::One, "0.3 in", "12 in"),
    key("rod-journal", "length", Axis::Crankpin, Points::Ends, "0.3 in", "12 in"),
    key("rod-clearance", "clearance", Axis::Rod, Points::One, "-20 thou", "100 thou"),
    key("rod-crush", "clearance", Axis::Rod, Points::One, "-20 thou", "100 thou"),
    key("rod-shell-to-fillet", "gap", Axis::Rod, Points::One, "-0.25 in", "3 in"),
    key("rod-side-clearance", "gap", Axis::Crankpin, Points::One, "-0.25 in", "3 in"),
    key("rod-centre-length", "length", Axis::Rod, Points::One, "1 in", "30 in"),
    key("rod-bend", "clearance", Axis::Rod, Points::One, "0 thou", "60 thou"),
    key("rod-twist", "clearance", Axis::Rod, Points::One, "0 thou", "60 thou"),
    key("rod-small-end", "mass", Axis::Rod, Points::One, "1 g", "20 kg"),
    key("rod-big-end", "mass", Axis::Rod, Points::One, "1 g", "50 kg"),
    key("rod-bush", "length", Axis::Rod, Points::One, "0.2 in", "4 in"),
    key("rod-bolt-stretch", "clearance", Axis::Rod, Points::One, "0 thou", "100 thou"),
    key("rod-bolt-growth", "clearance", Axis::Rod, Points::One, "-5 thou", "100 thou"),
    key("rod-to-block", "gap", Axis::One, Points::One, "-0.25 in", "3 in"),
    key("rod-to-cam", "gap", Axis::One, Points::One, "-0.25 in", "3 in"),
    key("piston", "length", Axis::Cylinder, Points::One, "0.5 in", "20 in"),
    key("piston-to-wall", "clearance", Axis::Cylinder, Points::One, "-20 thou", "100 thou"),
    key("piston-mass", "mass", Axis::Cylinder, Points::One, "5 g", "20 kg"),
    key("piston-compression-height", "length", Axis::Cylinder, Points::One, "0.2 in", "8 in"),
    key("skirt-collapse", "clearance", Axis::Cylinder, Points::One, "0 thou", "60 thou"),
    key("crown-thickness", "length", Axis::Cylinder, Points::One, "0.02 in", "3 in"),
    key("pin-bore", "length", Axis::Cylinder, Points::One, "0.2 in", "4 in"),
    key("pin", "length", Axis::Cylinder, Points::One, "0.2 in", "4 in"),
    key("pin-to-piston", "clearance", Axis::Cylinder, Points::One, "-20 thou", "100 thou"),
    key("pin-to-rod", "clearance", Axis::Cylinder, Points::One, "-20 thou", "100 thou"),
    key("pin-end-play", "clearance", Axis::Cylinder, Points::One, "-20 thou", "100 thou"),
    key("deck-clearance", "gap", Axis::Cylinder, Points::One, "-1 in", "3 in"),
    key("piston-to-head", "gap", Axis::Cylinder, Points::One, "-0.25 in", "3 in"),
    key("wire-protrusion", "clearance", Axis::Cylinder, Points::One, "-20 thou", "100 thou"),
    key("chamber-volume", "volume", Axis::Cylinder, Points::One, "1 cc", "2000 cc"),
    key("dome-volume", "volume", Axis::Cylinder, Points::One, "-500 cc", "500 cc"),
    key("top-gap", "gap", Axis::Cylinder, Points::One, "0 in", "0.5 in"),
    key("second-gap", "gap", Axis::Cylinder, Points::One, "0 in", "0.5 in"),
    key("rail-gap", "gap", Axis::Cylinder, Points::One, "0 in", "0.5 in"),
    key("top-axial-clearance", "clearance", Axis::Cylinder, Points::One, "-20 thou", "100 thou"),
    key("second-axial-clearance", "clearance", Axis::Cylinder, Points::One, "-20 thou", "100 thou"),
    key("top-back-clearance", "clearance", Axis::Cylinder, Points::One, "-20 thou", "100 thou"),
    key("oil-back-clearance", "clearance", Axis::Cylinder, Points::One, "-20 thou", "100 thou"),
    key("guide-bore", "length", Axis::Valve, Points::One, "0.1 in", "1 in"),
    key("stem", "length", Axis::Valve, Points::One, "0.1 in", "1 in"),
    key("stem-to-guide", "clearance", Axis::Valve, Points::One, "-20 thou", "100 thou"),
    key("stem-runout", "clearance", Axis::Valve, Points::One, "0 thou", "60 thou"),
    key("face-runout", "clearance", Axis::Valve, Points::One, "0 thou", "60 thou"),
    key("seat-runout", "clearance", Axis::Valve, Points::One, "0 thou", "60 thou"),
    key("seat-contact-width", "gap", Axis::Valve, Points::One, "0 in", "0.5 in"),
    key("seat-vacuum", "pressure", Axis::Valve, Points::One, "0 inHg", "31 inHg"),
    key("seat-recession", "clearance", Axis::Valve, Points::One, "-20 thou", "100 thou"),
    key("stem-height", "length", Axis::Valve, Points::One, "0.2 in", "6 in"),
    key("valve-margin", "gap", Axis::Valve, Points::One, "0 in", "0.5 in"),
    key("valve-lift", "length", Axis::Valve, Points::One, "0.02 in", "3 in"),
    key("valve-radial", "gap", Axis::Valve, Points::One, "-0.25 in", "3 in"),
    key("valve-to-valve", "gap", Axis::Cylinder, Points::One, "-0.25 in", "3 in"),
    key("piston-to-valve", "gap", Axis::Valve, Points::One, "-0.25 in", "3 in"),
    key("installed-height", "length", Axis::Valve, Points::One, "0.5 in", "5 in"),
    key("bind-height", "length", Axis::Valve, Points::One, "0.2 in", "4 in"),
    key("seat-load", "force", Axis::Valve, Points::One, "5 lb", "5000 lb"),
    key("open-load", "force", Axis::Valve, Points::One, "5 lb", "5000 lb"),
    key("seat-load-run-in", "force", Axis::Valve, Points::One, "5 lb", "5000 lb"),
    key("spring-free-length", "length", Axis::Valve, Points::One, "0.5 in", "8 in"),
    key("retainer-to-seal", "gap", Axis::Valve, Points::One, "-0.25 in", "3 in"),
    key("rocker-ratio", "ratio", Axis::Valve, Points::One, "0.5", "4"),
    key("lifter-bore", "length", Axis::Valve, Points::One, "0.2 in", "3 in"),
    key("lifter", "length", Axis::Valve, Points::One, "0.2 in", "3 in"),
    key("lifter-to-bore", "clearance", Axis::Valve, Points::One, "-20 thou", "100 thou"),
    key("lash-cold", "clearance", Axis::Valve, Points::One, "0 thou", "100 thou"),
    key("preload", "gap", Axis::Valve, Points::One, "-0.1 in", "0.5 in"),
    key("pushrod-to-head", "gap", Axis::Valve, Points::One, "-0.25 in", "3 in"),
    key("cam-housing", "length", Axis::CamJournal, Points::Ends, "0.3 in", "6 in"),
    key("cam-journal", "length", Axis::CamJournal, Points::One, "0.3 in", "6 in"),
    key("cam-clearance", "clearance", Axis::CamJournal, Points::One, "-20 thou", "100 thou"),
    key("cam-end-play", "clearance", Axis::One, Points::One, "-20 thou", "100 thou"),
    key("cam-runout", "clearance", Axis::One, Points::One, "0 thou", "60 thou"),
    key("inlet-centre-line", "angle", Axis::One, Points::One, "60 deg", "160 deg"),
    key("exhaust-centre-line", "angle", Axis::One, Points::One, "60 deg", "160 deg"),
    key("damper-interference", "clearance", Axis::One, Points::One, "-20 thou", "100 thou"),
    key("balance-front", "unbalance", Axis::One, Points::One, "0 oz-in", "100 oz-in"),
    key("balance-rear", "unbalance", Axis::One, Points::One, "0 oz-in", "100 oz-in"),
    key("oil-pump-end", "clearance", Axis::One, Points::One, "-20 thou", "100 thou"),
    key("oil-pump-side", "clearance", Axis::One, Points::One, "-20 thou", "100 thou"),
    key("pickup-to-pan", "gap", Axis::One, Points::One, "-0.25 in", "3 in"),
    key("oil-pressure-hot", "pressure", Axis::One, Points::One, "0 psi", "300 psi"),
    key("oil-pressure-idle", "pressure", Axis::One, Points::One, "0 psi", "300 psi"),
    key("idle-vacuum", "pressure", Axis::One, Points::One, "0 inHg", "31 inHg"),
    key("blow-by", "volume-flow", Axis::One, Points::One, "0 cfm", "500 cfm"),
    key("turning-torque", "torque", Axis::One, Points::One, "0 lb-ft", "1000 lb-ft"),
    key("leak-down", "percent", Axis::Cylinder, Points::One, "0 %", "100 %"),
    key("cranking-pressure", "pressure", Axis::Cylinder, Points::One, "0 psi", "1000 psi"),
];
