//! What a user of the facts would notice.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use super::testing::sheet;
use super::{Catalogue, Grade, Missing, Num, SheetFacts};
use serde_json::{Value, json};
use std::collections::BTreeSet;

const THOU: f64 = 2.54e-5;

fn number(facts: &SheetFacts<'_>, id: &str, place: usize) -> Num {
    facts.get(id).unwrap()[place].clone().unwrap()
}
fn thou(facts: &SheetFacts<'_>, id: &str, place: usize) -> f64 {
    number(facts, id, place).value / THOU
}
fn missing(facts: &SheetFacts<'_>, id: &str, place: usize) -> Vec<Missing> {
    facts.get(id).unwrap()[place].clone().unwrap_err().into_iter().collect()
}
fn all(n: usize, value: &Value) -> Value {
    Value::Object((1..=n).map(|i| (i.to_string(), value.clone())).collect())
}
fn not_read(pointer: &str) -> Missing {
    Missing::NotRead(pointer.to_owned())
}
fn field(path: &str) -> Missing {
    Missing::Field(path.to_owned())
}

#[test]
fn the_catalogue_holds_together() {
    let cat = Catalogue::standard();
    assert_eq!(cat.faults(), Vec::<String>::new());
    let own = cat.all().filter(|f| f.series.is_none()).count();
    assert!(own >= 250, "{own} facts");
    for fact in cat.all() {
        assert!(fact.about.ends_with('.') && !fact.source.is_empty(), "{}: {} / {}", fact.id, fact.about, fact.source);
        assert!(
            fact.path.is_some() || !fact.needs.is_empty() || fact.series.is_some() || BARE.contains(&fact.id),
            "{}",
            fact.id
        );
    }
}

/// Usual figures that hang on nothing, and what the names of the places say.
#[rustfmt::skip]
const BARE: &[&str] = &[
    "bearing.film-rise.share", "bore.rise", "burn.duration", "cam.curve.power", "cylinder.model-error",
    "fastener.modulus", "friction.scale", "inlet.flow-coefficient", "journal.over-housing", "main-housing.rise",
    "piston.skirt-rise", "ring.wall-rise", "rod-bearing.film.model-error", "rod-bolt.damage-power",
    "rod-bolt.endurance", "rod.rise", "valve.is-inlet",
];

#[test]
fn no_fact_hangs_on_itself() {
    let cat = Catalogue::standard();
    let mut done: BTreeSet<&str> = BTreeSet::new();
    let mut left: Vec<_> = cat.all().collect();
    // facts whose needs are all settled, again and again; a circle never settles
    while !left.is_empty() {
        let before = left.len();
        left.retain(|f| {
            let settled = f.needs.iter().all(|n| done.contains(n));
            if settled {
                done.insert(f.id);
            }
            !settled
        });
        assert!(left.len() < before, "a circle among {:?}", left.iter().map(|f| f.id).collect::<Vec<_>>());
    }
}

#[test]
fn a_clearance_is_the_difference_of_two_readings_and_a_direct_reading_beats_it() {
    let mut root = json!({ "readings": {
        "bore": { "at": all(8, &json!("4.1550 in")) },
        "piston": { "at": all(8, &json!("4.1495 in")) },
    } });
    let parts = sheet(root.clone());
    let facts = SheetFacts::new(Catalogue::standard(), &parts);
    assert!((thou(&facts, "piston-to-wall", 5) - 5.5).abs() < 1e-9);
    assert_eq!(number(&facts, "piston-to-wall", 5).grade(), Grade::Measured);

    root["readings"]["piston-to-wall"] = json!({ "at": all(8, &json!("5.2 thou")) });
    let both = sheet(root);
    let facts = SheetFacts::new(Catalogue::standard(), &both);
    assert!((thou(&facts, "piston-to-wall", 5) - 5.2).abs() < 1e-9);
    let derived = facts.derived("piston-to-wall");
    assert!((derived[5].as_ref().unwrap().value / THOU - 5.5).abs() < 1e-9);
    assert_eq!(facts.derived("bore.diameter"), Vec::new());
}

