//! What shakes the engine, and what the balancing machine leaves of it.

use crate::builder::Builder;
use crate::typed::{Si, Unavailable, Unbalance, Word};
use std::f64::consts::PI;
use thou_contract::Kind;
use thou_mechanics::balance::{self as balancer, CylinderPlace};
use thou_sheet::Axis::{self, One};
use thou_sheet::Sheet;
use uom::si::f64::{AngularVelocity, Force, Length, Mass, Ratio, Torque};

pub(super) fn facts(b: &mut Builder) {
    shares(b);
    forces(b);
    single(b);
    rotor(b);
    left(b);
}

const ORDERS: &str = "two-term series by the crank's angles from an evenly spaced firing order; Den Hartog, Mechanical \
                      Vibrations, ch. 5";
const NO_ORDER: Unavailable = Unavailable::Field("engine.firing-order");
const NO_BANK: Unavailable = Unavailable::Field("engine.bank-angle");
const UNEVEN: Unavailable = Unavailable::Outside(
    "its firing order, spaced evenly, does not bring cylinders of one crankpin to that pin: uneven firing is not worked out",
);

/// What [`layout`] reads of the sheet beside its places.
pub(super) const LAYOUT: [&str; 3] = ["engine.layout", "engine.bank-angle", "engine.firing-order"];

/// The cylinders by a crank of unit size with unit masses, crankpins at unit distance.
pub(super) fn layout(sheet: &Sheet) -> Result<Vec<CylinderPlace>, Unavailable> {
    let labels = sheet.places.labels(Axis::Cylinder);
    let word = |path: &str| sheet.stated(path).and_then(|(v, _)| v.as_str());
    let half = match word("engine.layout") {
        Some("v") => {
            let angle = word("engine.bank-angle").and_then(|text| Kind::by_id("angle")?.parse(text).ok());
            angle.ok_or(NO_BANK)? / 2.0
        }
        Some("flat") => PI / 2.0,
        _ => 0.0,
    };
    let order = sheet.root.pointer("/engine/firing-order").and_then(|v| v.as_array());
    let turn = |label: &String| match order {
        None if labels.len() == 1 => Some(0.0),
        None => None,
        Some(order) => {
            let nth = order.iter().position(|v| v.as_str() == Some(label.as_str()))?;
            Some(balancer::even_firing(nth, labels.len()))
        }
    };
    let pins = &sheet.places.pin_of_cylinder;
    let middle = pins.iter().max().map_or(0.0, |last| *last as f64 / 2.0);
    // the sheet does not say which bank the crank turns toward: the pins that are shared do
    let toward = |side: f64| -> Result<Vec<CylinderPlace>, Unavailable> {
        let mut all: Vec<CylinderPlace> = Vec::with_capacity(labels.len());
        for ((label, pin), bank) in labels.iter().zip(pins).zip(&sheet.places.bank_of_cylinder) {
            let position = *pin as f64 - middle;
            // of two on one pin each stands in its own bank
            let second = all.iter().any(|c| (c.position - position).abs() < 0.5);
            let shared = pins.iter().filter(|p| *p == pin).count() > 1;
            let right = if shared { second } else { *bank != 0 };
            let axis = if right { -side * half } else { side * half };
            all.push(CylinderPlace::at_top(turn(label).ok_or(NO_ORDER)?, axis, position, 1.0));
        }
        Ok(all)
    };
    for side in [1.0, -1.0] {
        let all = toward(side)?;
        if pins_agree(&all) {
            return Ok(all);
        }
    }
    // a pair on one pin needs no firing order: both are where the pin is
    let mut pair = toward(1.0)?;
    if pins.iter().any(|pin| *pin != 0) {
        return Err(UNEVEN);
    }
    for cylinder in &mut pair {
        cylinder.pin = 0.0;
    }
    Ok(pair)
}

/// Whether cylinders that stand at one crankpin have it at one angle, to half a degree.
fn pins_agree(all: &[CylinderPlace]) -> bool {
    all.iter().all(|a| {
        let beside = all.iter().filter(|b| (a.position - b.position).abs() < 0.5);
        beside.map(|b| (a.pin - b.pin).cos()).all(|cos| cos > 0.999_96)
    })
}

