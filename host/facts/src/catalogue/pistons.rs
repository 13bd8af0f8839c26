//! Pistons, pins and rings.

use super::block::STATES;
use crate::builder::Builder;
use crate::reduce::Pick::{Largest, Mean, Smallest};
use crate::typed::{Rise, Si, Unavailable, Word};
use crate::warmth::material;
use thou_mechanics::{expansion, rings as ring};
use thou_sheet::Axis::{Cylinder, One};
use uom::si::f64::{Length, Mass, Ratio};

const PRACTICE: &str = "common practice, no source";

pub(super) fn facts(b: &mut Builder) {
    pistons(b);
    walls(b);
    pins(b);
    rings(b);
    gaps(b);
}

fn pistons(b: &mut Builder) {
    b.choice(
        "piston.alloy",
        "pistons.alloy",
        &["cast", "hypereutectic", "4032", "2618"],
        "What the pistons are made of.",
    );
    b.stated("piston.gauge-point", "length", "pistons.gauge-point", "How high over its lower end the skirt was read.");
    b.stated("piston.card.gauge-point", "length", "pistons.card.gauge-point", "How high its maker reads it.");
    b.derive(
        "piston.gauge-point.off",
        "length",
        One,
        "How far from its card's place the skirt was read.",
        "difference of two heights",
        ["piston.gauge-point", "piston.card.gauge-point"],
        |read: Length, card: Length| Length::si((read.value - card.value).abs()),
    );
    b.choice("piston.coating", "pistons.skirt-coating", &["none", "dry-film", "thick"], "What is on the skirts.");
    b.choice("piston.state", "pistons.state", STATES, "Whether the pistons are new, reused or reconditioned.");
    b.stated(
        "piston.compression-height",
        "length",
        "pistons.compression-height",
        "From the pin's centre to the flat of the crown.",
    );
    b.stated("piston.dome", "volume", "pistons.dome-volume", "What the dome takes from the chamber.");
    b.stated("piston.dish", "volume", "pistons.dish-volume", "What dish and valve pockets add to the chamber.");
    b.choice(
        "piston.gas-ports",
        "pistons.gas-ports",
        &["none", "vertical", "lateral"],
        "Gas ports behind the top ring.",
    );
    b.stated("piston.card.fit-low", "clearance", "pistons.card.fit-low", "Least piston to wall by the card.");
    b.stated("piston.card.fit-high", "clearance", "pistons.card.fit-high", "Greatest piston to wall by the card.");
    b.stated("piston.top-land-height", "length", "pistons.top-land-height", "From the crown down to the top ring.");
    b.stated("piston.top-land-diameter", "length", "pistons.top-land-diameter", "The piston above its top ring.");
    b.read(
        "piston.diameter",
        "length",
        Cylinder,
        "readings.piston",
        Mean,
        "The skirt at its maker's gauge point, at 20 °C.",
    )
    .part("pistons");
    b.read("piston.mass", "mass", Cylinder, "readings.piston-mass", Mean, "The piston on the balance.")
        .or_stated("pistons.mass")
        .part("pistons");
    b.derive(
        "reciprocating.mass",
        "mass",
        Cylinder,
        "What goes up and down: piston, pin, rings, locks where there are any, small end of the rod.",
        "sum of the parts",
        ["piston.mass", "pin.mass", "ring.mass", "rod.small-end.mass", "lock.mass"],
        |piston: Mass, pin: Mass, rings: Mass, small_end: Mass, locks: Option<Mass>| {
            piston + pin + rings + small_end + locks.unwrap_or(Mass::si(0.0))
        },
    );
}

fn walls(b: &mut Builder) {
    b.read(
        "piston-to-wall",
        "clearance",
        Cylinder,
        "readings.piston-to-wall",
        Smallest,
        "Clearance of the skirt in its bore, on the diameter.",
    )
    .part("pistons")
    .or("difference of two diameters", ["bore.diameter", "piston.diameter"], |bore: Length, piston: Length| {
        bore - piston
    });
    b.read(
        "piston.skirt-collapse",
        "clearance",
        Cylinder,
        "readings.skirt-collapse",
        Largest,
        "How much smaller a used skirt is than when it was new.",
    )
    .part("pistons");
    b.read(
        "piston.crown",
        "length",
        Cylinder,
        "readings.crown-thickness",
        Smallest,
        "The crown at its thinnest, under a valve pocket or an undercut.",
    )
    .part("pistons");
    b.usual(
        "piston.skirt-rise",
        "temperature-difference",
        "How much warmer than 20 °C a skirt runs.",
        PRACTICE,
        [],
        |_| Some((90.0, 130.0)),
    );
    b.usual("bore.rise", "temperature-difference", "How much warmer than 20 °C a bore runs.", PRACTICE, [], |_| {
        Some((70.0, 110.0))
    });
    let hot = "free growth of skirt and bore, which compares alloys and is no clearance; coefficients of ASM Handbook vol. 2, \
               from memory";
    b.derive(
        "piston-to-wall.hot-change",
        "clearance",
        Cylinder,
        "How much more a skirt grows than the bore around it, both free: for comparison only.",
        hot,
        ["bore.diameter", "piston.alloy", "block.material", "piston.skirt-rise", "bore.rise"],
        hot_change,
    )
    .or(hot, ["bore.nominal", "piston.alloy", "block.material", "piston.skirt-rise", "bore.rise"], hot_change);
}

