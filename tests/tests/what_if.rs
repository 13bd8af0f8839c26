//! A look at what would follow if a field stood otherwise: the page is that of the sheet with the field written into it,
//! every page says what was changed, and nothing that leaves the bench is made of it.
#![allow(clippy::unwrap_used)]

use serde_json::{Value, json};
use thou_tests::{changed, file, thou};

const BRACKET: &str = "sample-builds/bracket.json";

/// Takes out where in its file a value stands: the other file is laid out otherwise.
fn without_places(value: &mut Value) {
    match value {
        Value::Object(map) => {
            map.retain(|key, _| !matches!(key.as_str(), "line" | "column"));
            map.values_mut().for_each(without_places);
        }
        Value::Array(list) => list.iter_mut().for_each(without_places),
        _ => {}
    }
}

/// The page as data, without what names the file.
fn data(page: &str, sheet: &str, set: Option<&str>) -> Value {
    let mut args = vec![page, sheet, "--format", "json"];
    args.extend(set.iter().flat_map(|s| ["--set", s]));
    let run = thou(&args);
    let mut value: Value = serde_json::from_str(&run.out).unwrap_or_else(|_| panic!("{page} {set:?}: {}", run.err));
    let object = value.as_object_mut().unwrap();
    object.shift_remove("sheet");
    assert_eq!(object.shift_remove("what-if").is_some(), set.is_some());
    without_places(&mut value);
    value
}

/// Against the same field edited in the file, by a path of its own.
#[test]
fn a_page_is_that_of_the_sheet_with_the_field_written_into_it() {
    let cases: [(&str, &str, Value); 7] = [
        ("rods.length=6.125 in", "/rods/length", json!("6.125 in")),
        ("intent.limiter = 7400 rpm", "/intent/limiter", json!("7400 rpm")),
        ("intent.fuel=methanol", "/intent/fuel", json!("methanol")),
        ("rods.rods-a-pin=2", "/rods/rods-a-pin", json!(2)),
        ("engine.name=8", "/engine/name", json!("8")),
        ("readings.wall-thickness.at.3.1=0.120 in", "/readings/wall-thickness/at/3/1", json!("0.120 in")),
        ("gasket.compressed-thickness=null", "/gasket/compressed-thickness", Value::Null),
    ];
    let before = std::fs::read_to_string(file(BRACKET)).unwrap();
    for (set, pointer, value) in cases {
        let (_folder, other) = changed("bracket", |root| *root.pointer_mut(pointer).unwrap() = value.clone());
        for page in ["check", "spec", "plan"] {
            assert!(data(page, BRACKET, Some(set)) == data(page, &other, None), "{page} --set {set}");
        }
    }
    assert_eq!(std::fs::read_to_string(file(BRACKET)).unwrap(), before);
}

/// A section and a field that the sheet has not got are made.
#[test]
fn what_is_not_there_is_written() {
    let set = "accepted=[]";
    assert!(!std::fs::read_to_string(file(BRACKET)).unwrap().contains("\"accepted\""), "take another field");
    let (_folder, other) = changed("bracket", |root| root["accepted"] = json!([]));
    assert!(data("check", BRACKET, Some(set)) == data("check", &other, None));
    let (_folder, other) = changed("bracket", |root| root["engine"]["notes"] = json!("seen"));
    let (given, wanted) = (data("check", BRACKET, Some("engine.notes=seen")), data("check", &other, None));
    assert!(given == wanted);
}

#[test]
fn every_page_says_what_was_changed() {
    let said = "WHAT IF, for this page alone; the sheet stays as it is\n  rods.length: 6.125 in; the sheet has 6.000 in\n";
    let set = ["--set", "rods.length=6.125 in"];
    let pages: [&[&str]; 6] = [
        &["check", BRACKET],
        &["check", BRACKET, "--all"],
        &["spec", BRACKET],
        &["plan", BRACKET],
        &["plan", BRACKET, "--figures"],
        &["facts", "rod-ratio", "--sheet", BRACKET],
    ];
    for page in pages {
        let out = thou(&[page, &set].concat()).out;
        assert!(out.contains(said), "{page:?}\n{out}");
    }
    assert!(!thou(&["check", BRACKET]).out.contains("WHAT IF"));
}

#[test]
fn nothing_that_leaves_the_bench_is_made_of_it() {
    let set = ["--set", "rods.length=6.125 in"];
    for (page, why) in [
        (&["plan", BRACKET, "--format", "ics"][..], "a calendar that somebody keeps"),
        (&["plan", BRACKET, "--format", "csv"], "rows do not say"),
        (&["plan", BRACKET, "--card"], "a card in the tool box"),
        (&["plan", "--all"], "name the engine, and leave --all out"),
        (&["facts", "rod-ratio"], "name it with --sheet FILE"),
    ] {
        let run = thou(&[page, &set].concat());
        assert_eq!((run.exit, run.out.as_str()), (2, ""), "{page:?}");
        let err = run.err.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(err.contains(why), "{page:?}: {}", run.err);
    }
}

#[test]
fn what_cannot_be_written_is_told_with_what_to_do() {
    for (set, words) in [
        ("rods.length", "write FIELD=VALUE"),
        ("=6 in", "no field is named before the ="),
        ("rods.length=", "null takes the field out"),
        ("rods.length=6 in..6.2 in", "one value at a time"),
        ("rods.length=6.0 in to 6.2 in", "one value at a time"),
        ("rods.length=6.125", "write it with its unit, like"),
        ("rods.lenght=6.125 in", "did you mean \"length\"?"),
        ("rod.length=6.125 in", "a sheet has no section \"rod\""),
        ("rods.length=61.25 in", "rods.length cannot be 61.25 in"),
        ("rods.length.of=6 in", "rods.length is \"6.000 in\", which has no of"),
        ("readings.wall-thickness.at.1.9=0.2 in", "is a list, and 9 is no place in it; its places are 0 to 3"),
    ] {
        let run = thou(&["check", BRACKET, "--set", set]);
        assert_eq!((run.exit, run.out.as_str()), (2, ""), "{set}");
        let err = run.err.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(err.contains(words), "{set}: {}", run.err);
    }
    let twice = thou(&["check", BRACKET, "--set", "rods.length=6 in", "--set", "rods.length=6.1 in"]);
    assert!(twice.err.contains("rods.length is changed twice: leave one of them out"), "{}", twice.err);
}