fn exact(value: f64) -> (f64, f64) {
    // sums of sines of a balanced layout end a hair off zero
    (if value < 1e-9 { 0.0 } else { value }, 0.0)
}

fn shares(b: &mut Builder) {
    let at = "engine.firing-order";
    b.listed(
        "shake.primary.share",
        "ratio",
        at,
        "Shaking force at the crank's speed that no counterweight reaches, in forces of one cylinder.",
        ORDERS,
        |sheet| Ok(exact(balancer::primary_force(&layout(sheet)?, 1.0, 1.0).beyond_counterweights())),
    )
    .with(&LAYOUT);
    b.listed(
        "shake.primary-couple.share",
        "ratio",
        at,
        "Shaking couple at the crank's speed that no counterweight reaches, in forces of one cylinder at one distance of crankpins.",
        ORDERS,
        |sheet| Ok(exact(balancer::primary_couple(&layout(sheet)?, 1.0, 1.0).beyond_counterweights())),
    )
    .with(&LAYOUT);
    b.listed(
        "shake.counterweight-couple.share",
        "ratio",
        at,
        "Couple of the pistons that turns with the crank, for its counterweights to take, in forces of one cylinder at one distance of crankpins.",
        ORDERS,
        |sheet| {
            let [x, y] = balancer::primary_couple(&layout(sheet)?, 1.0, 1.0).with;
            Ok(exact(x.hypot(y)))
        },
    )
    .with(&LAYOUT);
    b.listed(
        "shake.secondary.share",
        "ratio",
        at,
        "Shaking force at twice the crank's speed, in secondary forces of one cylinder: none but balance shafts reach it.",
        ORDERS,
        |sheet| {
            let shake = balancer::secondary_force(&layout(sheet)?, 1.0, 1.0, 1.0).map_err(|_| UNEVEN)?;
            Ok(exact(shake.greatest()))
        },
    )
    .with(&LAYOUT);
    b.listed(
        "shake.secondary-couple.share",
        "ratio",
        at,
        "Shaking couple at twice the crank's speed, in secondary forces of one cylinder at one distance of crankpins.",
        ORDERS,
        |sheet| {
            let shake = balancer::secondary_couple(&layout(sheet)?, 1.0, 1.0, 1.0).map_err(|_| UNEVEN)?;
            Ok(exact(shake.greatest()))
        },
    )
    .with(&LAYOUT);
}

fn forces(b: &mut Builder) {
    b.derive(
        "reciprocating.pull",
        "force",
        One,
        "Primary force of one cylinder's reciprocating mass at the highest speed it is meant to see: what a main has from it.",
        "m r w²; Den Hartog, Mechanical Vibrations, ch. 5",
        ["reciprocating.mass.mean", "stroke", "top-speed"],
        |mass: Mass, stroke: Length, w: AngularVelocity| {
            Force::si(balancer::unbalance_force(mass.value, stroke.value / 2.0, w.value))
        },
    );
    b.derive(
        "shake.primary.force",
        "force",
        One,
        "Shaking force at the crank's speed that no counterweight reaches, at the highest speed it is meant to see.",
        ORDERS,
        ["shake.primary.share", "reciprocating.pull"],
        |share: Ratio, pull: Force| -> Force { share * pull },
    );
    b.derive(
        "shake.secondary.force",
        "force",
        One,
        "Shaking force at twice the crank's speed, at the highest speed it is meant to see.",
        ORDERS,
        ["shake.secondary.share", "reciprocating.pull", "stroke", "rod.length"],
        |share: Ratio, pull: Force, stroke: Length, rod: Length| -> Force { share * pull * (stroke / 2.0 / rod) },
    );
    b.choice("balance.shafts", "balance.shafts", &["none", "one", "two"], "Balance shafts that turn.");
    b.stated("crank.pin-spacing", "length", "crank.pin-spacing", "From the middle of one crankpin to the next.");
    b.derive(
        "shake.primary.couple",
        "torque",
        One,
        "Shaking couple at the crank's speed that no counterweight reaches, at the highest speed it is meant to see.",
        ORDERS,
        ["shake.primary-couple.share", "reciprocating.pull", "crank.pin-spacing"],
        |share: Ratio, pull: Force, arm: Length| Torque::si(share.value * pull.value * arm.value),
    );
    b.derive(
        "shake.secondary.couple",
        "torque",
        One,
        "Shaking couple at twice the crank's speed, at the highest speed it is meant to see.",
        ORDERS,
        ["shake.secondary-couple.share", "reciprocating.pull", "stroke", "rod.length", "crank.pin-spacing"],
        |share: Ratio, pull: Force, stroke: Length, rod: Length, arm: Length| {
            Torque::si(share.value * pull.value * (stroke.value / 2.0 / rod.value) * arm.value)
        },
    );
}

