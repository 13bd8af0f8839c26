//! Engines as their makers build them: every published range at both of its ends, and no no-go anywhere.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::{Map, Value, json};
use std::collections::BTreeSet;
use thou::sheet::Axis;
use thou::verdict::State;
use thou_tests::{file, judge, sheet};

/// An engine's published specification, as `tests/as-built` has it.
struct AsBuilt {
    name: String,
    /// What the sheet states.
    stated: Value,
    /// Reading, which of its places where they differ, least and greatest.
    ranges: Vec<(String, Option<String>, String, String)>,
}

fn all() -> Vec<AsBuilt> {
    let mut names: Vec<_> = std::fs::read_dir(file("tests/as-built"))
        .unwrap()
        .map(|e| e.unwrap().path())
        .filter(|p| p.extension().is_some_and(|e| e == "toml"))
        .collect();
    names.sort();
    names.iter().map(|p| read(p)).collect()
}

fn read(path: &std::path::Path) -> AsBuilt {
    let name = path.file_stem().unwrap().to_string_lossy().into_owned();
    let text = std::fs::read_to_string(path).unwrap();
    let table: Value = toml::from_str(&text).unwrap_or_else(|e| panic!("{name}: {e}"));
    for wanted in ["words", "source"] {
        assert!(table[wanted].as_str().is_some_and(|w| w.len() > 20), "{name}: {wanted}");
    }
    let mut stated = table["sheet"].clone();
    stated["format"] = json!("thou-build-1");
    stated["engine"]["name"] = json!(name);
    let mut ranges = Vec::new();
    for (reading, range) in table["ranges"].as_object().unwrap() {
        let mut push = |places: Option<String>, range: &Value| {
            let [low, high] = range.as_array().unwrap().as_slice() else { panic!("{name}: {reading}") };
            let [low, high] = [low, high].map(|end| end.as_str().unwrap().to_owned());
            ranges.push((reading.clone(), places, low, high));
        };
        match range {
            // inlet and exhaust valves have ranges of their own
            Value::Object(by) => by.iter().for_each(|(places, range)| push(Some(places.clone()), range)),
            range => push(None, range),
        }
    }
    AsBuilt { name, stated, ranges }
}

impl AsBuilt {
    /// Its sheet with every reading at the least of its range, or the greatest.
    fn at(&self, low: bool) -> Value {
        let places = sheet(&self.stated).places;
        let mut readings = Map::new();
        for (reading, which, least, greatest) in &self.ranges {
            let entry = thou_fields::reading(reading).unwrap_or_else(|| panic!("{}: no reading {reading}", self.name));
            let figure = if low { least } else { greatest };
            if entry.axis == Axis::One {
                readings.insert(reading.clone(), json!({ "value": figure }));
                continue;
            }
            let set = readings.entry(reading.clone()).or_insert_with(|| json!({ "at": {} }));
            for label in places.labels(entry.axis) {
                let here = match which.as_deref() {
                    Some("inlet") => label.contains('I'),
                    Some("exhaust") => label.contains('E'),
                    Some(other) => panic!("{}: {reading}: {other}", self.name),
                    None => true,
                };
                if here {
                    set["at"][label] = json!(figure);
                }
            }
        }
        let mut whole = self.stated.clone();
        whole["readings"] = Value::Object(readings);
        whole
    }
}

#[test]
fn no_maker_is_refused() {
    let engines = all();
    assert!(engines.len() >= 8, "{} engines", engines.len());
    let mut judged = BTreeSet::new();
    for engine in &engines {
        assert!(engine.ranges.len() >= 8, "{}: {} ranges", engine.name, engine.ranges.len());
        for (low, end) in [(true, "least"), (false, "greatest")] {
            let verdict = judge(&sheet(&engine.at(low)));
            assert!(verdict.lost.is_empty(), "{}: {:?}", engine.name, verdict.lost);
            let refused: Vec<String> = verdict
                .items
                .iter()
                .filter(|i| i.state == State::NoGo)
                .map(|i| format!("{} {:?} {:?} {:?}", i.rule, i.place, i.value, i.limits))
                .collect();
            assert!(refused.is_empty(), "{}, every range at its {end}: {refused:#?}", engine.name);
            let read = verdict.items.iter().filter(|i| i.value.is_some() && i.rule.starts_with("clearances/"));
            judged.extend(read.map(|i| i.rule.clone()));
        }
    }
    // what is not judged cannot be refused
    assert!(judged.len() >= 20, "{judged:?}");
}

/// The same sheets are held to limits that bite: a bearing or a ring with nothing left is a no-go in every engine.
#[test]
fn nothing_left_is_a_no_go_in_every_one_of_them() {
    for engine in all() {
        let tight = engine.ranges.iter().find(|(reading, ..)| reading == "main-clearance" || reading == "top-gap");
        let (reading, ..) = tight.unwrap_or_else(|| panic!("{}: neither mains nor a top ring", engine.name));
        let mut bad = engine.at(true);
        let places = bad["readings"][reading]["at"].as_object_mut().unwrap();
        for figure in places.values_mut() {
            *figure = json!("0.05 thou");
        }
        let verdict = judge(&sheet(&bad));
        assert!(verdict.items.iter().any(|i| i.state == State::NoGo), "{}: {reading} of 0.05 thou", engine.name);
    }
}