#[test]
fn inches_and_millimetres_are_one_engine() {
    let value = |bore: &str, piston: &str| {
        let s = sheet(json!({ "readings": {
            "bore": { "at": all(8, &json!(bore)), "temperature": "68 °F" },
            "piston": { "at": all(8, &json!(piston)), "temperature": "20 °C" },
        }, "block": { "material": "grey-iron" }, "pistons": { "alloy": "2618" } }));
        let facts = SheetFacts::new(Catalogue::standard(), &s);
        number(&facts, "piston-to-wall", 0).value
    };
    let (inch, metric) = (value("4.155 in", "4.1495 in"), value("105.537 mm", "105.3973 mm"));
    assert!((inch - metric).abs() < 1e-9 * inch, "{inch} {metric}");
}

#[test]
fn a_warm_part_is_brought_to_twenty_degrees() {
    let shrinks = |shop: Value| {
        let s = sheet(json!({
            "readings": { "piston": { "at": all(8, &json!("4.1500 in")), "temperature": "78 °F" } },
            "pistons": { "alloy": "2618" }, "shop": shop,
        }));
        let facts = SheetFacts::new(Catalogue::standard(), &s);
        (0.105_41 - number(&facts, "piston.diameter", 0).value) / THOU
    };
    // 10 °F on 4.15 in of 2618 at 22.3e-6/K, the gauge at 68 °F
    assert!((shrinks(json!({ "temperature": "68 °F" })) - 0.5141).abs() < 5e-4);
    // a steel gauge as warm as the piston has grown, too: 22.3e-6 less 11.5e-6, to first order
    for shop in [json!({}), json!({ "temperature": "78 °F" })] {
        assert!((shrinks(shop) - 4150.0 * (22.3e-6 - 11.5e-6) * 10.0 / 1.8).abs() < 5e-4);
    }
    let unknown = sheet(json!({
        "readings": { "piston": { "at": all(8, &json!("4.1500 in")), "temperature": "78 °F" } },
    }));
    let facts = SheetFacts::new(Catalogue::standard(), &unknown);
    assert!((number(&facts, "piston.diameter", 0).value - 0.105_41).abs() < 1e-15);
}

#[test]
fn a_hole_leaves_its_place_open_and_the_spread_with_it() {
    let mut bores = all(8, &json!(["4.1550 in", "4.1551 in"]));
    bores["6"] = json!(["4.1550 in", null]);
    let s = sheet(json!({ "readings": {
        "bore": { "at": bores, "points": ["top thrust", "top axial"] },
        "piston": { "at": all(8, &json!("4.1495 in")) },
    } }));
    let facts = SheetFacts::new(Catalogue::standard(), &s);
    assert_eq!(missing(&facts, "bore.diameter", 5), [not_read("/readings/bore/at/6/1")]);
    assert_eq!(missing(&facts, "piston-to-wall", 5), [not_read("/readings/bore/at/6/1")]);
    assert_eq!(missing(&facts, "piston-to-wall.spread", 0), [not_read("/readings/bore/at/6/1")]);
    assert!((thou(&facts, "bore.out-of-round", 0) - 0.1).abs() < 1e-9);
    // one height has no taper, and the sheet has no crank at all
    assert_eq!(missing(&facts, "bore.taper", 0), [not_read("/readings/bore/at/1")]);
    assert_eq!(missing(&facts, "swept-volume", 0), [field("block.bore"), field("crank.stroke")]);
    assert_eq!(missing(&facts, "ring.top.gap", 3), [field("readings.top-gap")]);
}

#[test]
fn round_and_taper_go_by_the_names_of_the_points() {
    let row = json!(["4.1552 in", "4.1550 in", "4.1551 in", "4.1551 in", "4.1548 in", "4.1550 in"]);
    let s = sheet(json!({ "readings": { "bore": { "at": all(8, &row),
        "points": ["top thrust", "top axial", "mid thrust", "mid axial", "bottom thrust", "bottom axial"] } } }));
    let facts = SheetFacts::new(Catalogue::standard(), &s);
    assert!((number(&facts, "bore.diameter", 0).value / 0.0254 - 4.1548).abs() < 1e-9);
    assert!((thou(&facts, "bore.out-of-round", 0) - 0.2).abs() < 1e-6);
    assert!((thou(&facts, "bore.taper", 0) - 0.2).abs() < 1e-6);
}

