//! The parts that readings and happenings speak of, by the names that a log's entries and the house's services have.
//!
//! They stand here and not in a manifest: what a leak-down says of rings, or an over-rev of rod bolts, is known of engines
//! and of no one service; and what a log says was fitted is a part's name and nothing else. A test holds each to the part
//! of a service. What a part wears by and what holds it stand in the manifests, for parts of any name.

/// What a missed gear asks most of.
pub const ROD_BOLTS: &str = "rod bolts";
/// The section of the sheet that holds them: a service that says so of its part, under whatever name, is theirs.
pub const HOLDS_ROD_BOLTS: &str = "fasteners.rod-bolts";

/// The others.
pub const BORES: &str = "bores";
pub const CAMSHAFT: &str = "camshaft";
pub const DAMPER: &str = "damper";
pub const ENGINE_OIL: &str = "engine oil";
pub const HEAD_GASKET: &str = "head gasket";
pub const MAIN_BEARINGS: &str = "main bearings";
pub const PISTONS: &str = "pistons and pins";
pub const PUSHRODS: &str = "pushrods";
pub const RINGS: &str = "rings";
pub const ROCKERS: &str = "rockers";
pub const ROD_BEARINGS: &str = "rod bearings";
pub const ROLLER_LIFTERS: &str = "roller lifters";
pub const TIMING_DRIVE: &str = "timing drive";
pub const VALVES: &str = "valves and seats";
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