const NOT_SINGLE: Unavailable = Unavailable::Outside("its balance factor is a choice on a single only");

fn single(b: &mut Builder) {
    let source = "(1 - f) m r w² and f m r w²; Bevan, Theory of Machines, ch. 14";
    for (id, about, place) in [
        ("single.shake.along", "What a single's counterweight leaves along its bore, at the highest speed.", 0_usize),
        ("single.shake.across", "What a single's counterweight brings across its bore, at the highest speed.", 1),
    ] {
        b.derive(
            id,
            "force",
            One,
            about,
            source,
            ["engine.layout", "balance.factor", "reciprocating.pull"],
            move |layout: Word, factor: Ratio, pull: Force| {
                if layout.0 != "single" {
                    return Err(NOT_SINGLE);
                }
                let both = balancer::single(factor.value, pull.value, 1.0, 1.0);
                both.get(place).map(|force| Force::si(*force)).ok_or(NOT_SINGLE)
            },
        );
    }
}

const GRADES: &str = "ISO 21940-11:2016, table 1, on rigid mounts: G16 for crank drives that are balanced in themselves, G250 for \
     those that are not, as those of one to three cylinders in line or in a V; elastically mounted G40 and G630";

fn rotor(b: &mut Builder) {
    b.stated("crank.mass", "mass", "crank.mass", "Weight of the bare crank.");
    b.derive(
        "rotor.mass",
        "mass",
        One,
        "What turns in the balancing machine: the crank and the bobweights on its throws, where it has any.",
        "ISO 21940-11:2016, section 4: the rotor as it is balanced",
        ["crank.mass", "engine.cylinders", "rods-a-pin", "bobweight.card"],
        |crank: Mass, cylinders: Ratio, rods: Ratio, bobweight: Option<Mass>| -> Mass {
            crank + bobweight.unwrap_or(Mass::si(0.0)) * (cylinders / rods)
        },
    );
    b.stated("balance.grade", "ratio", "balance.grade", "Balance quality grade asked of the crank, G in mm/s.")
        .or(
            GRADES,
            ["engine.layout", "engine.cylinders"],
            // one throw or two shake by themselves, and three in line rock; a flat pair does neither
            |layout: Word, cylinders: Ratio| match (layout.0, cylinders.value) {
                ("v" | "inline", count) if count <= 3.0 => Ok(Ratio::si(250.0)),
                _ => Err(Unavailable::Outside("a crank drive that is balanced in itself, or a single's")),
            },
        )
        .or_usual(GRADES, ["engine.layout"], |words| {
            if words == ["single"] { Some((250.0, 250.0)) } else { Some((16.0, 16.0)) }
        });
    b.derive(
        "balance.permissible",
        "unbalance",
        One,
        "Unbalance that the grade allows the whole rotor at the highest speed it is meant to see.",
        "ISO 21940-11:2016, section 6: G M/w",
        ["balance.grade", "rotor.mass", "top-speed"],
        |grade: Ratio, rotor: Mass, w: AngularVelocity| {
            balancer::permissible(grade.value / 1e3, rotor.value, w.value).map(Unbalance).map_err(|_| STANDS_STILL)
        },
    );
    b.derive(
        "balance.permissible-a-plane",
        "unbalance",
        One,
        "The half of it that each of two planes may have.",
        "ISO 21940-11:2016, section 7: a mass centre midway between the bearings",
        ["balance.permissible"],
        |whole: Unbalance| Unbalance(whole.0 / 2.0),
    );
}

const STANDS_STILL: Unavailable = Unavailable::Outside("the highest speed or the rotor's mass is nothing");

