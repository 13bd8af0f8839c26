//! The table: what is timed is the same forty windows everywhere. The figures are invented, in the order of size that
//! the trade's are of.

use Scale::{Bore as BORE, Fixed as FIXED, Main as MAIN, Rod as ROD};

/// What a row's figures are multiplied by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Scale {
    /// Thou.
    Fixed,
    /// Thou an inch of bore.
    Bore,
    /// Thou an inch of main journal.
    Main,
    /// Thou an inch of crankpin.
    Rod,
}

impl Scale {
    /// The fact that the figures are multiplied by.
    #[must_use]
    pub const fn fact(self) -> Option<&'static str> {
        match self {
            Self::Fixed => None,
            Self::Bore => Some("bore.nominal"),
            Self::Main => Some("main-journal.nominal"),
            Self::Rod => Some("rod-journal.nominal"),
        }
    }
}

/// One window: from and to, by use, and what an adder adds to each.
#[derive(Debug, Clone, Copy)]
pub struct Row {
    /// The rule.
    pub id: &'static str,
    /// The fact that it judges.
    pub judges: &'static [&'static str],
    /// What the figures are multiplied by.
    pub scale: Scale,
    /// On the street.
    pub street: (f64, f64),
    /// Of a bracket engine.
    pub bracket: (f64, f64),
    /// All out.
    pub all_out: (f64, f64),
    /// More with nitrous, turbo or blower.
    pub added: (f64, f64),
}

const fn row(
    id: &'static str,
    judges: &'static [&'static str],
    scale: Scale,
    street: (f64, f64),
    bracket: (f64, f64),
    all_out: (f64, f64),
    added: (f64, f64),
) -> Row {
    Row { id, judges, scale, street, bracket, all_out, added }
}