fn bearing(gauges: &Value) -> Num {
    let s = sheet(json!({
        "gauges": gauges,
        "readings": {
            "rod-inside": { "gauge": "bg", "at": all(8, &json!("2.1025 in")) },
            "rod-journal": { "gauge": "mic", "at": { "1": "2.1000 in", "2": "2.1001 in", "3": "2.0999 in", "4": "2.1000 in" } },
        },
    }));
    let facts = SheetFacts::new(Catalogue::standard(), &s);
    // rod 3 runs on the second crankpin
    assert!((thou(&facts, "rod-bearing.clearance", 2) - 2.4).abs() < 1e-6);
    number(&facts, "rod-bearing.clearance", 2)
}

#[test]
fn a_bore_gauge_set_on_the_micrometer_reads_a_difference() {
    let own = 0.1_f64.hypot(0.05 * 12_f64.sqrt()) / 12_f64.sqrt();
    let gauge = json!({ "kind": "bore-gauge", "resolution": "0.1 thou", "uncertainty": "0.05 thou", "set-on": "mic" });
    let micrometer = json!({ "kind": "outside-micrometer", "resolution": "0.1 thou", "uncertainty": "0.05 thou" });
    let together = bearing(&json!({ "bg": gauge, "mic": micrometer }));
    // the micrometer's own bias is on both sides: only the two repeats are left
    assert!((together.uncertainty() / THOU - own * 2_f64.sqrt()).abs() < 1e-6);
    let mut elsewhere = gauge;
    elsewhere["set-on"] = json!("ring");
    let apart = bearing(&json!({ "bg": elsewhere, "mic": micrometer }));
    assert!((apart.uncertainty() / THOU - (2.0 * own * own + 0.05 * 0.05).sqrt()).abs() < 1e-6);
}

#[test]
fn a_bias_common_to_a_set_is_not_in_its_spread() {
    let mut bores = all(8, &json!("4.1550 in"));
    bores["3"] = json!("4.1556 in");
    let s = sheet(json!({ "readings": { "bore": { "at": bores } } }));
    let facts = SheetFacts::new(Catalogue::standard(), &s);
    let own = (0.1_f64 * 0.1 / 12.0 + 0.05 * 0.05).sqrt();
    let one = number(&facts, "bore.diameter", 2).uncertainty() / THOU;
    assert!((one - own.hypot(0.05)).abs() < 1e-9, "{one}");
    let spread = number(&facts, "bore.diameter.spread", 0);
    assert!((spread.value / THOU - 0.6).abs() < 1e-6);
    assert!((spread.uncertainty() / THOU - own * 2_f64.sqrt()).abs() < 1e-9);
    let roots: Vec<_> = spread.roots.keys().map(|r| facts.root(r).clone()).collect();
    assert!(roots.iter().any(|r| r.what == "bore, 3" && r.assumed_gauge && r.pointer == "/readings/bore/at/3"));
    assert_eq!(roots.iter().find(|r| r.what == "bore, 3").unwrap().gauge.as_deref(), Some("bore-gauge"));
}

#[test]
fn the_spread_of_equal_readings_is_not_known_better_than_they_are() {
    let s = sheet(json!({ "readings": { "piston": { "at": all(8, &json!("4.1495 in")) } } }));
    let facts = SheetFacts::new(Catalogue::standard(), &s);
    let one = number(&facts, "piston.diameter", 0).uncertainty();
    let spread = number(&facts, "piston.diameter.spread", 0);
    assert_eq!(spread.value, 0.0);
    assert!((spread.uncertainty() - one * 2_f64.sqrt()).abs() < 1e-15);
}