fn left(b: &mut Builder) {
    b.derive(
        "balance.residual.grade",
        "ratio",
        One,
        "Balance quality grade that the two planes come to together, at their worst: both on one side.",
        "ISO 21940-11:2016, section 5: U w/M",
        ["balance.residual.front", "balance.residual.rear", "rotor.mass", "top-speed"],
        |front: Unbalance, rear: Unbalance, rotor: Mass, w: AngularVelocity| {
            let grade = balancer::grade(front.0 + rear.0, rotor.value, w.value);
            grade.map(|g| Ratio::si(g * 1e3)).map_err(|_| STANDS_STILL)
        },
    );
    b.derive(
        "balance.residual.force",
        "force",
        One,
        "Pull of the worse plane's unbalance on its end main, at the highest speed it is meant to see.",
        "U w²",
        ["balance.residual.front", "balance.residual.rear", "top-speed"],
        |front: Unbalance, rear: Unbalance, w: AngularVelocity| {
            Force::si(balancer::unbalance_force(front.0.max(rear.0), 1.0, w.value))
        },
    );
    b.derive(
        "balance.residual.share",
        "percent",
        One,
        "That pull over what a main has from one piston's mass at that speed anyway.",
        "ratio of two forces",
        ["balance.residual.force", "reciprocating.pull"],
        |residual: Force, pull: Force| -> Ratio { residual / pull },
    );
    b.derive(
        "unbalance.share",
        "percent",
        One,
        "Pull of the bobweight's error over what a main has from one piston's mass at that speed anyway.",
        "ratio of two forces",
        ["unbalance.force", "reciprocating.pull"],
        |error: Force, pull: Force| -> Ratio { error / pull },
    );
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]
    use crate::testing::sheet;
    use crate::{Catalogue, Missing, SheetFacts};
    use serde_json::{Value, json};

    fn engine(extra: &Value) -> Value {
        let mut all = json!({
            "engine": { "cylinders": 8, "layout": "v", "bank-angle": "90 deg",
                        "firing-order": ["1", "8", "4", "3", "6", "5", "7", "2"] },
            "intent": { "limiter": "7000 rpm", "redline": "6800 rpm", "adder": "none", "use": "bracket" },
            "crank": { "stroke": "88.4 mm", "mass": "21.0 kg", "pin-spacing": "111.8 mm" },
            "rods": { "length": "150 mm", "material": "steel", "small-end-mass": "180 g", "big-end-mass": "450 g" },
            "pistons": { "mass": "440 g" }, "pins": { "mass": "120 g" }, "rings": { "mass": "40 g" },
            "bearings": { "rod-mass": "45 g" },
            "balance": { "factor": "50 %", "oil-mass": "4 g", "bobweight": "1000 g" },
            "readings": { "balance-front": { "value": "0.25 oz-in" }, "balance-rear": { "value": "0.15 oz-in" } },
        });
        for (section, fields) in extra.as_object().unwrap() {
            for (field, value) in fields.as_object().unwrap() {
                all[section][field] = value.clone();
            }
        }
        all
    }

    fn value(extra: &Value, id: &str) -> f64 {
        let mut s = sheet(engine(extra));
        if s.stated("engine.layout").is_some_and(|(v, _)| v.as_str() == Some("inline")) {
            s.places.pin_of_cylinder = (0..s.places.pin_of_cylinder.len()).collect();
        }
        let facts = SheetFacts::new(Catalogue::standard(), &s);
        let cell = facts.get(id).unwrap().first().unwrap();
        cell.as_ref().unwrap_or_else(|missing| panic!("{id}: {missing:?}")).value
    }

    #[test]
    fn a_cross_plane_eight_is_left_without_force_or_couple() {
        for id in ["shake.primary.force", "shake.primary.couple", "shake.secondary.force", "shake.secondary.couple"] {
            assert!(value(&json!({}), id).abs() < 1e-6, "{id}");
        }
        assert!(value(&json!({}), "shake.counterweight-couple.share") > 1.0);
    }

    #[test]
    fn an_in_line_four_shakes_with_four_secondaries() {
        let four = json!({ "engine": { "cylinders": 4, "layout": "inline", "firing-order": ["1", "3", "4", "2"] } });
        let omega = 7000.0 * std::f64::consts::PI / 30.0;
        let expected = 4.0 * 0.780 * 0.0442 * omega * omega * 0.0442 / 0.150;
        assert!((value(&four, "shake.secondary.force") / expected - 1.0).abs() < 1e-9);
        assert!(value(&four, "shake.primary.force").abs() < 1e-6);
    }

    #[test]
    fn a_pair_on_one_pin_needs_no_even_firing() {
        let twin =
            json!({ "engine": { "cylinders": 2, "layout": "v", "bank-angle": "45 deg", "firing-order": ["1", "2"] } });
        assert!((value(&twin, "shake.primary.share") - 45_f64.to_radians().cos()).abs() < 1e-9);
    }

    #[test]
    fn what_is_missing_is_named_and_uneven_firing_is_refused() {
        let lacks = |extra: &Value, id: &str| {
            let s = sheet(engine(extra));
            let facts = SheetFacts::new(Catalogue::standard(), &s);
            facts.get(id).unwrap().first().unwrap().as_ref().unwrap_err().clone()
        };
        let none = json!({ "engine": { "firing-order": null } });
        assert!(lacks(&none, "shake.secondary.force").contains(&Missing::Field("engine.firing-order".to_owned())));
        let none = json!({ "engine": { "bank-angle": null } });
        assert!(lacks(&none, "shake.secondary.force").contains(&Missing::Field("engine.bank-angle".to_owned())));
        let odd = json!({ "engine": { "bank-angle": "77 deg" } });
        let why = lacks(&odd, "shake.secondary.force");
        assert!(why.iter().any(|m| matches!(m, Missing::Outside(said) if said.contains("uneven"))), "{why:?}");
        let none = json!({ "crank": { "mass": null } });
        assert!(lacks(&none, "balance.permissible").contains(&Missing::Field("crank.mass".to_owned())));
    }

    #[test]
    fn a_grade_counts_the_crank_with_its_bobweights() {
        // 21 kg and four bobweights of 1 kg: G16 at 7,000 rpm is 545.674 g mm for 25 kg
        assert!((value(&json!({}), "rotor.mass") - 25.0).abs() < 1e-12);
        assert!((value(&json!({}), "balance.permissible") / 545.674e-6 - 1.0).abs() < 1e-6);
        let own = json!({ "balance": { "grade": 2.5 } });
        assert!((value(&own, "balance.permissible") / 545.674e-6 - 2.5 / 16.0).abs() < 1e-6);
        // 0.40 oz in of 0.7578 is that share of G16
        assert!((value(&json!({}), "balance.residual.grade") - 16.0 * 0.40 / 0.757_8).abs() < 1e-3);
        let omega = 7000.0 * std::f64::consts::PI / 30.0;
        let force = 0.25 * 720.077_887e-6 * omega * omega;
        assert!((value(&json!({}), "balance.residual.force") / force - 1.0).abs() < 1e-6);
    }

    #[test]
    fn the_grade_goes_by_whether_the_crank_drive_is_balanced_in_itself() {
        let of = |layout: &str, cylinders: u32, order: &[&str]| {
            let engine = json!({ "engine": { "cylinders": cylinders, "layout": layout, "firing-order": order } });
            value(&engine, "balance.grade")
        };
        assert!((of("v", 2, &["1", "2"]) - 250.0).abs() < 1e-12);
        assert!((of("inline", 3, &["1", "3", "2"]) - 250.0).abs() < 1e-12);
        assert!((of("flat", 2, &["1", "2"]) - 16.0).abs() < 1e-12);
        assert!((of("inline", 4, &["1", "3", "4", "2"]) - 16.0).abs() < 1e-12);
        assert!((value(&json!({}), "balance.grade") - 16.0).abs() < 1e-12);
    }

    #[test]
    fn a_single_shares_its_pull_between_along_and_across() {
        let single = json!({ "engine": { "cylinders": 1, "layout": "single", "firing-order": null },
                             "balance": { "factor": "60 %" } });
        let (along, across) = (value(&single, "single.shake.along"), value(&single, "single.shake.across"));
        let pull = value(&single, "reciprocating.pull");
        assert!((along / pull - 0.4).abs() < 1e-12 && (across / pull - 0.6).abs() < 1e-12);
    }
}
