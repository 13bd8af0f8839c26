//! Rods, their bearings and their bolts.

use super::block::STATES;
use crate::builder::Builder;
use crate::reduce::Pick::{Largest, Mean, MeanOf, OutOfRound, Smallest, Taper};
use crate::typed::Si;
use thou_mechanics::journal_bearing::oil_clearance_from_parts;
use thou_sheet::Axis::{Crankpin, One, Rod};
use uom::si::f64::{Length, Mass};

pub(super) fn facts(b: &mut Builder) {
    rods(b);
    big_ends(b);
    clearances(b);
    bolts(b);
    masses(b);
}

fn rods(b: &mut Builder) {
    b.stated("rod.length", "length", "rods.length", "The rod, centre to centre.");
    b.choice(
        "rod.material",
        "rods.material",
        &["steel", "titanium", "aluminium", "powdered"],
        "What the rods are made of.",
    );
    b.stated("rod.beam-area", "area", "rods.beam-area", "The rod's smallest section.");
    b.stated("rod.rating", "power", "rods.card.power-rating", "The power its maker rates the set of rods for.");
    b.choice("rod.state", "rods.state", STATES, "Whether the rods are new, reused or reconditioned.");
    b.flag("rod.life-stated", "rods.used", "Whether the sheet says what the rods had run when they went in.");
    b.stated(
        "rod.card.side-clearance-low",
        "gap",
        "rods.card.side-clearance-low",
        "Least side clearance on the pin by the rods' card.",
    );
    b.stated(
        "rod.card.side-clearance-high",
        "gap",
        "rods.card.side-clearance-high",
        "Greatest side clearance on the pin by the rods' card.",
    );
    b.stated("rods-a-pin", "count", "rods.rods-a-pin", "How many rods share a crankpin.").or_usual(
        "two on a pin in a V or a flat engine, else one; common practice, no source",
        ["engine.layout"],
        |words| {
            let rods = if matches!(words, ["v" | "flat"]) { 2.0 } else { 1.0 };
            Some((rods, rods))
        },
    );
    b.choice(
        "bearing.kind",
        "bearings.kind",
        &["tri-metal", "bi-metal", "coated", "roller"],
        "How the bearings are made.",
    );
    b.read(
        "rod.bend",
        "clearance",
        Rod,
        "readings.rod-bend",
        Largest,
        "How far a rod's two holes lean apart, over 4 in.",
    )
    .part("rods");
    b.read(
        "rod.twist",
        "clearance",
        Rod,
        "readings.rod-twist",
        Largest,
        "How far a rod's two holes are turned against each other, over 4 in.",
    )
    .part("rods");
    b.read("rod-to-block", "gap", One, "readings.rod-to-block", Smallest, "Nearest that a rod comes to the block.")
        .part("rods");
    b.read("rod-to-cam", "gap", One, "readings.rod-to-cam", Smallest, "Nearest that a rod comes to the cam.")
        .part("rods");
    b.read(
        "rod.side-clearance",
        "gap",
        Crankpin,
        "readings.rod-side-clearance",
        Smallest,
        "Side play of the rods on a pin, all of them together.",
    )
    .part("rods");
    b.read(
        "rod.shell-to-fillet",
        "gap",
        Rod,
        "readings.rod-shell-to-fillet",
        Smallest,
        "From the edge of the rod shell to the start of the fillet.",
    )
    .part("bearings");
}

fn big_ends(b: &mut Builder) {
    b.stated("rod-housing.low", "length", "rods.card.housing-low", "Smallest rod housing by the maker's card.");
    b.stated("rod-housing.high", "length", "rods.card.housing-high", "Largest rod housing by the maker's card.");
    b.read(
        "rod-housing.diameter",
        "length",
        Rod,
        "readings.rod-housing",
        MeanOf("vertical"),
        "Rod housing, along the beam, bolts at their final stretch.",
    )
    .part("rods");
    b.read(
        "rod-housing.out-of-round",
        "clearance",
        Rod,
        "readings.rod-housing",
        OutOfRound,
        "Largest less smallest direction of a rod housing, at its worse end.",
    )
    .part("rods");
    b.read(
        "rod-housing.taper",
        "clearance",
        Rod,
        "readings.rod-housing",
        Taper,
        "One end of a rod housing less the other, means of their directions.",
    )
    .part("rods");
    b.read("rod-shell", "length", Rod, "readings.rod-shell", Mean, "Wall of the rod shell at its crown.")
        .part("bearings");
    b.read(
        "rod-inside",
        "length",
        Rod,
        "readings.rod-inside",
        MeanOf("vertical"),
        "Inside of the rod bearing, assembled, along the beam.",
    )
    .part("bearings");
    b.read(
        "rod.crush",
        "clearance",
        Rod,
        "readings.rod-crush",
        Smallest,
        "Height of the rod shell over its parting line.",
    )
    .part("bearings");
    b.read("rod-bush", "length", Rod, "readings.rod-bush", Smallest, "The pin's hole in the rod.").part("rods");
}

