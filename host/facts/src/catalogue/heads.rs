//! Heads, gaskets, valves, guides and seats.

use super::block::STATES;
use crate::builder::Builder;
use crate::reduce::Pick::{Largest, Mean, Smallest};
use crate::typed::Unavailable;
use thou_sheet::Axis::{Bank, Cylinder, One, Valve};
use uom::si::f64::{Length, Ratio};

pub(super) fn facts(b: &mut Builder) {
    gasket(b);
    heads(b);
    valves(b);
    seats(b);
    room(b);
}

fn gasket(b: &mut Builder) {
    b.choice("gasket.kind", "gasket.kind", &["composite", "mls", "copper"], "The head gasket.");
    b.stated("gasket.bore", "length", "gasket.bore", "The gasket's own bore.");
    b.stated("gasket.thickness", "length", "gasket.compressed-thickness", "The gasket, compressed.");
    b.choice("gasket.state", "gasket.state", STATES, "Whether the gasket is new, reused or reconditioned.");
    b.flag("gasket.wire", "gasket.wire", "Whether a wire ring stands proud of deck or head under the gasket.");
    b.read(
        "gasket.wire-protrusion",
        "clearance",
        Cylinder,
        "readings.wire-protrusion",
        Smallest,
        "How far the wire ring stands proud, at its lowest.",
    )
    .part("gasket");
    b.derive(
        "gasket.overhang",
        "gap",
        Cylinder,
        "The gasket's bore over the chamfer, or over the bore where no chamfer was read; negative: it hangs into the bore.",
        "difference of two diameters",
        ["gasket.bore", "bore.diameter", "bore.chamfer"],
        |gasket: Length, bore: Length, chamfer: Option<Length>| gasket - chamfer.map_or(bore, |c| c.max(bore)),
    )
    .part("gasket");
}

fn heads(b: &mut Builder) {
    b.choice("head.material", "heads.material", &["iron", "aluminium"], "What the heads are made of.");
    b.stated("head.valves-a-cylinder", "count", "heads.valves-a-cylinder", "Valves a cylinder.").or_usual(
        "two valves a cylinder unless the sheet says otherwise; common practice, no source",
        [],
        |_| Some((2.0, 2.0)),
    );
    b.stated("chamber.nominal", "volume", "heads.chamber-volume", "The chamber as the job names it.");
    b.choice("guide.material", "heads.guide-material", &["iron", "bronze"], "What the guides are made of.");
    b.choice(
        "seat.material",
        "heads.seat-material",
        &["iron", "hardened", "powdered", "copper-alloy", "beryllium-copper"],
        "What the seats are made of.",
    );
    b.stated("seat.angle", "angle", "heads.seat-angle", "The angle of the seats.");
    b.read("head.flatness", "clearance", Bank, "readings.head-flatness", Largest, "Worst line across the head's face.")
        .part("heads");
    b.read("head.roughness", "roughness", Bank, "readings.head-roughness", Largest, "Finish of the head's face, Ra.")
        .part("heads");
    b.read("chamber.volume", "volume", Cylinder, "readings.chamber-volume", Mean, "The chamber by the burette.")
        .or_stated("heads.chamber-volume")
        .part("heads");
}