#[test]
fn a_valve_takes_the_side_it_is_on() {
    let s = sheet(json!({
        "cam": { "inlet": { "lobe-lift": "0.400 in", "valve-lift": "0.578 in" },
                 "exhaust": { "lobe-lift": "0.390 in", "valve-lift": "0.600 in" } },
        "valvetrain": { "lifter": "roller-solid", "rocker-ratio": 1.5,
                        "card": { "lash-hot-inlet": "22 thou", "lash-hot-exhaust": "24 thou" } },
    }));
    let facts = SheetFacts::new(Catalogue::standard(), &s);
    assert!((number(&facts, "valve.lift.net", 0).value / 0.0254 - 0.578).abs() < 1e-9);
    assert!((number(&facts, "valve.lift.net", 1).value / 0.0254 - 0.561).abs() < 1e-9);
    assert!((thou(&facts, "valve.lift.difference", 1) - 39.0).abs() < 1e-6);
    assert_eq!(facts.get("valve.is-inlet").unwrap()[1].as_ref().unwrap().value, 0.0);
    assert_eq!(number(&facts, "valve.lift.net", 1).grade(), Grade::Stated);
}

#[test]
fn a_fork_computes_anew_only_what_hangs_on_the_change() {
    let s = sheet(json!({ "readings": {
        "bore": { "at": all(8, &json!("4.1550 in")) },
        "piston": { "at": all(8, &json!("4.1495 in")) },
    } }));
    let facts = SheetFacts::new(Catalogue::standard(), &s);
    let honed = facts.fork(&[("bore.diameter", 5, 4.1560 * 0.0254)]);
    assert!((thou(&honed, "piston-to-wall", 5) - 6.5).abs() < 1e-9);
    assert!((thou(&honed, "piston-to-wall", 4) - 5.5).abs() < 1e-9);
    assert!((thou(&honed, "piston-to-wall.spread", 0) - 1.0).abs() < 1e-9);
    assert!((thou(&facts, "piston-to-wall", 5) - 5.5).abs() < 1e-9);
    let same = std::ptr::eq(honed.get("piston.diameter").unwrap(), facts.get("piston.diameter").unwrap());
    assert!(same, "the pistons do not hang on the bore");
    let was = number(&facts, "piston-to-wall", 5).uncertainty();
    assert!((number(&honed, "piston-to-wall", 5).uncertainty() - was).abs() < 1e-12);
    let alone = facts.values_with(&[("bore.diameter", 5, 4.1560 * 0.0254)]);
    let [known, only] = [&honed, &alone].map(|facts| number(facts, "piston-to-wall", 5));
    assert!(only.value.to_bits() == known.value.to_bits() && only.uncertainty() < f64::MIN_POSITIVE);
    let twice = honed.fork(&[("piston.diameter", 5, 4.1500 * 0.0254)]);
    assert!((thou(&twice, "piston-to-wall", 5) - 6.0).abs() < 1e-9);
}

#[test]
fn a_usual_figure_is_listed_only_once_it_is_used() {
    let s = sheet(json!({ "intent": { "power": "1000 hp", "fuel": "methanol", "adder": "none" } }));
    let facts = SheetFacts::new(Catalogue::standard(), &s);
    assert!(facts.defaults_taken().is_empty());
    let need = number(&facts, "fuel.need", 0);
    assert_eq!(need.grade(), Grade::Default);
    // 1,000 lb/h at the middle of 0.90 to 1.10
    assert!((need.value / 0.453_592_37 * 3_600.0 - 1_000.0).abs() < 1e-6);
    assert!((need.uncertainty() / need.value - 0.2 / 12_f64.sqrt()).abs() < 1e-6);
    let taken = facts.defaults_taken();
    assert_eq!(taken.iter().map(|t| t.fact).collect::<Vec<_>>(), ["fuel.bsfc"]);
    let stated = sheet(json!({ "intent": { "power": "1000 hp", "fuel": "methanol", "adder": "none" },
                               "fuel": { "bsfc": "1.0 lb/hp-h" } }));
    let facts = SheetFacts::new(Catalogue::standard(), &stated);
    assert_eq!(number(&facts, "fuel.need", 0).grade(), Grade::Stated);
    assert!(facts.defaults_taken().is_empty());
}