fn hot_change(bore: Length, alloy: Word, block: Word, skirt: Rise, wall: Rise) -> Result<Length, Unavailable> {
    let piston =
        material("pistons.alloy", alloy.0).ok_or(Unavailable::Outside("nobody has a coefficient for this alloy"))?;
    let iron = material("bore", block.0)
        .ok_or(Unavailable::Outside("a sleeve in aluminium grows by neither metal's figure alone"))?;
    let (piston, iron) = (piston.properties().expansion, iron.properties().expansion);
    Ok(Length::si(expansion::closing(bore.value, piston, skirt.0, iron, wall.0)))
}

fn pins(b: &mut Builder) {
    b.choice("pin.fit", "pins.fit", &["floating", "pressed"], "Whether the pin floats or is pressed into the rod.");
    b.choice("pin.oiling", "pins.oiling", &["none", "splash", "fed"], "How the pin gets its oil.");
    b.choice(
        "pin.lock",
        "pistons.lock",
        &["round-wire", "spiral", "snap-ring", "button", "pressed"],
        "What keeps the pin in.",
    );
    b.choice(
        "pin.small-end",
        "pins.small-end",
        &["bush", "bare", "needle"],
        "What a floating pin turns in at the rod.",
    );
    b.stated("pin.nominal", "length", "pins.diameter", "The pin as its drawing has it.");
    b.stated("pin.mass", "mass", "pins.mass", "One pin.");
    b.stated("pin.length", "length", "pins.length", "How long a pin is.");
    b.stated("pin.wall", "length", "pins.wall", "How thick a pin is round its bore.");
    b.derive(
        "pin.mass.plain",
        "mass",
        One,
        "What a pin of this size weighs with a plain bore; one with tapered ends is lighter.",
        "the volume of a tube, steel of 7.85 g/cc",
        ["pin.nominal", "pin.wall", "pin.length"],
        |diameter: Length, wall: Length, length: Length| {
            Mass::si(7850.0 * std::f64::consts::PI * (diameter.value - wall.value) * wall.value * length.value)
        },
    );
    b.stated("lock.mass", "mass", "pins.lock-mass", "The locks of one pin.");
    b.read("pin-bore", "length", Cylinder, "readings.pin-bore", Smallest, "The pin's hole in the piston.")
        .part("pistons");
    b.read("pin.diameter", "length", Cylinder, "readings.pin", Mean, "The pin.").part("pins");
    b.read(
        "pin-to-piston",
        "clearance",
        Cylinder,
        "readings.pin-to-piston",
        Smallest,
        "Clearance of the pin in the piston.",
    )
    .part("pins")
    .or("difference of two diameters", ["pin-bore", "pin.diameter"], |bore: Length, pin: Length| bore - pin);
    b.read(
        "pin-to-rod",
        "clearance",
        Cylinder,
        "readings.pin-to-rod",
        Smallest,
        "Clearance of the pin in the rod; negative where it is pressed.",
    )
    .part("pins")
    .or("difference of two diameters", ["rod-bush", "pin.diameter"], |bush: Length, pin: Length| bush - pin);
    b.read(
        "pin.end-play",
        "clearance",
        Cylinder,
        "readings.pin-end-play",
        Smallest,
        "How far the pin moves between its locks.",
    )
    .part("pins");
}

