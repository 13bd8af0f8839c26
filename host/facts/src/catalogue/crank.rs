//! The crank, its journals and its mains.

use super::block::STATES;
use crate::builder::Builder;
use crate::reduce::Pick::{Largest, Mean, MeanOf, OutOfRound, Smallest, Taper};
use crate::typed::Si;
use thou_mechanics::journal_bearing::oil_clearance_from_parts;
use thou_sheet::Axis::{Crankpin, Main, One};
use uom::si::f64::Length;

pub(super) fn facts(b: &mut Builder) {
    crank(b);
    journals(b);
    housings(b);
    clearances(b);
}

fn crank(b: &mut Builder) {
    b.stated("stroke", "length", "crank.stroke", "The stroke.");
    b.choice(
        "crank.material",
        "crank.material",
        &["cast", "nodular", "forged", "billet"],
        "What the crank is made of.",
    );
    b.choice("crank.surface", "crank.surface", &["plain", "induction", "nitrided"], "How its journals are hardened.");
    b.choice("crank.state", "crank.state", STATES, "Whether the crank is new, reused or reconditioned.");
    b.stated("main-journal.nominal", "length", "crank.main-journal", "Main journal as the job names it.");
    b.stated("rod-journal.nominal", "length", "crank.rod-journal", "Crankpin as the job names it.");
    b.read(
        "crank.end-play",
        "clearance",
        One,
        "readings.end-play",
        Mean,
        "How far the crank moves along its bearings.",
    )
    .part("crank");
    b.read(
        "crank.straightness",
        "clearance",
        Main,
        "readings.crank-straightness",
        Largest,
        "Indicator's full swing at a main journal, the crank on its ends.",
    )
    .part("crank");
    b.read(
        "crank.throw-index",
        "angle",
        Crankpin,
        "readings.throw-index",
        Mean,
        "How far a throw is from where its angle should be.",
    )
    .part("crank");
    b.read(
        "crank.flange-runout",
        "clearance",
        One,
        "readings.flange-runout",
        Largest,
        "Indicator's full swing on the face of the crank's flange.",
    )
    .part("crank");
    b.read("crank.roughness", "roughness", Main, "readings.journal-roughness", Largest, "Finish of the journals, Ra.")
        .part("crank");
    b.read(
        "counterweight-to-block",
        "gap",
        One,
        "readings.counterweight-to-block",
        Smallest,
        "Nearest that a counterweight comes to the block.",
    )
    .part("crank");
    b.read(
        "main.shell-to-fillet",
        "gap",
        Main,
        "readings.main-shell-to-fillet",
        Smallest,
        "From the edge of the main shell to the start of the fillet.",
    )
    .part("bearings");
}

fn journals(b: &mut Builder) {
    b.read("main-journal.diameter", "length", Main, "readings.main-journal", Mean, "Main journal, mean of its points.")
        .part("crank");
    b.read(
        "main-journal.out-of-round",
        "clearance",
        Main,
        "readings.main-journal",
        OutOfRound,
        "Largest less smallest direction of a main journal, at its worse end.",
    )
    .part("crank");
    b.read(
        "main-journal.taper",
        "clearance",
        Main,
        "readings.main-journal",
        Taper,
        "One end of a main journal less the other, means of their directions.",
    )
    .part("crank");
    b.read("rod-journal.diameter", "length", Crankpin, "readings.rod-journal", Mean, "Crankpin, mean of its points.")
        .part("crank");
    b.read(
        "rod-journal.out-of-round",
        "clearance",
        Crankpin,
        "readings.rod-journal",
        OutOfRound,
        "Largest less smallest direction of a crankpin, at its worse end.",
    )
    .part("crank");
    b.read(
        "rod-journal.taper",
        "clearance",
        Crankpin,
        "readings.rod-journal",
        Taper,
        "One end of a crankpin less the other, means of their directions.",
    )
    .part("crank");
}

fn housings(b: &mut Builder) {
    b.stated("main-housing.low", "length", "block.card.main-housing-low", "Smallest main housing by the maker's card.");
    b.stated(
        "main-housing.high",
        "length",
        "block.card.main-housing-high",
        "Largest main housing by the maker's card.",
    );
    b.read(
        "main-housing.diameter",
        "length",
        Main,
        "readings.main-housing",
        MeanOf("vertical"),
        "Main housing, vertical, caps torqued.",
    )
    .part("block");
    b.read(
        "main-housing.out-of-round",
        "clearance",
        Main,
        "readings.main-housing",
        OutOfRound,
        "Largest less smallest direction of a main housing, at its worse end.",
    )
    .part("block");
    b.read(
        "main-housing.taper",
        "clearance",
        Main,
        "readings.main-housing",
        Taper,
        "One end of a main housing less the other, means of their directions.",
    )
    .part("block");
    b.read("main-shell", "length", Main, "readings.main-shell", Mean, "Wall of the main shell at its crown.")
        .part("bearings");
    b.read(
        "main-inside",
        "length",
        Main,
        "readings.main-inside",
        MeanOf("vertical"),
        "Inside of the main bearing, assembled, vertical.",
    )
    .part("bearings");
    b.read(
        "main.alignment.adjacent",
        "clearance",
        One,
        "readings.main-alignment-adjacent",
        Largest,
        "Greatest step from one main housing to the next.",
    )
    .part("block");
    b.read(
        "main.alignment.overall",
        "clearance",
        One,
        "readings.main-alignment-overall",
        Largest,
        "How far the main housings are out of line over their length.",
    )
    .part("block");
    b.read(
        "main.crush",
        "clearance",
        Main,
        "readings.main-crush",
        Smallest,
        "Height of the main shell over its parting line.",
    )
    .part("bearings");
}

fn clearances(b: &mut Builder) {
    b.stated(
        "bearing.card.main-low",
        "clearance",
        "bearings.card.main-clearance-low",
        "Least main clearance by the card.",
    );
    b.stated(
        "bearing.card.main-high",
        "clearance",
        "bearings.card.main-clearance-high",
        "Greatest main clearance by the card.",
    );
    b.derive(
        "main-bearing.clearance.from-parts",
        "clearance",
        Main,
        "Main clearance from housing, two shells and journal.",
        "housing less two shells less journal",
        ["main-housing.diameter", "main-shell", "main-journal.diameter"],
        |housing: Length, shell: Length, journal: Length| {
            Length::si(oil_clearance_from_parts(housing.value, shell.value, journal.value))
        },
    )
    .part("bearings");
    b.read(
        "main-bearing.clearance",
        "clearance",
        Main,
        "readings.main-clearance",
        Mean,
        "Oil clearance of a main bearing, on the diameter.",
    )
    .part("bearings")
    .or("difference of two diameters", ["main-inside", "main-journal.diameter"], |inside: Length, journal: Length| {
        inside - journal
    })
    .or("housing less two shells less journal", ["main-bearing.clearance.from-parts"], |clearance: Length| clearance);
}