#[test]
fn the_last_set_counts_and_the_earlier_ones_are_kept() {
    let s = sheet(json!({ "readings": { "seat-load": [
        { "when": "2026-03-01", "stage": "after-run", "at": { "1I": "245 lbf" } },
        { "when": "2026-01-10", "stage": "final", "at": { "1I": "260 lbf" } },
    ] } }));
    let facts = SheetFacts::new(Catalogue::standard(), &s);
    assert!((number(&facts, "spring.seat-load", 0).value / 4.448_221_615_260_5 - 245.0).abs() < 1e-9);
    let earlier = facts.earlier("spring.seat-load");
    assert_eq!(earlier.len(), 1);
    assert_eq!(earlier[0].stage.as_deref(), Some("final"));
    assert_eq!(earlier[0].pointer, "/readings/seat-load/1");
    // a spring tester is good for a share of what it shows
    let cell = earlier[0].cells[0].as_ref().unwrap();
    assert!((cell.uncertainty() / 4.448_221_615_260_5 - (1.0 / 12.0 + 5.2_f64 * 5.2).sqrt()).abs() < 1e-6);
}

#[test]
fn a_nominal_size_does_not_fill_a_hole_in_what_was_read() {
    let mut chambers = all(8, &json!("64.0 cc"));
    chambers["2"] = Value::Null;
    let mut root = json!({ "heads": { "chamber-volume": "64.5 cc" } });
    let nominal = sheet(root.clone());
    let facts = SheetFacts::new(Catalogue::standard(), &nominal);
    assert_eq!(number(&facts, "chamber.volume", 1).grade(), Grade::Stated);
    root["readings"] = json!({ "chamber-volume": { "at": chambers } });
    let begun = sheet(root);
    let facts = SheetFacts::new(Catalogue::standard(), &begun);
    assert_eq!(missing(&facts, "chamber.volume", 1), [not_read("/readings/chamber-volume/at/2")]);
}

#[test]
fn choices_and_flags_are_words_and_numbers() {
    let s = sheet(json!({ "intent": { "use": "pulling", "sanctioned": true }, "pistons": { "alloy": "4032" } }));
    let facts = SheetFacts::new(Catalogue::standard(), &s);
    assert_eq!(facts.choice("use"), Some("pulling"));
    assert_eq!(number(&facts, "use", 0).value, -1.0);
    assert_eq!(number(&facts, "piston.alloy", 0).value, 2.0);
    assert_eq!(facts.choice("piston.state"), Some("new"));
    assert_eq!(facts.choice("block.material"), None);
    assert_eq!(facts.flag("sanctioned"), Some(true));
    assert_eq!(facts.flag("bore.plate-honed"), None);
    assert!(facts.get("no-such-fact").is_none());
}

/// The schema of one field, through its references and alternatives.
fn field_schema<'s>(schema: &'s Value, path: &str) -> Option<&'s Value> {
    path.split('.').try_fold(schema, |at, name| property(schema, at, name))
}
fn property<'s>(schema: &'s Value, at: &'s Value, name: &str) -> Option<&'s Value> {
    if let Some(found) = at.get("properties").and_then(|p| p.get(name)) {
        return Some(found);
    }
    let target = at.get("$ref").and_then(Value::as_str).and_then(|r| schema.pointer(r.trim_start_matches('#')));
    let parts = ["allOf", "anyOf", "oneOf"].iter().filter_map(|k| at.get(k).and_then(Value::as_array)).flatten();
    target.into_iter().chain(parts).find_map(|next| property(schema, next, name))
}

#[test]
fn every_field_that_a_fact_reads_is_in_the_schema_with_the_same_words() {
    let schema: Value = serde_json::from_str(include_str!("../../../schemas/build.schema.json")).unwrap();
    let mut wrong = Vec::new();
    for fact in Catalogue::standard().all().filter(|f| f.series.is_none()) {
        for path in fact.path.iter().chain(&fact.fallback) {
            let Some(field) = field_schema(&schema, path) else {
                wrong.push(format!("{}: no field {path}", fact.id));
                continue;
            };
            if let (super::ValueKind::Choice(words), Some(list)) =
                (fact.value, field.get("enum").and_then(Value::as_array))
            {
                let listed: BTreeSet<&str> = list.iter().filter_map(Value::as_str).collect();
                if listed != words.iter().copied().collect() {
                    wrong.push(format!("{}: {words:?}, the schema has {listed:?}", fact.id));
                }
            }
        }
    }
    assert_eq!(wrong, Vec::<String>::new());
}