fn valves(b: &mut Builder) {
    b.choice("valve.inlet.material", "valves.inlet-material", &["steel", "titanium", "stainless"], "The inlet valves.");
    b.choice(
        "valve.exhaust.material",
        "valves.exhaust-material",
        &["steel", "stainless", "nickel-alloy", "sodium", "titanium"],
        "The exhaust valves.",
    );
    b.stated("valve.inlet.diameter", "length", "valves.inlet-diameter", "Head of an inlet valve.");
    b.stated("valve.exhaust.diameter", "length", "valves.exhaust-diameter", "Head of an exhaust valve.");
    b.derive(
        "valve.heads-over-bore",
        "ratio",
        One,
        "Inlet and exhaust valve's heads side by side over the bore, where there are two to a cylinder.",
        "ratio of two diameters",
        ["valve.inlet.diameter", "valve.exhaust.diameter", "bore.nominal", "head.valves-a-cylinder"],
        |inlet: Length, exhaust: Length, bore: Length, valves: Ratio| {
            if valves.value > 2.5 {
                return Err(Unavailable::Outside("more than two valves do not stand in one line"));
            }
            Ok::<Ratio, _>((inlet + exhaust) / bore)
        },
    );
    b.stated("valve.stem-nominal", "length", "valves.stem-diameter", "Stem as the job names it.");
    b.inlet("valve.is-inlet", "Whether this valve lets the charge in.");
    b.read("guide-bore", "length", Valve, "readings.guide-bore", Smallest, "The guide at its smallest.").part("heads");
    b.read("stem.diameter", "length", Valve, "readings.stem", Largest, "The stem at its largest.").part("valves");
    b.read(
        "stem-to-guide",
        "clearance",
        Valve,
        "readings.stem-to-guide",
        Smallest,
        "Clearance of the stem in its guide.",
    )
    .part("valves")
    .or("difference of two diameters", ["guide-bore", "stem.diameter"], |guide: Length, stem: Length| guide - stem);
    b.read("guide-bore.widest", "length", Valve, "readings.guide-bore", Largest, "The guide at its widest.")
        .part("heads");
    b.read("stem.thinnest", "length", Valve, "readings.stem", Smallest, "The stem at its thinnest.").part("valves");
    b.read(
        "stem-to-guide.widest",
        "clearance",
        Valve,
        "readings.stem-to-guide",
        Largest,
        "Clearance of the stem where guide and stem are worn most.",
    )
    .part("valves")
    .or("difference of two diameters", ["guide-bore.widest", "stem.thinnest"], |guide: Length, stem: Length| {
        guide - stem
    });
    b.read(
        "valve.margin",
        "gap",
        Valve,
        "readings.valve-margin",
        Smallest,
        "Thickness of the valve's rim above its face.",
    )
    .part("valves");
}

fn seats(b: &mut Builder) {
    b.read("seat.runout", "clearance", Valve, "readings.seat-runout", Largest, "Seat's runout to its guide.")
        .part("heads");
    b.read(
        "seat.recession",
        "clearance",
        Valve,
        "readings.seat-recession",
        Largest,
        "How far the seat has sunk since it was cut.",
    )
    .part("heads");
    b.read("valve.stem-runout", "clearance", Valve, "readings.stem-runout", Largest, "The stem's runout in blocks.")
        .part("valves");
    b.read("valve.face-runout", "clearance", Valve, "readings.face-runout", Largest, "The face's runout to its stem.")
        .part("valves");
    b.read(
        "seat.contact-width",
        "gap",
        Valve,
        "readings.seat-contact-width",
        Mean,
        "Width of the blued contact, not of the cut.",
    )
    .part("heads");
    b.read(
        "seat.vacuum",
        "pressure",
        Valve,
        "readings.seat-vacuum",
        Smallest,
        "Vacuum that the seat holds at its port.",
    )
    .part("heads");
}

fn room(b: &mut Builder) {
    b.read(
        "piston-to-head",
        "gap",
        Cylinder,
        "readings.piston-to-head",
        Smallest,
        "From the piston's flat to the head's, at top dead centre, cold.",
    )
    .part("pistons")
    .or("deck clearance and gasket", ["deck-clearance", "gasket.thickness"], |deck: Length, gasket: Length| {
        deck + gasket
    });
    b.read(
        "piston-to-valve",
        "gap",
        Valve,
        "readings.piston-to-valve",
        Smallest,
        "Nearest that piston and valve come.",
    )
    .part("valves");
    b.read(
        "valve.radial-clearance",
        "gap",
        Valve,
        "readings.valve-radial",
        Smallest,
        "Room round the valve in its pocket.",
    )
    .part("valves");
    b.read("valve-to-valve", "gap", Cylinder, "readings.valve-to-valve", Smallest, "Nearest that two valves come.")
        .part("valves");
}
