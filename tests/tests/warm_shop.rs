//! A whole engine measured in a cold or in a hot shop is judged as one measured at 68 °F: every size is brought to 20 °C
//! (ISO 1:2022) by the metal it is made of.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::{Map, Value, json};
use std::collections::BTreeMap;
use thou::sheet::Sheet;
use thou::verdict::State;
use thou_mechanics::expansion::Material;
use thou_tests::{judge, samples, sheet, value};

/// What the readings that are sizes were taken of.
const OF: [(&str, &[&str]); 6] = [
    ("block", &["bore", "bore-chamfer", "deck-height", "main-housing", "main-inside", "lifter-bore", "cam-housing"]),
    ("crank", &["main-journal", "rod-journal", "thrust-width", "crank-throw", "snout"]),
    ("rods", &["rod-housing", "rod-inside", "rod-bush", "rod-centre-length"]),
    ("pistons", &["piston", "pin-bore", "piston-compression-height"]),
    ("guides", &["guide-bore"]),
    ("steel", &["main-shell", "rod-shell", "pin", "stem", "lifter", "cam-journal"]),
];

/// What it is made of, as the sample sheets have it.
fn metal(sheet: &Value, part: &str) -> Material {
    let word = |path: &str| sheet.pointer(path).and_then(Value::as_str).unwrap_or_default().to_owned();
    match (
        part,
        &*word("/block/material"),
        &*word("/crank/material"),
        &*word("/rods/material"),
        &*word("/pistons/alloy"),
    ) {
        ("block", "grey-iron", ..) => Material::GreyIron,
        ("block", "compacted-iron", ..) => Material::CompactedIron,
        ("block", ..) => Material::CastAluminium,
        ("crank", _, "cast" | "nodular", ..) => Material::NodularIron,
        ("rods", _, _, "aluminium", _) => Material::WroughtAluminium,
        ("rods", _, _, "titanium", _) => Material::Titanium,
        ("pistons", .., "2618") => Material::Alloy2618,
        ("pistons", .., "4032") => Material::Alloy4032,
        ("pistons", .., "hypereutectic") => Material::Hypereutectic,
        ("pistons", ..) => Material::EutecticCast,
        ("guides", ..) if word("/heads/guide-material") == "bronze" => Material::Bronze,
        ("guides", ..) => Material::GreyIron,
        _ => Material::Steel,
    }
}

/// How a steel gauge grows: ISO 3650:1998, 6.3, gauge blocks, 11.5e-6 a kelvin.
const GAUGE: f64 = 11.5e-6;

/// Who is warm.
#[derive(Clone, Copy)]
enum Warm {
    /// Shop, gauges and parts, all as warm.
    All,
    /// The parts, fresh from the tank, and each set says so; the gauge lies at 68 °F.
    Parts,
}

/// The sheet with every size as a gauge reads it on a part that is this warm.
fn measured_at(good: &Value, fahrenheit: f64) -> Value {
    measured(good, fahrenheit, Warm::All)
}

fn measured(good: &Value, fahrenheit: f64, who: Warm) -> Value {
    let parsed = sheet(good);
    let mut warm = good.clone();
    let (shop, gauge) = match who {
        Warm::All => (fahrenheit, 1.0 + GAUGE * (fahrenheit - 68.0) / 1.8),
        Warm::Parts => (68.0, 1.0),
    };
    warm["shop"]["temperature"] = json!(format!("{shop} °F"));
    for sets in warm["readings"].as_object_mut().unwrap().values_mut() {
        for set in sets.as_array_mut().map_or_else(Vec::new, |a| a.iter_mut().collect::<Vec<_>>()) {
            set.as_object_mut().unwrap().remove("temperature");
        }
        if let Some(set) = sets.as_object_mut() {
            set.remove("temperature");
        }
    }
    for (part, keys) in OF {
        let metal = metal(good, part);
        for key in keys {
            // a sleeve that an aluminum block holds grows by neither metal's figure: it is read at 68 °F
            let held = *key == "bore" && good["block"]["material"] == "aluminium-sleeved";
            let grown = 1.0 + metal.properties().expansion * (fahrenheit - 68.0) / 1.8;
            let grown = if held { 1.0 } else { grown / gauge };
            let Some(sets) = parsed.readings.get(*key) else { continue };
            for set in sets {
                let written = warm.pointer_mut(&set.pointer).and_then(Value::as_object_mut).unwrap();
                rewrite(&parsed, key, set, grown, written);
                match who {
                    _ if held => written.insert("temperature".to_owned(), json!("68 °F")),
                    Warm::Parts => written.insert("temperature".to_owned(), json!(format!("{fahrenheit} °F"))),
                    Warm::All => None,
                };
            }
        }
    }
    warm
}

/// Every size of a set as plain figures, so much larger.
fn rewrite(
    sheet: &Sheet,
    key: &str,
    set: &thou::sheet::model::ReadingSet,
    grown: f64,
    written: &mut Map<String, Value>,
) {
    let axis = thou_fields::reading(key).unwrap().axis;
    let mut at = Map::new();
    for (label, row) in sheet.places.labels(axis).iter().zip(&set.rows) {
        let size = |r: &thou::sheet::model::Reading| {
            r.value.map_or(Value::Null, |si| json!(format!("{:.16} mm", si * grown * 1e3)))
        };
        let mut sizes: Vec<Value> = row.iter().map(size).collect();
        let value = if set.points.len() == 1 { sizes.remove(0) } else { Value::Array(sizes) };
        at.insert(label.clone(), value);
    }
    for other in ["at", "value", "master", "csv"] {
        written.remove(other);
    }
    written.insert("at".to_owned(), Value::Object(at));
}

type Verdicts = BTreeMap<(String, Option<String>, String), State>;

fn verdicts(sheet: &Sheet) -> Verdicts {
    let items = judge(sheet).items;
    items
        .into_iter()
        // a sleeve that is read at 68 °F in a warm shop is told as such
        .filter(|i| i.rule != "host/not-soaked")
        .map(|i| ((i.rule, i.fact, format!("{:?} {:?}", i.place, i.limits.map(|l| l.low.is_some()))), i.state))
        .collect()
}

#[test]
fn a_cold_and_a_hot_shop_judge_as_one_at_68_degrees() {
    let mut sizes = 0;
    for name in samples("sample-builds") {
        let good = value(&name);
        let standard = verdicts(&sheet(&measured_at(&good, 68.0)));
        sizes += OF.iter().flat_map(|(_, keys)| *keys).filter(|k| good["readings"].get(**k).is_some()).count();
        for fahrenheit in [40.0, 95.0, 110.0] {
            for (who, words) in [(Warm::All, "all"), (Warm::Parts, "the parts")] {
                let found = verdicts(&sheet(&measured(&good, fahrenheit, who)));
                let moved: Vec<_> = standard.iter().filter(|(what, state)| found.get(*what) != Some(*state)).collect();
                assert!(moved.is_empty(), "{name}, {words} at {fahrenheit} °F: {moved:#?}");
                assert_eq!(standard.len(), found.len());
            }
        }
    }
    assert!(sizes > 100, "{sizes} sets of sizes");
}

#[test]
fn sizes_that_were_not_grown_are_noticed() {
    // the same figures said to have been read at 110 °F are other parts: pistons of aluminum shrink more than their bores
    let good = value("sample-builds/bracket.json");
    let mut warm = measured_at(&good, 68.0);
    warm["shop"]["temperature"] = json!("110 °F");
    assert_ne!(verdicts(&sheet(&warm)), verdicts(&sheet(&measured_at(&good, 68.0))));
}