#[test]
fn a_damper_is_as_old_as_its_stamp() {
    let mut s = sheet(json!({ "certificates": [
        { "part": "damper", "issued": "2021-03-01", "until": "2026-03-01" },
        { "part": "harness", "issued": "2025-03-01", "until": "2027-03-01" },
    ] }));
    s.as_of = Some("2026-03-31".parse().unwrap());
    let facts = SheetFacts::new(Catalogue::standard(), &s);
    assert!((number(&facts, "damper.certificate-left", 0).value / 86_400.0 + 30.0).abs() < 1e-9);
    assert!((number(&facts, "damper.age", 0).value / 86_400.0 - 1_856.0).abs() < 1e-9);
    let none = sheet(json!({}));
    let facts = SheetFacts::new(Catalogue::standard(), &none);
    assert_eq!(missing(&facts, "damper.certificate-left", 0), [field("certificates")]);
}

/// A V8's terms by hand, in metres: every joint at its greatest, what grows, and the bow.
#[test]
fn what_the_parts_take_up_is_the_sum_of_its_terms() {
    let mut root = json!({
        "engine": { "cylinders": 8, "layout": "v" },
        "intent": { "limiter": "7142.857142857143 rpm" },
        "block": { "material": "grey-iron" },
        "crank": { "stroke": "3.480 in" },
        "rods": { "length": "5.700 in", "material": "steel", "beam-area": "180 mm²", "small-end-mass": "180 g" },
        "pistons": { "alloy": "2618", "mass": "420 g", "compression-height": "1.500 in" },
        "pins": { "mass": "150 g" }, "rings": { "mass": "50 g" },
        "readings": {
            "rod-clearance": { "at": all(8, &json!("2.2 thou")) },
            "main-clearance": { "at": all(5, &json!("2.6 thou")) },
            "piston-to-wall": { "at": all(8, &json!("4.0 thou")) },
            "pin-to-piston": { "at": all(8, &json!("0.8 thou")) },
            "pin-to-rod": { "at": all(8, &json!("-1.2 thou")) },
        },
    });
    let sum = |root: &Value| number(&SheetFacts::new(Catalogue::standard(), &sheet(root.clone())), TAKEN, 0).value;
    const TAKEN: &str = "piston-to-head.taken-up";
    // 12.3e-6 a kelvin of steel, 22.3e-6 of 2618, 10.8e-6 of grey iron; inches to metres at the end
    let crown = 1.5 * 22.3e-6 * 130.0;
    let below = (5.7 + 1.74) * 12.3e-6 * 70.0;
    let deck = (1.5 + 5.7 + 1.74) * 10.8e-6 * 70.0;
    let joints = 2.2e-3 + 2.6e-3 + 0.8e-3 + 4.0e-3;
    let inches = crown + below - deck + joints + 3.48 * 0.8e-3;
    // the rod's stretch is worked out in the whole engine below
    let stretch = 0.125_976e-3;
    assert!((sum(&root) - (inches * 0.0254 + stretch)).abs() < 2e-9, "{}", sum(&root) / 0.0254e-3);
    // an aluminium block grows away from a steel rod: (21.5 - 10.8)e-6 x 70 K over 8.94 in less
    root["block"]["material"] = json!("aluminium-plated");
    let less = 8.94 * (21.5e-6 - 10.8e-6) * 70.0;
    assert!((sum(&root) - ((inches - less) * 0.0254 + stretch)).abs() < 2e-9);
    // what is not read is not counted
    root["readings"].as_object_mut().unwrap().remove("main-clearance");
    assert!((sum(&root) - ((inches - less - 2.6e-3) * 0.0254 + stretch)).abs() < 2e-9);
}

