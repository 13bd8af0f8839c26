//! Readings of sizes that the sheet states and every other fact takes as stated: they are set against one another.

use crate::builder::Builder;
use crate::reduce::Pick::Mean;
use thou_sheet::Axis::{Bank, Crankpin, Cylinder, One, Rod};

pub(super) fn facts(b: &mut Builder) {
    b.read("deck.height.read", "length", Bank, "readings.deck-height", Mean, "Deck height as read.").part("block");
    b.read("crank.stroke.read", "length", Crankpin, "readings.crank-throw", Mean, "Stroke of each throw as read.")
        .part("crank");
    b.read(
        "rod.length.read",
        "length",
        Rod,
        "readings.rod-centre-length",
        Mean,
        "Each rod, centre to centre, as read.",
    )
    .part("rods");
    b.read(
        "piston.compression-height.read",
        "length",
        Cylinder,
        "readings.piston-compression-height",
        Mean,
        "Compression height of each piston as read.",
    )
    .part("pistons");
    b.read("piston.dome.read", "volume", Cylinder, "readings.dome-volume", Mean, "Dome of each piston as poured.")
        .part("pistons");
    b.read(
        "cam.inlet.centre-line.read",
        "angle",
        One,
        "readings.inlet-centre-line",
        Mean,
        "Inlet center line as degreed.",
    )
    .part("cam");
    b.read(
        "cam.exhaust.centre-line.read",
        "angle",
        One,
        "readings.exhaust-centre-line",
        Mean,
        "Exhaust center line as degreed.",
    )
    .part("cam");
}
