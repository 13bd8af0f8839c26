//! Holds every limit, aim and level to the table in the fixtures.
//!
//! A fixture's verdict shows that a limit is where it should be, except where nothing hangs on it: an aim, a wear
//! limit, a floor of common practice beneath a warning that is given already. So a fixture may also list the `limits`
//! of every window, in the order of the answer, and this compares them with what the rule gives.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::Value;
use std::path::{Path, PathBuf};
use thou_contract::{KINDS, Kind, Level};
use thou_sdk::{Fact, Facts, Window};

fn files(folder: &Path) -> Vec<PathBuf> {
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path()).collect();
    files.sort();
    files
}

/// SI of a quantity whose kind the text's unit tells well enough.
fn quantity(value: &Value) -> f64 {
    match value {
        Value::Number(number) => number.as_f64().unwrap(),
        Value::String(text) => KINDS.iter().find_map(|k| Kind::by_id(k.id)?.parse(text).ok()).unwrap(),
        other => panic!("{other} is not a quantity"),
    }
}

fn fact_value(fact: &Fact, value: &Value) -> f64 {
    match (fact.kind, value) {
        (_, Value::Null) => f64::NAN,
        ("choice", Value::String(word)) => fact.choices.iter().position(|c| c == word).unwrap() as f64,
        ("flag", Value::Bool(yes)) => f64::from(u8::from(*yes)),
        (kind, Value::String(text)) => Kind::by_id(kind).unwrap().parse(text).unwrap(),
        (_, number) => number.as_f64().unwrap(),
    }
}

fn given(facts: &Value) -> (Vec<u32>, Vec<f64>) {
    let (mut starts, mut values) = (vec![0], Vec::new());
    for fact in clearances::PACK.facts {
        match facts.get(fact.id) {
            None => {}
            Some(Value::Array(list)) => values.extend(list.iter().map(|v| fact_value(fact, v))),
            Some(one) => values.push(fact_value(fact, one)),
        }
        starts.push(u32::try_from(values.len()).unwrap());
    }
    (starts, values)
}

fn same(wanted: Option<&Value>, got: Option<f64>) -> bool {
    match (wanted.map(quantity), got) {
        (None, None) => true,
        (Some(wanted), Some(got)) => (wanted - got).abs() <= 1e-7 * wanted.abs() + 1e-12,
        _ => false,
    }
}

fn level(wanted: Option<&Value>, got: Level) -> bool {
    wanted.is_none_or(|word| {
        let word = word.as_str().unwrap();
        word == match got {
            Level::Hold => "hold",
            Level::Warn => "warn",
            Level::Note => "note",
        }
    })
}

fn agrees(wanted: &Value, window: &Window, judged: &str) -> bool {
    let whole = |key: &str| wanted.get(key).and_then(Value::as_u64);
    wanted.get("judges").and_then(Value::as_str) == Some(judged)
        && whole("text") == Some(u64::from(window.text))
        && whole("place") == window.place.map(u64::from)
        && wanted.get("reuse").is_some() == window.reuse
        && same(wanted.get("never-below"), window.never_below)
        && same(wanted.get("low"), window.low)
        && same(wanted.get("aim"), window.aim)
        && same(wanted.get("high"), window.high)
        && same(wanted.get("never-above"), window.never_above)
        && level(wanted.get("below"), window.below)
        && level(wanted.get("above"), window.above)
}

#[test]
fn every_limit_is_the_tables() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures");
    let mut faults = Vec::new();
    for (index, rule) in (0u32..).zip(clearances::PACK.rules) {
        let mut tables = 0;
        for file in files(&root.join(rule.id)) {
            let fixture: Value = serde_json::from_str(&std::fs::read_to_string(&file).unwrap()).unwrap();
            let Some(table) = fixture.get("limits").and_then(Value::as_array) else { continue };
            tables += 1;
            let (starts, values) = given(&fixture["facts"]);
            let answer = clearances::PACK.assess(&[index], &Facts::new(&starts, &values));
            if table.len() != answer.windows.len() {
                faults.push(format!("{}: {} windows", file.display(), answer.windows.len()));
            }
            for (wanted, window) in table.iter().zip(answer.windows.iter().map(|w| &w.what)) {
                let judged = rule.judges.get(window.fact as usize).unwrap();
                if !agrees(wanted, window, judged) {
                    faults.push(format!("{}: {wanted} is {window:?}", file.display()));
                }
            }
        }
        if tables == 0 {
            faults.push(format!("{}: no fixture lists its limits", rule.id));
        }
    }
    assert!(faults.is_empty(), "{} faults\n{}", faults.len(), faults.join("\n"));
}
