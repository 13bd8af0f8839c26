//! Readings that nobody has to take: a sheet without them is not asked for them; where they are read, they are judged; and
//! where one place was read, the others are asked for.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::{Value, json};
use std::path::Path;
use thou::facts::{Catalogue, SheetFacts};
use thou::packs::LoadedPack;
use thou::sheet::Sheet;
use thou::verdict::{Item, State, judge};
use thou_tests::thou;

const RODS: [&str; 8] = ["1", "2", "3", "4", "5", "6", "7", "8"];
const VALVES: [&str; 16] =
    ["1I", "1E", "2I", "2E", "3I", "3E", "4I", "4E", "5I", "5E", "6I", "6E", "7I", "7E", "8I", "8E"];
const PINS: [&str; 4] = ["1", "2", "3", "4"];
const MAINS: [&str; 5] = ["1", "2", "3", "4", "5"];
const BANKS: [&str; 2] = ["left", "right"];

/// A reading, its rule, its places (none: the engine), and a value that is good, to look at, and not to run.
struct Reading(&'static str, &'static str, &'static [&'static str], [&'static str; 3]);

/// The values stand on the side of a limit where a machinist would put them without looking at the rule: a rod a tenth of
/// a thou out is straight, one a sixteenth of an inch out is scrap. Common practice, no source.
const READINGS: [Reading; 13] = [
    Reading("rod-bend", "rod-straightness", &RODS, ["0.5 thou", "4 thou", "15 thou"]),
    Reading("rod-twist", "rod-straightness", &RODS, ["1 thou", "8 thou", "20 thou"]),
    Reading("throw-index", "throw-index", &PINS, ["0.1 deg", "0.8 deg", "3 deg"]),
    Reading("flange-runout", "flange-runout", &[], ["1 thou", "6 thou", "30 thou"]),
    Reading("cam-runout", "cam-straightness", &[], ["1 thou", "6 thou", "30 thou"]),
    Reading("stem-runout", "valve-straightness", &VALVES, ["0.5 thou", "5 thou", "20 thou"]),
    Reading("face-runout", "valve-straightness", &VALVES, ["0.5 thou", "5 thou", "20 thou"]),
    Reading("skirt-collapse", "skirt-collapse", &RODS, ["0.5 thou", "5 thou", "20 thou"]),
    Reading("crown-thickness", "crown-thickness", &RODS, ["0.220 in", "0.130 in", "0.060 in"]),
    Reading("seat-recession", "seat-recession", &VALVES, ["1 thou", "15 thou", "80 thou"]),
    Reading("main-cap-register", "cap-register", &MAINS, ["2 thou", "8 thou", "-10 thou"]),
    Reading("bore-squareness", "squareness", &RODS, ["1 thou", "8 thou", "40 thou"]),
    Reading("deck-squareness", "squareness", &BANKS, ["1 thou", "8 thou", "40 thou"]),
];

fn gauge(name: &str) -> &'static str {
    match name {
        "throw-index" => "degree wheel",
        "crown-thickness" | "seat-recession" => "depth micrometer",
        _ => "dial indicator",
    }
}

fn with(name: &str, read: &Value) -> Value {
    let mut sheet = thou_tests::value("sample-builds/bracket.json");
    for (gauge, kind) in [("degree wheel", "degree-wheel"), ("depth micrometer", "depth-micrometer")] {
        if sheet["gauges"][gauge].is_null() {
            sheet["gauges"][gauge] = json!({ "kind": kind, "certificate": "2026-01-08" });
        }
    }
    let mut set = json!({ "stage": "machined", "when": "2026-06-20", "by": "A.R.", "gauge": gauge(name) });
    set.as_object_mut().unwrap().extend(read.as_object().unwrap().clone());
    sheet["readings"][name] = set;
    sheet
}

fn all(places: &[&str], value: &str) -> Value {
    match places {
        [] => json!({ "value": value }),
        places => {
            let at: serde_json::Map<String, Value> = places.iter().map(|p| ((*p).to_owned(), json!(value))).collect();
            json!({ "at": at })
        }
    }
}

fn items(sheet: &Value, packs: &[LoadedPack]) -> Vec<Item> {
    let text = serde_json::to_string(sheet).unwrap();
    let sheet = Sheet::parse("sheet.json", &text, Path::new(&thou_tests::file("sample-builds")))
        .unwrap_or_else(|faults| panic!("{faults:?}"));
    let facts = SheetFacts::new(Catalogue::standard(), &sheet);
    judge(&sheet, &facts, packs, Some(thou_tests::TODAY)).items
}

fn states(sheet: &Value, packs: &[LoadedPack], rule: &str) -> Vec<State> {
    let rule = format!("clearances/{rule}");
    items(sheet, packs).iter().filter(|i| i.rule == rule).map(|i| i.state).collect()
}

#[test]
fn nobody_is_asked_for_them() {
    let packs = thou_tests::builtin();
    let asked: Vec<String> = thou_tests::samples("sample-builds")
        .iter()
        .flat_map(|name| {
            let sheet = thou_tests::value(name);
            let read = |r: &&Reading| sheet["readings"].get(r.0).is_some();
            let rules: Vec<String> =
                READINGS.iter().filter(|r| !read(r)).map(|r| format!("clearances/{}", r.1)).collect();
            let named: Vec<String> = READINGS.iter().filter(read).map(|r| format!("clearances/{}", r.1)).collect();
            let items = items(&sheet, &packs);
            let of = items.into_iter().filter(|i| rules.contains(&i.rule) && !named.contains(&i.rule));
            of.map(|i| format!("{name}: {} {:?}", i.rule, i.state)).collect::<Vec<_>>()
        })
        .collect();
    assert!(asked.is_empty(), "{asked:#?}");
}

#[test]
fn where_they_are_read_they_are_judged() {
    let packs = thou_tests::builtin();
    for Reading(name, rule, places, [good, look, never]) in READINGS {
        let many = places.len().max(1);
        for (value, state) in [(good, State::Go), (look, State::Look), (never, State::NoGo)] {
            let found = states(&with(name, &all(places, value)), &packs, rule);
            let right = found.len() == many && found.iter().all(|s| *s == state);
            assert!(right, "{name} of {value} is {state:?} by {rule}, and came out as {found:?}");
        }
    }
}

#[test]
fn one_that_is_read_asks_for_the_others() {
    let packs = thou_tests::builtin();
    for Reading(name, rule, places, [good, ..]) in READINGS.into_iter().filter(|r| r.2.len() > 1) {
        let found = states(&with(name, &all(&places[..1], good)), &packs, rule);
        let open = found.iter().filter(|s| **s == State::Open).count();
        assert_eq!((found.len(), open), (places.len(), places.len() - 1), "{name}: {found:?}");
    }
}

#[test]
fn the_spec_says_what_to_hold_where_it_is_read() {
    let page = thou(&["spec", "sample-builds/bracket.json"]).out;
    for title in ["rod bend", "throw index", "crank flange runout", "crown thickness", "seat recession"] {
        assert!(page.contains(&format!("  {title}, where it is read:  ")), "{title}: {page}");
    }
}
