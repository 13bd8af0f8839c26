//! Sheets for tests, made by hand from a JSON value: no schema, no messages.
#![allow(clippy::unwrap_used, clippy::panic)]

use super::Catalogue;
use serde_json::Value;
use thou_contract::Kind;
use thou_sheet::Axis;
use thou_sheet::model::{Gauge, Places, Reading, ReadingSet, Sheet};

fn quantity(kind: &str, value: &Value) -> Option<f64> {
    value.as_str().map(|text| Kind::by_id(kind).unwrap().parse(text).unwrap())
}

fn labels(n: usize) -> Vec<String> {
    (1..=n).map(|i| i.to_string()).collect()
}

fn places(root: &Value) -> Places {
    let n = root.pointer("/engine/cylinders").and_then(Value::as_u64).unwrap_or(8) as usize;
    let mut places = Places::default();
    for (axis, names) in [
        (Axis::One, vec![String::new()]),
        (Axis::Cylinder, labels(n)),
        (Axis::Rod, labels(n)),
        (Axis::Main, labels(n / 2 + 1)),
        (Axis::Crankpin, labels(n / 2)),
        (Axis::CamJournal, labels(n / 2 + 1)),
        (Axis::Bank, vec!["left".to_owned(), "right".to_owned()]),
        (Axis::Valve, (1..=n).flat_map(|c| [format!("{c}I"), format!("{c}E")]).collect()),
    ] {
        places.labels.insert(axis, names);
    }
    places.pin_of_cylinder = (0..n).map(|c| c / 2).collect();
    places.bank_of_cylinder = (0..n).map(|c| c % 2).collect();
    places.cylinder_of_valve = (0..2 * n).map(|v| (v / 2, v % 2 == 0)).collect();
    places
}

fn row(kind: &str, value: &Value, pointer: &str) -> Vec<Reading> {
    match value {
        Value::Array(points) => points
            .iter()
            .enumerate()
            .map(|(i, v)| Reading { value: quantity(kind, v), pointer: format!("{pointer}/{i}") })
            .collect(),
        other => vec![Reading { value: quantity(kind, other), pointer: pointer.to_owned() }],
    }
}

fn set(key: &str, value: &Value, pointer: &str, places: &Places) -> ReadingSet {
    let cat = Catalogue::standard();
    let path = format!("readings.{key}");
    // the first fact of a key has its own kind; out-of-round and taper come after
    let info = cat.all().filter(|f| f.series.is_none()).find(|f| f.path == Some(&path)).unwrap();
    let kind = info.value.id();
    let text = |name: &str| value.get(name).and_then(Value::as_str).map(str::to_owned);
    let points = value.get("points").and_then(Value::as_array);
    let rows = match value.get("value") {
        Some(v) => vec![row(kind, v, &format!("{pointer}/value"))],
        None => places
            .labels(info.axis)
            .iter()
            .map(|label| {
                let at = format!("{pointer}/at/{label}");
                row(kind, value.pointer(&format!("/at/{label}")).unwrap_or(&Value::Null), &at)
            })
            .collect(),
    };
    ReadingSet {
        stage: text("stage"),
        when: text("when").map(|d| d.parse().unwrap()),
        gauge: text("gauge"),
        temperature: value.get("temperature").and_then(|t| quantity("temperature", t)),
        points: points.map_or(vec![String::new()], |p| p.iter().map(|v| v.as_str().unwrap().to_owned()).collect()),
        rows,
        pointer: pointer.to_owned(),
        ..ReadingSet::default()
    }
}

/// A sheet with the readings, gauges and stated fields of a JSON value.
pub(crate) fn sheet(root: Value) -> Sheet {
    let places = places(&root);
    let mut sheet = Sheet { places, ..Sheet::default() };
    for (key, value) in root.get("readings").and_then(Value::as_object).into_iter().flatten() {
        let sets = match value {
            Value::Array(sets) => sets
                .iter()
                .enumerate()
                .map(|(i, v)| set(key, v, &format!("/readings/{key}/{i}"), &sheet.places))
                .collect(),
            one => vec![set(key, one, &format!("/readings/{key}"), &sheet.places)],
        };
        sheet.readings.insert(key.clone(), sets);
    }
    for (name, value) in root.get("gauges").and_then(Value::as_object).into_iter().flatten() {
        let length = |field: &str| value.get(field).and_then(|v| quantity("length", v));
        sheet.gauges.insert(
            name.clone(),
            Gauge {
                kind: value.get("kind").and_then(Value::as_str).unwrap().to_owned(),
                resolution: length("resolution"),
                uncertainty: length("uncertainty"),
                relative: false,
                set_on: value.get("set-on").and_then(Value::as_str).map(str::to_owned),
                pointer: format!("/gauges/{name}"),
            },
        );
    }
    sheet.root = root;
    sheet
}
