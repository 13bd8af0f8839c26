//! What moves what: the one table behind stale readings and behind what a remedy disturbs.
//!
//! Common practice, no source, but for the factors, which are geometry.

/// One effect of work on a reading.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Move {
    /// The key under `readings` that is no longer true.
    pub reading: &'static str,
    /// Metres of change for each metre taken, where that is plain geometry; the reading grows by it.
    pub factor: Option<f64>,
}

const fn m(reading: &'static str) -> Move {
    Move { reading, factor: None }
}
const fn by(reading: &'static str, factor: f64) -> Move {
    Move { reading, factor: Some(factor) }
}

const PI: f64 = std::f64::consts::PI;

/// A bore that is opened by d has its gaps opened by pi d, and all that was read in it is gone.
const BORE_OPENED: &[Move] = &[
    by("bore", 1.0),
    by("piston-to-wall", 1.0),
    by("top-gap", PI),
    by("second-gap", PI),
    by("rail-gap", PI),
    by("wall-thickness", -0.5),
    m("bore-rpk"),
    m("bore-rk"),
    m("bore-rvk"),
    m("crosshatch"),
    m("leak-down"),
    m("cranking-pressure"),
];
const DECK_CUT: &[Move] = &[
    by("deck-clearance", -1.0),
    by("piston-to-head", -1.0),
    m("piston-to-valve"),
    m("deck-flatness"),
    m("deck-roughness"),
    m("bore-chamfer"),
    m("wire-protrusion"),
    m("preload"),
];
const HEAD_CUT: &[Move] = &[
    m("chamber-volume"),
    m("piston-to-head"),
    m("piston-to-valve"),
    m("head-flatness"),
    m("head-roughness"),
    m("preload"),
];
const LINE_HONED: &[Move] = &[
    m("main-housing"),
    m("main-inside"),
    m("main-clearance"),
    m("main-crush"),
    m("main-alignment-adjacent"),
    m("main-alignment-overall"),
    m("deck-clearance"),
    m("piston-to-head"),
];
const CRANK_GROUND: &[Move] = &[
    m("main-journal"),
    m("rod-journal"),
    by("main-clearance", 1.0),
    by("rod-clearance", 1.0),
    m("crank-straightness"),
    m("journal-roughness"),
    m("main-shell-to-fillet"),
    m("rod-shell-to-fillet"),
    m("balance-front"),
    m("balance-rear"),
];
const CRANK_POLISHED: &[Move] =
    &[m("main-journal"), m("rod-journal"), by("main-clearance", 1.0), by("rod-clearance", 1.0), m("journal-roughness")];
const RODS_RESIZED: &[Move] = &[
    m("rod-housing"),
    m("rod-inside"),
    m("rod-clearance"),
    m("rod-crush"),
    m("rod-big-end"),
    m("deck-clearance"),
    m("piston-to-head"),
];
const GUIDES: &[Move] = &[by("guide-bore", 1.0), by("stem-to-guide", 1.0), m("seat-runout"), m("seat-vacuum")];
const SEATS: &[Move] = &[
    m("seat-runout"),
    m("seat-contact-width"),
    m("seat-vacuum"),
    m("installed-height"),
    m("seat-load"),
    m("open-load"),
    m("chamber-volume"),
    m("piston-to-valve"),
    m("preload"),
    m("lash-cold"),
    m("retainer-to-seal"),
];

