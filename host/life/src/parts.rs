//! The parts that readings and happenings speak of, by the names that a log's entries and the house's services have.
//!
//! They stand here and not in a manifest: what a leak-down says of rings, or an over-rev of rod bolts, is known of engines
//! and of no one service; and what a log says was fitted is a part's name and nothing else. A test holds each to the part
//! of a service. What a part wears by and what holds it stand in the manifests, for parts of any name.

/// What a missed gear asks most of.
pub const ROD_BOLTS: &str = "rod bolts";
/// The section of the sheet that holds them: a service that says so of its part, under whatever name, is theirs.
pub const HOLDS_ROD_BOLTS: &str = "fasteners.rod-bolts";

/// The cylinders' bores.
pub const BORES: &str = "bores";
/// The camshaft.
pub const CAMSHAFT: &str = "camshaft";
/// The damper.
pub const DAMPER: &str = "damper";
/// The oil.
pub const ENGINE_OIL: &str = "engine oil";
/// The head gasket.
pub const HEAD_GASKET: &str = "head gasket";
/// The shells of the mains.
pub const MAIN_BEARINGS: &str = "main bearings";
/// The pistons with their pins.
pub const PISTONS: &str = "pistons and pins";
/// The pushrods.
pub const PUSHRODS: &str = "pushrods";
/// The rings.
pub const RINGS: &str = "rings";
/// The rockers.
pub const ROCKERS: &str = "rockers";
/// The shells of the rods.
pub const ROD_BEARINGS: &str = "rod bearings";
/// Lifters with a roller.
pub const ROLLER_LIFTERS: &str = "roller lifters";
/// The chain, belt or gears of the cam.
pub const TIMING_DRIVE: &str = "timing drive";
/// The valves with their seats.
pub const VALVES: &str = "valves and seats";
/// The springs of the valves.
pub const VALVE_SPRINGS: &str = "valve springs";

/// All of them.
pub const NAMED: [&str; 16] = [
    BORES,
    CAMSHAFT,
    DAMPER,
    ENGINE_OIL,
    HEAD_GASKET,
    MAIN_BEARINGS,
    PISTONS,
    PUSHRODS,
    RINGS,
    ROCKERS,
    ROD_BEARINGS,
    ROD_BOLTS,
    ROLLER_LIFTERS,
    TIMING_DRIVE,
    VALVES,
    VALVE_SPRINGS,
];