fn clearances(b: &mut Builder) {
    b.stated(
        "bearing.card.rod-low",
        "clearance",
        "bearings.card.rod-clearance-low",
        "Least rod clearance by the card.",
    );
    b.stated(
        "bearing.card.rod-high",
        "clearance",
        "bearings.card.rod-clearance-high",
        "Greatest rod clearance by the card.",
    );
    b.derive(
        "rod-bearing.clearance.from-parts",
        "clearance",
        Rod,
        "Rod bearing clearance from housing, two shells and the crankpin.",
        "housing less two shells less journal",
        ["rod-housing.diameter", "rod-shell", "rod-journal.diameter"],
        |housing: Length, shell: Length, journal: Length| {
            Length::si(oil_clearance_from_parts(housing.value, shell.value, journal.value))
        },
    )
    .part("bearings");
    b.read(
        "rod-bearing.clearance",
        "clearance",
        Rod,
        "readings.rod-clearance",
        Mean,
        "Oil clearance of a rod bearing, on the diameter.",
    )
    .part("bearings")
    .or("difference of two diameters", ["rod-inside", "rod-journal.diameter"], |inside: Length, journal: Length| {
        inside - journal
    })
    .or("housing less two shells less journal", ["rod-bearing.clearance.from-parts"], |clearance: Length| clearance);
}

fn bolts(b: &mut Builder) {
    b.stated(
        "rod-bolt.card.stretch-low",
        "clearance",
        "fasteners.rod-bolts.card.stretch-low",
        "Least stretch of a rod bolt by its card.",
    );
    b.stated(
        "rod-bolt.card.stretch-high",
        "clearance",
        "fasteners.rod-bolts.card.stretch-high",
        "Greatest stretch of a rod bolt by its card.",
    );
    b.stated("rod-bolt.clamp", "force", "fasteners.rod-bolts.clamp", "Clamp load of one rod bolt, its maker's figure.");
    b.stated("rod-bolt.count", "count", "fasteners.rod-bolts.count-a-rod", "Bolts in a rod.").or_usual(
        "two to a rod; common practice, no source",
        [],
        |_| Some((2.0, 2.0)),
    );
    b.stated(
        "rod-bolt.uses",
        "count",
        "fasteners.rod-bolts.times-tightened",
        "How often the rod bolts were tightened.",
    );
    b.stated(
        "rod-bolt.torque",
        "torque",
        "fasteners.rod-bolts.torque",
        "Torque of the rod bolts, as the sheet has it.",
    );
    b.read(
        "rod-bolt.stretch",
        "clearance",
        Rod,
        "readings.rod-bolt-stretch",
        Smallest,
        "Stretch of the rod's bolts, the least.",
    )
    .part("rods");
    b.read(
        "rod-bolt.stretch.max",
        "clearance",
        Rod,
        "readings.rod-bolt-stretch",
        Largest,
        "Stretch of the rod's bolts, the most.",
    )
    .part("rods");
    b.read(
        "rod-bolt.growth",
        "clearance",
        Rod,
        "readings.rod-bolt-growth",
        Largest,
        "Free length of a rod bolt over its length when new.",
    )
    .part("rods");
}

fn masses(b: &mut Builder) {
    b.read("rod.small-end.mass", "mass", Rod, "readings.rod-small-end", Mean, "The rod's small end on the balance.")
        .or_stated("rods.small-end-mass")
        .part("rods");
    b.read("rod.big-end.mass", "mass", Rod, "readings.rod-big-end", Mean, "The rod's big end on the balance.")
        .or_stated("rods.big-end-mass")
        .part("rods");
    b.stated("bearing.mass", "mass", "bearings.rod-mass", "A pair of rod shells.");
    b.stated("oil.mass", "mass", "balance.oil-mass", "Oil allowed for a rod in the balance.");
    b.derive(
        "rotating.mass",
        "mass",
        Rod,
        "What turns with the crankpin of one rod: big end, shells and, where the sheet allows for it, oil.",
        "sum of the parts",
        ["rod.big-end.mass", "bearing.mass", "oil.mass"],
        |big_end: Mass, shells: Mass, oil: Option<Mass>| big_end + shells + oil.unwrap_or(Mass::si(0.0)),
    );
}
