//! Every line of a sheet to start from can be met: whoever writes in what a line says is missing, whatever it comes to, is not
//! asked for it again, until nothing is asked for any more.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::{Map, Value, json};
use std::collections::BTreeSet;
use thou::facts::{Catalogue, SheetFacts};
use thou::packs::LoadedPack;
use thou::sheet::{Axis, Sheet};
use thou::verdict::{Item, State, judge};
use thou_fields::{Field, FieldValue, ReadingField};

/// How often a sheet is filled in before we say that it has no end. A line can ask for a part first and then for its sizes.
const ROUNDS: usize = 12;

/// The middle of what an engine can have at all: the geometric one where both ends are above nothing.
fn middle(field: &Field) -> Value {
    let band = field.band.unwrap_or_else(|| panic!("{} has no band", field.path));
    let (number, unit) = band.low.split_once(' ').unwrap_or((band.low, ""));
    let low: f64 = number.parse().unwrap_or_else(|_| panic!("{}: {}", field.path, band.low));
    let number = |text: &str| text.split(' ').next().and_then(|n| n.parse::<f64>().ok());
    let high = match number(band.high) {
        Some(high) if band.high.ends_with(unit) => high,
        _ => (low * 4.0).max(1.0),
    };
    let middle = if low > 0.0 { (low * high).sqrt() } else { f64::midpoint(low, high) };
    let counted = matches!(field.value, FieldValue::Quantity("count" | "passes"));
    let middle = if counted { middle.round() } else { (middle * 1e6).round() / 1e6 };
    if unit.is_empty() { json!(middle) } else { json!(format!("{middle} {unit}")) }
}

/// Something that can stand in this field; none for what nobody is asked for by name.
fn value(field: &Field, turn: usize, sheet: &Sheet) -> Option<Value> {
    Some(match field.value {
        FieldValue::Quantity(_) => middle(field),
        FieldValue::Choice(words) => json!(words[turn % words.len()].word),
        FieldValue::Flag => json!(turn.is_multiple_of(2)),
        FieldValue::Day => json!("2026-06-01"),
        FieldValue::Whole => json!(1 + turn),
        FieldValue::Number => json!(1.5),
        FieldValue::Text if field.path == "finish.profile" => json!("flat-tappet-bore.csv"),
        FieldValue::Text => json!("as asked"),
        FieldValue::Names => json!(sheet.places.labels(Axis::Cylinder)),
        _ => return None,
    })
}

fn put(root: &mut Value, path: &str, value: Value) {
    let mut at = root;
    for part in path.split('.') {
        if !at.is_object() {
            *at = json!({});
        }
        at = at.as_object_mut().unwrap().entry(part).or_insert(Value::Null);
    }
    *at = value;
}

fn put_reading(root: &mut Value, reading: &ReadingField, sheet: &Sheet) {
    let one = middle(&reading.field);
    let points = reading.points.names().len();
    let row = if points == 1 { one.clone() } else { json!(vec![one.clone(); points]) };
    let mut set = Map::new();
    set.insert("stage".to_owned(), json!("final"));
    set.insert("when".to_owned(), json!("2026-06-20"));
    if reading.axis == Axis::One {
        set.insert("value".to_owned(), row);
    } else {
        let at: Map<String, Value> =
            sheet.places.labels(reading.axis).iter().map(|label| (label.clone(), row.clone())).collect();
        set.insert("at".to_owned(), Value::Object(at));
    }
    put(root, &format!("readings.{}", reading.name()), Value::Object(set));
}

fn judged(value: &Value, packs: &[LoadedPack]) -> (Sheet, Vec<Item>) {
    let text = serde_json::to_string_pretty(value).unwrap();
    let mut sheet = Sheet::parse("sheet.json", &text, &thou_tests::file("sample-builds"))
        .unwrap_or_else(|f| panic!("{}", f.render(false)));
    sheet.as_of = Some(thou_tests::TODAY);
    let items = judge(&sheet, &SheetFacts::new(Catalogue::standard(), &sheet), packs, Some(thou_tests::TODAY)).items;
    (sheet, items)
}