/// One engine from the sheet to its figures; the figures were computed in another language from the same sources.
#[test]
fn a_whole_engine_comes_out_as_computed_by_hand() {
    let s = sheet(json!({
        "engine": { "cylinders": 8, "layout": "v" },
        "intent": { "torque": "500 lb-ft", "power": "500 hp", "power-speed": "5252.113 rpm", "redline": "6500 rpm",
                    "limiter": "7142.857142857143 rpm", "adder": "none", "use": "bracket" },
        "block": { "bore": "4.030 in", "material": "grey-iron" },
        "crank": { "stroke": "3.480 in" },
        "rods": { "length": "5.700 in", "material": "steel", "beam-area": "180 mm²", "small-end-mass": "180 g",
                  "big-end-mass": "450 g" },
        "pistons": { "alloy": "2618", "mass": "420 g", "dish-volume": "5.0 cc", "top-land-height": "0.250 in",
                     "top-land-diameter": "3.990 in" },
        "pins": { "mass": "150 g" }, "rings": { "mass": "50 g" }, "bearings": { "rod-mass": "45 g" },
        "gasket": { "bore": "4.100 in", "compressed-thickness": "0.040 in" },
        "heads": { "chamber-volume": "64.0 cc" },
        "cam": { "inlet": { "duration": "268 deg", "centre-line": "106 deg" } },
        "balance": { "factor": "50 %", "oil-mass": "4 g", "bobweight": "1798 g" },
        "readings": { "deck-clearance": { "at": all(8, &json!("0.010 in")) } },
    }));
    let facts = SheetFacts::new(Catalogue::standard(), &s);
    let near = |id: &str, expected: f64, relative: f64| {
        let value = number(&facts, id, 0).value;
        assert!((value - expected).abs() <= relative * expected.abs(), "{id}: {value}, expected {expected}");
    };
    near("displacement", 8.0 * 727.411_843e-6, 1e-8);
    near("compression", 10.121_804, 1e-7);
    near("compression.with-crevice", 10.005_240, 1e-7);
    // closes 60 degrees after bottom dead centre
    near("compression.effective", 8.372_912, 1e-7);
    near("piston.speed.max.angle", 74.309_428_f64.to_radians(), 1e-8);
    near("piston.speed.mean.at-shift", 19.151_6, 1e-9);
    near("piston.speed.max.at-shift", 31.463_720, 1e-7);
    near("piston.acceleration.at-shift", 26_727.910, 1e-7);
    // 5 % over the limiter is 7,500 rpm, on 0.80 kg
    near("piston.acceleration.at-over-rev", 35_584.495, 1e-7);
    near("rod.inertia-load.at-over-rev", 28_467.596, 1e-7);
    near("rod.stretch", 0.125_976e-3, 1e-5);
    near("rod.growth", 0.178_079e-3, 1e-5);
    near("torque.at-power", 500.0 * 1.355_817_948_3, 1e-7);
    near("bmep.at-power", 14.639_0e5, 5e-6);
    // 2 (450 + 45 + 4) + 0.5 x 2 (420 + 150 + 50 + 180) g
    near("bobweight.from-parts", 1.798, 1e-12);
    // ring 100 to 180 K and bore 60 to 110 K over 20 °C: their middles, and both at the least
    let bore = std::f64::consts::PI * 0.102_362;
    near("ring.closing-gap", bore * (11.0e-6 * 140.0 - 10.8e-6 * 85.0), 1e-12);
    near("ring.closing-gap.least", bore * (11.0e-6 * 100.0 - 10.8e-6 * 60.0), 1e-12);
    assert!(number(&facts, "bobweight.difference", 0).value < 1e-12);
}

/// A starter's rows of nulls are still to fill in: they hide neither what is stated nor what was read before.
#[test]
fn a_set_without_a_reading_is_not_there() {
    let nulls = all(8, &json!(null));
    let mut root = json!({ "heads": { "chamber-volume": "62 cc" }, "readings": { "chamber-volume": { "at": nulls } } });
    let stated = sheet(root.clone());
    let facts = SheetFacts::new(Catalogue::standard(), &stated);
    assert!((number(&facts, "chamber.volume", 3).value - 62e-6).abs() < 1e-12);
    root["readings"]["chamber-volume"]["at"]["2"] = json!("61 cc");
    let begun = sheet(root);
    let facts = SheetFacts::new(Catalogue::standard(), &begun);
    assert!((number(&facts, "chamber.volume", 1).value - 61e-6).abs() < 1e-12);
    assert!(facts.get("chamber.volume").unwrap()[3].is_err(), "a hole in a set that was begun stays one");
}
