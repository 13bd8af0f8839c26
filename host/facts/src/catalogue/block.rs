//! The block: its bores and its decks.

use crate::builder::Builder;
use crate::reduce::Pick::{Largest, OutOfRound, Smallest, SmallestOf, Taper};
use thou_sheet::Axis::{Bank, Cylinder, Main, One};
use uom::si::f64::{Length, Ratio, Torque};

pub(super) fn facts(b: &mut Builder) {
    casting(b);
    bores(b);
    decks(b);
}

fn casting(b: &mut Builder) {
    b.choice(
        "block.material",
        "block.material",
        &["grey-iron", "compacted-iron", "aluminium-sleeved", "aluminium-plated"],
        "What the block is made of.",
    );
    b.choice("block.fill", "block.fill", &["none", "half", "full"], "How far its water jacket is filled.");
    b.choice("block.caps", "block.caps", &["two-bolt", "four-bolt", "splayed", "billet"], "Its main caps.");
    b.choice("block.origin", "block.origin", &["production", "aftermarket", "billet"], "Where it comes from.");
    b.choice("block.liners", "block.sleeves", &["none", "dry", "wet"], "Its liners.");
    b.choice("block.state", "block.state", STATES, "Whether the block is new, reused or reconditioned.");
    b.stated("deck-height", "length", "block.deck-height", "From the crank's centre line to the deck.");
    b.stated("bore.nominal", "length", "block.bore", "The bore as the job names it.");
    b.flag("bore.plate-honed", "block.honed-with-plate", "Whether it was honed with the torque plate on.");
    b.stated("block.plate-torque", "torque", "block.plate-torque", "Torque that the plate was tightened with.");
    b.derive(
        "block.plate-torque.share",
        "ratio",
        One,
        "Torque of the plate over that of the heads.",
        "ratio of two torques",
        ["block.plate-torque", "head-fastener.torque"],
        |plate: Torque, heads: Torque| -> Ratio { plate / heads },
    );
}

/// How much a part has been used.
pub(super) const STATES: &[&str] = &["new", "reused", "reconditioned"];

fn bores(b: &mut Builder) {
    b.read("bore.diameter", "length", Cylinder, "readings.bore", Smallest, "The bore at its smallest, at 20 °C.")
        .part("block");
    b.read(
        "bore.out-of-round",
        "clearance",
        Cylinder,
        "readings.bore",
        OutOfRound,
        "Largest less smallest direction of the bore, at its worst height.",
    )
    .part("block");
    b.read(
        "bore.taper",
        "clearance",
        Cylinder,
        "readings.bore",
        Taper,
        "Widest less narrowest height of the bore, each the mean of its directions.",
    )
    .part("block");
    b.read(
        "bore.wall.thrust",
        "length",
        Cylinder,
        "readings.wall-thickness",
        SmallestOf("thrust"),
        "Thinnest wall on the two thrust sides.",
    )
    .part("block");
    b.read("bore.wall.minimum", "length", Cylinder, "readings.wall-thickness", Smallest, "Thinnest wall all round.")
        .part("block");
    b.read(
        "bore.chamfer",
        "length",
        Cylinder,
        "readings.bore-chamfer",
        Largest,
        "Diameter of the chamfer at the deck.",
    )
    .part("block");
    b.derive(
        "bore.chamfer.over-bore",
        "gap",
        Cylinder,
        "The chamfer at the deck over the bore, on diameter.",
        "difference of two diameters",
        ["bore.chamfer", "bore.diameter"],
        |chamfer: Length, bore: Length| chamfer - bore,
    )
    .part("block");
    b.read("bore.rpk", "roughness", Cylinder, "readings.bore-rpk", Largest, "Peaks of the bore's finish, Rpk.")
        .or("the profile of one bore, which stands for all", ["profile.rpk"], |profile: Length| profile)
        .part("block");
    b.read("bore.rk", "roughness", Cylinder, "readings.bore-rk", Largest, "Core of the bore's finish, Rk.")
        .or("the profile of one bore, which stands for all", ["profile.rk"], |profile: Length| profile)
        .part("block");
    b.read("bore.rvk", "roughness", Cylinder, "readings.bore-rvk", Smallest, "Valleys of the bore's finish, Rvk.")
        .or("the profile of one bore, which stands for all", ["profile.rvk"], |profile: Length| profile)
        .part("block");
    b.read("crosshatch-angle", "angle", Cylinder, "readings.crosshatch", Smallest, "Angle of the crosshatch.")
        .part("block");
}

fn decks(b: &mut Builder) {
    b.read("deck.flatness", "clearance", Bank, "readings.deck-flatness", Largest, "Worst line across the deck.")
        .part("block");
    b.read(
        "deck.squareness",
        "clearance",
        Bank,
        "readings.deck-squareness",
        Largest,
        "How far the deck is from parallel to the crank, end to end.",
    )
    .part("block");
    b.read(
        "bore.squareness",
        "clearance",
        Cylinder,
        "readings.bore-squareness",
        Largest,
        "How far a bore leans from square to the crank, over its length.",
    )
    .part("block");
    b.read(
        "main-cap.register",
        "clearance",
        Main,
        "readings.main-cap-register",
        Smallest,
        "Press of a main cap in its register; less than nothing is a loose cap.",
    )
    .part("block");
    b.read("deck.roughness", "roughness", Bank, "readings.deck-roughness", Largest, "Finish of the deck, Ra.")
        .part("block");
    b.read(
        "liner.protrusion",
        "clearance",
        Cylinder,
        "readings.liner-protrusion",
        Smallest,
        "How far the liner stands proud of the deck, at its lowest.",
    )
    .part("block");
    b.derive(
        "deck-clearance.stack-up",
        "gap",
        One,
        "How far the piston ends below the deck, from the sizes of the parts.",
        "deck height less half a stroke, rod and compression height",
        ["deck-height", "stroke", "rod.length", "piston.compression-height"],
        |deck: Length, stroke: Length, rod: Length, height: Length| deck - stroke / 2.0 - rod - height,
    );
    b.read(
        "deck-clearance",
        "gap",
        Cylinder,
        "readings.deck-clearance",
        crate::reduce::Pick::Mean,
        "How far the piston is below the deck at top dead centre; negative where it stands proud.",
    )
    .part("pistons")
    .or("the sizes of the parts", ["deck-clearance.stack-up"], |stack: Length| stack);
}