/// Forty windows.
pub const TABLE: [Row; 40] = [
    row("wall-bore", &["piston-to-wall"], BORE, (0.8, 1.147), (1.0, 1.35), (1.1, 1.552), (0.25, 0.54)),
    row("wall-used", &["piston-to-wall"], BORE, (0.8, 1.53), (1.0, 1.8), (1.1, 2.07), (0.25, 0.72)),
    row("round", &["bore.out-of-round"], FIXED, (0.0, 0.425), (0.0, 0.5), (0.0, 0.575), (0.0, 0.2)),
    row("taper", &["bore.taper"], FIXED, (0.0, 0.595), (0.0, 0.7), (0.0, 0.805), (0.0, 0.28)),
    row("top-gap", &["ring.top.end-gap"], BORE, (4.0, 5.1), (5.0, 6.0), (5.5, 6.9), (1.25, 2.4)),
    row("second-gap", &["ring.second.end-gap"], BORE, (4.4, 5.525), (5.5, 6.5), (6.05, 7.475), (1.375, 2.6)),
    row("rail-gap", &["ring.oil.end-gap"], BORE, (3.2, 6.8), (4.0, 8.0), (4.4, 9.2), (1.0, 3.2)),
    row("top-side", &["ring.top.axial-clearance"], FIXED, (0.8, 2.125), (1.0, 2.5), (1.1, 2.875), (0.25, 1.0)),
    row("second-side", &["ring.second.axial-clearance"], FIXED, (0.8, 2.125), (1.0, 2.5), (1.1, 2.875), (0.25, 1.0)),
    row("top-back", &["ring.top.back-clearance"], FIXED, (2.4, 6.8), (3.0, 8.0), (3.3, 9.2), (0.75, 3.2)),
    row("second-back", &["ring.second.back-clearance"], FIXED, (2.4, 6.8), (3.0, 8.0), (3.3, 9.2), (0.75, 3.2)),
    row("pin", &["pin-to-piston.clearance"], FIXED, (0.48, 0.85), (0.6, 1.0), (0.66, 1.15), (0.15, 0.4)),
    row("bush", &["pin-to-rod.clearance"], FIXED, (0.56, 0.935), (0.7, 1.1), (0.77, 1.265), (0.175, 0.44)),
    row("pin-end", &["pin.end-play"], FIXED, (0.0, 4.25), (0.0, 5.0), (0.0, 5.75), (0.0, 2.0)),
    row("mains", &["main-bearing.clearance"], MAIN, (0.76, 0.977), (0.95, 1.15), (1.045, 1.322), (0.237, 0.46)),
    row("mains-used", &["main-bearing.clearance"], MAIN, (0.72, 1.19), (0.9, 1.4), (0.99, 1.61), (0.225, 0.56)),
    row("rods", &["rod-bearing.clearance"], ROD, (0.84, 1.062), (1.05, 1.25), (1.155, 1.438), (0.263, 0.5)),
    row("rods-used", &["rod-bearing.clearance"], ROD, (0.8, 1.275), (1.0, 1.5), (1.1, 1.725), (0.25, 0.6)),
    row("main-journal", &["main-journal.out-of-round"], FIXED, (0.0, 0.255), (0.0, 0.3), (0.0, 0.345), (0.0, 0.12)),
    row("rod-journal", &["rod-journal.out-of-round"], FIXED, (0.0, 0.255), (0.0, 0.3), (0.0, 0.345), (0.0, 0.12)),
    row("main-housing", &["main-housing.out-of-round"], FIXED, (0.0, 0.51), (0.0, 0.6), (0.0, 0.69), (0.0, 0.24)),
    row("rod-housing", &["rod-housing.out-of-round"], FIXED, (0.0, 0.34), (0.0, 0.4), (0.0, 0.46), (0.0, 0.16)),
    row("line", &["main-housing.alignment"], FIXED, (0.0, 0.85), (0.0, 1.0), (0.0, 1.15), (0.0, 0.4)),
    row("thrust", &["crank.end-play"], FIXED, (4.0, 7.65), (5.0, 9.0), (5.5, 10.35), (1.25, 3.6)),
    row("straight", &["crank.run-out"], FIXED, (0.0, 0.85), (0.0, 1.0), (0.0, 1.15), (0.0, 0.4)),
    row("side", &["rod.side-clearance"], FIXED, (12.8, 20.4), (16.0, 24.0), (17.6, 27.6), (4.0, 9.6)),
    row("fillet", &["bearing-to-fillet"], FIXED, (8.0, 34.0), (10.0, 40.0), (11.0, 46.0), (2.5, 16.0)),
    row("damper", &["damper.fit"], FIXED, (0.56, 1.19), (0.7, 1.4), (0.77, 1.61), (0.175, 0.56)),
    row("cam-fit", &["cam-bearing.clearance"], FIXED, (1.6, 3.4), (2.0, 4.0), (2.2, 4.6), (0.5, 1.6)),
    row("cam-end", &["cam.end-play"], FIXED, (3.2, 6.8), (4.0, 8.0), (4.4, 9.2), (1.0, 3.2)),
    row("lifter", &["lifter-to-bore.clearance"], FIXED, (0.96, 1.615), (1.2, 1.9), (1.32, 2.185), (0.3, 0.76)),
    row("inlet-guide", &["stem-to-guide.clearance"], FIXED, (0.8, 1.36), (1.0, 1.6), (1.1, 1.84), (0.25, 0.64)),
    row("exhaust-guide", &["stem-to-guide.clearance"], FIXED, (1.12, 1.87), (1.4, 2.2), (1.54, 2.53), (0.35, 0.88)),
    row("seat", &["seat.run-out"], FIXED, (0.0, 1.275), (0.0, 1.5), (0.0, 1.725), (0.0, 0.6)),
    row("margin", &["valve.margin"], FIXED, (36.0, 76.5), (45.0, 90.0), (49.5, 103.5), (11.25, 36.0)),
    row("bind", &["coil-bind.room"], FIXED, (48.0, 93.5), (60.0, 110.0), (66.0, 126.5), (15.0, 44.0)),
    row("seal", &["retainer-to-seal"], FIXED, (40.0, 102.0), (50.0, 120.0), (55.0, 138.0), (12.5, 48.0)),
    row("quench", &["piston-to-head"], BORE, (7.6, 10.625), (9.5, 12.5), (10.45, 14.375), (2.375, 5.0)),
    row("head-overhang", &["gasket.overhang"], BORE, (2.4, 17.0), (3.0, 20.0), (3.3, 23.0), (0.75, 8.0)),
    row("pump", &["oil-pump.end-clearance"], FIXED, (1.2, 2.55), (1.5, 3.0), (1.65, 3.45), (0.375, 1.2)),
];