fn rings(b: &mut Builder) {
    b.stated("ring.top.height", "length", "rings.top-height", "Axial height of the top ring.");
    b.choice("ring.top.material", "rings.top-material", &["iron", "ductile", "steel"], "What the top ring is made of.");
    b.choice(
        "ring.second.style",
        "rings.second-style",
        &["plain", "taper", "hook", "napier", "gapless"],
        "Shape of the second ring.",
    );
    b.stated("ring.card.top-gap-factor", "ratio", "rings.card.top-gap-factor", "Top gap over bore by the card.");
    b.stated(
        "ring.card.second-gap-factor",
        "ratio",
        "rings.card.second-gap-factor",
        "Second gap over bore by the card.",
    );
    b.stated("ring.oil.tension", "force", "rings.oil-tension", "Tangential force of the oil ring.");
    b.stated("ring.mass", "mass", "rings.mass", "The rings of one piston.");
    for (id, path, about) in [
        ("ring.top.axial-clearance", "readings.top-axial-clearance", "Side clearance of the top ring in its groove."),
        ("ring.second.axial-clearance", "readings.second-axial-clearance", "Side clearance of the second ring."),
        ("ring.top.back-clearance", "readings.top-back-clearance", "How far the top ring sinks below its land."),
        ("ring.oil.back-clearance", "readings.oil-back-clearance", "How far the oil ring sinks below its land."),
    ] {
        b.read(id, "clearance", Cylinder, path, Smallest, about).part("rings");
    }
}

fn gaps(b: &mut Builder) {
    b.read(
        "ring.top.gap",
        "gap",
        Cylinder,
        "readings.top-gap",
        Smallest,
        "End gap of the top ring, squared in its bore.",
    )
    .part("rings");
    b.read("ring.second.gap", "gap", Cylinder, "readings.second-gap", Smallest, "End gap of the second ring.")
        .part("rings");
    b.read("ring.rail.gap", "gap", Cylinder, "readings.rail-gap", Smallest, "End gap of the oil rails, the smallest.")
        .part("rings");
    b.read(
        "ring.rail.gap.widest",
        "gap",
        Cylinder,
        "readings.rail-gap",
        Largest,
        "End gap of the oil rails, the widest.",
    )
    .part("rings");
    b.derive(
        "ring.gap.second-over-top",
        "ratio",
        Cylinder,
        "Second gap over top gap.",
        "ratio of two gaps",
        ["ring.second.gap", "ring.top.gap"],
        |second: Length, top: Length| -> Ratio { second / top },
    )
    .part("rings");
    b.usual(
        "ring.rise",
        "temperature-difference",
        "How much warmer than 20 °C the top ring runs: more with an adder off the street.",
        PRACTICE,
        ["adder", "use"],
        |words| Some(ring_rise(words)),
    );
    b.usual(
        "ring.wall-rise",
        "temperature-difference",
        "How much warmer than 20 °C the bore is where the top ring turns.",
        PRACTICE,
        [],
        |_| Some(WALL_RISE),
    );
    b.derive(
        "ring.closing-gap",
        "gap",
        One,
        "What ring and bore close of the top gap when they are hot: filed smaller than this, it butts.",
        "pi B (ar dTr - ab dTb), ring and bore grown freely from 20 °C",
        ["bore.nominal", "block.material", "ring.rise", "ring.wall-rise"],
        |bore: Length, block: Word, ring_rise: Rise, wall_rise: Rise| closing(bore, block, ring_rise.0, wall_rise.0),
    );
    b.derive(
        "ring.closing-gap.least",
        "gap",
        One,
        "What ring and bore close of the top gap at the least, both as cool as such an engine runs them: a smaller gap \
         butts whatever the engine does.",
        "pi B (ar dTr - ab dTb) at the least rises: ring 100 K, with an adder off the street 150 K, bore 60 K; common \
         practice, no source",
        ["bore.nominal", "block.material", "adder", "use"],
        |bore: Length, block: Word, adder: Option<Word>, usage: Option<Word>| {
            let words = [adder.map_or("none", |w| w.0), usage.map_or("street", |w| w.0)];
            closing(bore, block, ring_rise(&words).0, WALL_RISE.0)
        },
    );
}

/// Kelvin over 20 °C that a top ring runs at, from the least to the most; adder and use.
fn ring_rise(words: &[&str]) -> (f64, f64) {
    let hot = matches!(words, [adder, usage] if *adder != "none" && *usage != "street");
    if hot { (150.0, 240.0) } else { (100.0, 180.0) }
}

/// Kelvin over 20 °C that the bore is at where the top ring turns.
const WALL_RISE: (f64, f64) = (60.0, 110.0);

fn closing(bore: Length, block: Word, ring_rise: f64, wall_rise: f64) -> Length {
    // a sleeve is held to its iron's figure here: the smaller growth, so the larger gap
    let wall = material("bore", block.0).unwrap_or(expansion::Material::GreyIron).properties().expansion;
    Length::si(ring::closing_gap(bore.value, RING, ring_rise, wall, wall_rise))
}

/// Coefficient of expansion of a top ring, 1/K: steel and ductile iron are 11 to 12; from memory.
const RING: f64 = 11.0e-6;
