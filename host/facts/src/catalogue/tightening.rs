//! How the joints were tightened, against what their cards ask for and against what a thread of that size is given.

use super::joints::of_size;
use crate::builder::Builder;
use crate::typed::{Si, Unavailable};
use thou_sheet::Axis::One;
use uom::si::f64::{Force, Length, Pressure, Ratio, Torque};

const METHODS: &[&str] = &["torque", "angle", "stretch", "yield"];
/// Torque over clamp and diameter.
const NUT_FACTOR: f64 = 0.2;

/// A joint, by its facts and its fields.
struct Joint {
    torque: &'static str,
    diameter: &'static str,
    pitch: &'static str,
    card_torque: [&'static str; 2],
    card_uses: [&'static str; 2],
    over_card: &'static str,
    over_uses: &'static str,
    uses: &'static str,
    stress: &'static str,
}

/// The joint of facts that begin so, in that section of the sheet.
macro_rules! joint {
    ($fact:literal, $section:literal) => {
        Joint {
            torque: concat!($fact, ".torque"),
            diameter: concat!($fact, ".diameter"),
            pitch: concat!($fact, ".pitch"),
            card_torque: [concat!($fact, ".card.torque"), concat!($section, ".card.torque")],
            card_uses: [concat!($fact, ".card.uses"), concat!($section, ".card.uses")],
            over_card: concat!($fact, ".torque-over-card"),
            over_uses: concat!($fact, ".uses-over-card"),
            uses: concat!($fact, ".uses"),
            stress: concat!($fact, ".torque-stress"),
        }
    };
}

const JOINTS: [Joint; 3] = [
    joint!("main-fastener", "fasteners.mains"),
    joint!("head-fastener", "fasteners.heads"),
    joint!("rod-bolt", "fasteners.rod-bolts"),
];

pub(super) fn facts(b: &mut Builder) {
    mains(b);
    heads(b);
    b.stated(
        "head-fastener.uses",
        "count",
        "fasteners.heads.times-tightened",
        "How often the head fasteners were tightened.",
    );
    b.derive(
        "rod-bolt.times-tightened",
        "count",
        One,
        "How often the rod bolts were tightened, where it is stated.",
        "a selection",
        ["rod-bolt.uses"],
        |uses: Ratio| uses,
    );
    b.derive(
        "head-fastener.times-tightened",
        "count",
        One,
        "How often the head fasteners were tightened, where it is stated.",
        "a selection",
        ["head-fastener.uses"],
        |uses: Ratio| uses,
    );
    b.choice("rod-bolt.method", "fasteners.rod-bolts.method", METHODS, "How the rod bolts are tightened.");
    for joint in &JOINTS {
        let [id, path] = joint.card_torque;
        b.stated(id, "torque", path, "Torque that the joint's card asks for.");
        let [id, path] = joint.card_uses;
        b.stated(id, "count", path, "How often the joint's card lets its fasteners be tightened.");
        b.derive(
            joint.over_card,
            "ratio",
            One,
            "Torque over what the joint's card asks for.",
            "ratio of two torques",
            [joint.torque, joint.card_torque[0]],
            |torque: Torque, card: Torque| -> Ratio { torque / card },
        );
        b.derive(
            joint.over_uses,
            "ratio",
            One,
            "How often they were tightened over what the joint's card allows.",
            "ratio of two counts",
            [joint.uses, joint.card_uses[0]],
            |uses: Ratio, card: Ratio| -> Ratio { uses / card },
        );
        b.derive(
            joint.stress,
            "pressure",
            One,
            "Stress in the thread that the torque stands for at a nut factor of 0.2: to see a torque that belongs to another \
             size or another unit; a slick lubricant clamps up to two thirds more.",
            "T/(K d) over the tensile stress area; Shigley's Mechanical Engineering Design, eq. 8-27",
            [joint.torque, joint.diameter, joint.pitch],
            |torque: Torque, diameter: Length, pitch: Length| {
                let stress = torque.value / (NUT_FACTOR * diameter.value) / super::joints::thread(diameter, pitch).stress_area();
                if stress.is_finite() { Ok(Pressure::si(stress)) } else { Err(Unavailable::Outside("no thread of that size")) }
            },
        );
    }
}

fn heads(b: &mut Builder) {
    b.derive(
        "head-fastener.nut-factor",
        "ratio",
        One,
        "Torque of the head fasteners over their stated clamp and their diameter.",
        "K = T/(F d); Shigley's Mechanical Engineering Design, eq. 8-27",
        ["head-fastener.torque", "head-fastener.clamp", "head-fastener.diameter"],
        |torque: Torque, clamp: Force, diameter: Length| Ratio::si(torque.value / (clamp.value * diameter.value)),
    );
}

fn mains(b: &mut Builder) {
    b.stated(
        "main-fastener.torque",
        "torque",
        "fasteners.mains.torque",
        "Torque of the main cap fasteners, as stated.",
    );
    b.choice("main-fastener.method", "fasteners.mains.method", METHODS, "How the main cap fasteners are tightened.");
    b.stated(
        "main-fastener.uses",
        "count",
        "fasteners.mains.times-tightened",
        "How often the main cap fasteners were tightened.",
    );
    b.worked("main-fastener.diameter", "length", "fasteners.mains.size", "A main cap fastener's thread.", |s| {
        of_size(s, "fasteners.mains.size").map(|t| t.diameter)
    });
    b.worked(
        "main-fastener.pitch",
        "length",
        "fasteners.mains.size",
        "The pitch of a main cap fastener's thread.",
        |s| of_size(s, "fasteners.mains.size").map(|t| t.pitch),
    );
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use crate::{Catalogue, SheetFacts};
    use serde_json::json;
    use std::path::Path;
    use thou_sheet::Sheet;

    #[test]
    fn a_torque_as_a_stress_and_against_its_card() {
        let sheet = json!({
            "format": "thou-build-1",
            "engine": { "name": "x", "cylinders": 8, "layout": "v" },
            "fasteners": { "mains": { "size": "1/2-13 stud", "torque": "110 lb-ft", "times-tightened": 3,
                "card": { "torque": "100 lb-ft", "uses": 6 } } }
        });
        let sheet =
            Sheet::parse_unheld("sheet.json", &sheet.to_string(), Path::new(".")).unwrap_or_else(|_| unreachable!());
        let facts = SheetFacts::new(Catalogue::standard(), &sheet);
        let one = |id: &str| facts.get(id).unwrap().first().unwrap().as_ref().unwrap().value;
        assert!((one("main-fastener.torque-over-card") - 1.1).abs() < 1e-9);
        assert!((one("main-fastener.uses-over-card") - 0.5).abs() < 1e-9);
        // 1/2-13 has 0.1419 square inches by the table
        let ksi = 110.0 * 12.0 / (0.2 * 0.5) / 0.1419 / 1_000.0;
        assert!((one("main-fastener.torque-stress") / 6.894_757e6 / ksi - 1.0).abs() < 1e-3);
    }
}