/// What is asked for by the lines that wait for something, with the lines.
fn asked(items: &[Item]) -> BTreeSet<(String, String)> {
    // what hangs on a figure that another one contradicts waits for that; the middles of the bands contradict each other
    let waits = |i: &&Item| matches!(i.state, State::Open | State::CannotSay) && !i.waits;
    let wants = |i: &Item| i.wants.iter().map(|w| (w.clone(), i.rule.clone())).collect::<Vec<_>>();
    items.iter().filter(waits).flat_map(wants).collect()
}

/// What can never be met on this sheet, line by line.
fn never_met(layout: &str, cylinders: usize, usage: &str, turn: usize, packs: &[LoadedPack]) -> Vec<String> {
    let mut filled: Value = serde_json::from_str(&thou::sheet::starter(usage, cylinders, layout)).unwrap();
    let mut written = BTreeSet::new();
    let mut wrong = Vec::new();
    for _ in 0..ROUNDS {
        let (sheet, items) = judged(&filled, packs);
        let asked = asked(&items);
        if asked.is_empty() {
            return wrong;
        }
        let before = written.len();
        wrong.clear();
        for (want, rule) in asked {
            // a fact that these figures take past what its model knows says so in words: other figures meet it
            if want.split_once(": ").is_some_and(|(fact, _)| Catalogue::standard().info(fact).is_some()) {
                continue;
            }
            let path = want.split_once(": ").map_or(&*want, |(_, path)| path);
            let path = path.split(' ').next().unwrap_or_default().trim_end_matches(".value");
            if written.contains(path) {
                wrong.push(format!("{rule} wants {want}, which is written"));
                continue;
            }
            if let Some(reading) = path.strip_prefix("readings.").and_then(thou_fields::reading) {
                put_reading(&mut filled, reading, &sheet);
            } else if let Some(value) = thou_fields::field(path).and_then(|f| value(f, turn, &sheet)) {
                put(&mut filled, path, value);
            } else {
                wrong.push(format!("{rule} wants {want}, which is no field to write in"));
                continue;
            }
            written.insert(path.to_owned());
        }
        if written.len() == before {
            return wrong;
        }
    }
    vec![format!("{ROUNDS} rounds, and it asks on: {wrong:?}")]
}

#[test]
fn a_sheet_without_a_day_is_of_today() {
    let mut value: Value = serde_json::from_str(&thou::sheet::starter("bracket", 8, "v")).unwrap();
    put(&mut value, "balance.damper", json!("elastomer"));
    put(&mut value, "balance.damper-made", json!("2014-07-01"));
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("sheet.json");
    std::fs::write(&file, value.to_string()).unwrap();
    // twelve years to the day that every test runs on, of 120 months at most
    let page = thou_tests::thou(&["check", file.to_str().unwrap()]).out;
    assert!(page.contains("age of the damper's ring  144 months\n"), "{page}");
}

#[test]
fn every_line_of_a_starter_can_be_met() {
    let packs = thou_tests::builtin();
    let mut tried = 0;
    let mut wrong = Vec::new();
    for (layout, all) in [("single", &[1][..]), ("inline", &[2, 3, 4, 6]), ("v", &[2, 4, 6, 8, 10]), ("flat", &[2, 6])]
    {
        for (&cylinders, usage) in all.iter().zip(["street", "bracket", "all-out"].into_iter().cycle()) {
            for turn in 0..4 {
                let found = never_met(layout, cylinders, usage, turn, &packs);
                wrong.extend(found.into_iter().map(|w| format!("{usage} {layout} {cylinders}, turn {turn}: {w}")));
                tried += 1;
            }
        }
    }
    assert!(wrong.is_empty(), "{} of {tried} sheets: {wrong:#?}", wrong.len());
    assert_eq!(tried, 48);
}