const NEW_PISTONS: &[Move] = &[
    m("piston"),
    m("piston-to-wall"),
    m("deck-clearance"),
    m("piston-to-head"),
    m("piston-to-valve"),
    m("valve-radial"),
    m("piston-mass"),
    m("pin-bore"),
    m("pin-to-piston"),
    m("pin-end-play"),
    m("top-axial-clearance"),
    m("second-axial-clearance"),
    m("top-back-clearance"),
    m("oil-back-clearance"),
    m("balance-front"),
    m("balance-rear"),
];
const NEW_RODS: &[Move] = &[
    m("rod-housing"),
    m("rod-inside"),
    m("rod-clearance"),
    m("rod-crush"),
    m("rod-side-clearance"),
    m("rod-bush"),
    m("pin-to-rod"),
    m("rod-bolt-stretch"),
    m("rod-bolt-growth"),
    m("rod-big-end"),
    m("rod-small-end"),
    m("rod-to-block"),
    m("rod-to-cam"),
    m("deck-clearance"),
    m("piston-to-head"),
    m("piston-to-valve"),
    m("balance-front"),
    m("balance-rear"),
];
const NEW_CRANK: &[Move] = &[
    m("main-journal"),
    m("rod-journal"),
    m("main-clearance"),
    m("rod-clearance"),
    m("end-play"),
    m("crank-straightness"),
    m("rod-side-clearance"),
    m("counterweight-to-block"),
    m("deck-clearance"),
    m("piston-to-head"),
    m("balance-front"),
    m("balance-rear"),
];
const NEW_BEARINGS: &[Move] = &[
    m("main-shell"),
    m("rod-shell"),
    m("main-inside"),
    m("rod-inside"),
    m("main-clearance"),
    m("rod-clearance"),
    m("main-crush"),
    m("rod-crush"),
    m("end-play"),
];
const NEW_RINGS: &[Move] = &[
    m("top-gap"),
    m("second-gap"),
    m("rail-gap"),
    m("top-axial-clearance"),
    m("second-axial-clearance"),
    m("top-back-clearance"),
    m("oil-back-clearance"),
    m("leak-down"),
    m("cranking-pressure"),
];
const NEW_GASKET: &[Move] = &[m("piston-to-head"), m("piston-to-valve"), m("valve-to-valve"), m("preload")];
const NEW_CAM: &[Move] = &[
    m("valve-lift"),
    m("piston-to-valve"),
    m("lash-cold"),
    m("preload"),
    m("open-load"),
    m("retainer-to-seal"),
    m("cam-end-play"),
    m("cam-clearance"),
    m("rod-to-cam"),
    m("idle-vacuum"),
];
const NEW_SPRINGS: &[Move] = &[
    m("installed-height"),
    m("seat-load"),
    m("open-load"),
    m("bind-height"),
    m("seat-load-run-in"),
    m("retainer-to-seal"),
];
const NEW_ROCKERS: &[Move] = &[
    m("rocker-ratio"),
    m("valve-lift"),
    m("lash-cold"),
    m("preload"),
    m("open-load"),
    m("retainer-to-seal"),
    m("piston-to-valve"),
    m("pushrod-to-head"),
];
const NEW_VALVES: &[Move] = &[
    m("stem"),
    m("stem-to-guide"),
    m("seat-vacuum"),
    m("seat-contact-width"),
    m("valve-margin"),
    m("installed-height"),
    m("seat-load"),
    m("open-load"),
    m("piston-to-valve"),
    m("valve-radial"),
    m("lash-cold"),
    m("chamber-volume"),
];
const NEW_HEADS: &[Move] = &[
    m("chamber-volume"),
    m("head-flatness"),
    m("head-roughness"),
    m("guide-bore"),
    m("stem-to-guide"),
    m("seat-runout"),
    m("seat-contact-width"),
    m("seat-vacuum"),
    m("installed-height"),
    m("seat-load"),
    m("open-load"),
    m("piston-to-head"),
    m("piston-to-valve"),
    m("valve-radial"),
    m("valve-to-valve"),
    m("pushrod-to-head"),
    m("lash-cold"),
    m("preload"),
];
/// The housing takes another shape under another fastener: line hone again, and nothing read before counts.
const NEW_MAIN_STUDS: &[Move] = LINE_HONED;

/// What this work makes untrue. `part` tells which part was changed.
#[must_use]
pub fn of(did: &str, part: Option<&str>) -> &'static [Move] {
    match (did, part) {
        ("bored" | "honed", _) => BORE_OPENED,
        ("decked", _) => DECK_CUT,
        ("heads-milled", _) => HEAD_CUT,
        ("line-honed", _) => LINE_HONED,
        ("crank-ground", _) => CRANK_GROUND,
        ("crank-polished", _) => CRANK_POLISHED,
        ("rods-resized", _) => RODS_RESIZED,
        ("guides-honed", _) => GUIDES,
        ("seats-cut", _) => SEATS,
        ("part-changed", Some(part)) => match part {
            "pistons" => NEW_PISTONS,
            "rods" => NEW_RODS,
            "crank" => NEW_CRANK,
            "bearings" => NEW_BEARINGS,
            "rings" => NEW_RINGS,
            "gasket" => NEW_GASKET,
            "cam" => NEW_CAM,
            "springs" => NEW_SPRINGS,
            "valvetrain" | "rockers" => NEW_ROCKERS,
            "valves" => NEW_VALVES,
            "heads" => NEW_HEADS,
            "fasteners.mains" | "mains" => NEW_MAIN_STUDS,
            _ => &[],
        },
        _ => &[],
    }
}

/// What setting a fact to size disturbs, in words with the amount: `{by}` is the change, `{pi-by}` pi times it.
#[must_use]
pub fn knock_on(fact: &str) -> Option<&'static str> {
    Some(match fact {
        "bore.diameter" => {
            "It opens the ring gaps there by {pi-by}, file them after; the finish is to be done again, and the ring \
             gaps, the finish and the fit to be read again."
        }
        "gasket.thickness" => "Piston to valve moves by {by} too.",
        "gasket.bore" => "The gasket's volume moves with it.",
        "rod-journal.diameter" | "main-journal.diameter" => {
            "Polish both ends alike; read round, taper and every clearance on it again."
        }
        "guide-bore" => "The cutter follows the guide: read seat runout again, and cut the seat if it says so.",
        "lash.cold" => "Lift, and piston to valve, move with the lash.",
        "spring.installed-height" => "Seat and open load move with it.",
        "piston.compression-height" => "The crown's thickness and the balance move with it.",
        "deck-height" => "Piston to valve, the intake faces and the pushrods move with it.",
        _ => return None,
    })
}

/// Whether setting this fact to size takes metal off, so that it cannot be undone.
#[must_use]
pub fn cuts_metal(fact: &str) -> bool {
    matches!(
        fact,
        "bore.diameter"
            | "bore.chamfer"
            | "deck-height"
            | "main-housing.diameter"
            | "rod-housing.diameter"
            | "main-journal.diameter"
            | "rod-journal.diameter"
            | "lifter-bore"
            | "guide-bore"
            | "pin-bore"
            | "rod-bush"
            | "chamber.volume"
            | "piston.compression-height"
            | "ring.top.gap"
            | "ring.second.gap"
            | "ring.rail.gap"
    )
}
