//! Builds that look odd and are right: none is refused, none left with a line that cannot be met, none talked to death.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use serde::Deserialize;
use serde_json::{Map, Value, json};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use thou::facts::{Catalogue, SheetFacts};
use thou::packs::LoadedPack;
use thou::sheet::{Axis, Places, Sheet};
use thou::verdict::{State, Verdict, judge};

#[derive(Deserialize)]
struct Builds {
    build: Vec<Build>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Build {
    /// What it is.
    what: String,
    /// Why it is right.
    why: String,
    /// The good sheet that it is made from.
    from: String,
    /// How its cylinders stand, where that is another way: each row of the sheet is dealt out over the new places, and what
    /// is counted for the whole engine goes with the cylinders.
    engine: Option<toml::Table>,
    /// What stands at a JSON pointer instead.
    #[serde(default)]
    change: BTreeMap<String, toml::Value>,
    /// What every place of a reading reads instead.
    #[serde(default)]
    every: BTreeMap<String, toml::Value>,
    /// JSON pointers of what is not there.
    #[serde(default)]
    gone: Vec<String>,
}

/// What grows with the cylinders.
const BY_CYLINDERS: [&str; 14] = [
    "/intent/power",
    "/intent/torque",
    "/intent/adder-power",
    "/intent/vehicle-mass",
    "/rods/card/power-rating",
    "/crank/mass",
    "/fuel/pump-flow",
    "/fuel/injectors/count",
    "/fuel/jets/count",
    "/oil/volume",
    "/readings/turning-torque/value",
    "/readings/blow-by/value",
    "/readings/balance-front/value",
    "/readings/balance-rear/value",
];

/// What the sheet says of its own places and of nobody else's.
const OF_ITS_PLACES: [&str; 7] =
    ["cylinder-names", "main-names", "banks", "bank-names", "crankpins", "firing-order", "bank-angle"];

fn parse(value: &Value) -> Sheet {
    let folder = thou_tests::file("sample-builds");
    Sheet::parse("sheet.json", &value.to_string(), Path::new(&folder)).unwrap_or_else(|f| panic!("{}", f.render(false)))
}

fn multiplied(value: &Value, by: f64) -> Value {
    match value {
        Value::String(text) => {
            let (number, unit) = text.split_once(' ').unwrap();
            json!(format!("{} {unit}", number.parse::<f64>().unwrap() * by))
        }
        number => json!((number.as_f64().unwrap() * by).round().max(1.0)),
    }
}

/// The sheet's rows over the places of another engine, in turn.
fn laid_out(sheet: &mut Value, engine: &toml::Table) {
    let of = sheet["engine"].as_object_mut().unwrap();
    let had = of["cylinders"].as_f64().unwrap();
    of.retain(|key, _| !OF_ITS_PLACES.contains(&key.as_str()) && key != "like");
    of.extend(serde_json::to_value(engine).unwrap().as_object().unwrap().clone());
    let share = of["cylinders"].as_f64().unwrap() / had;
    for pointer in BY_CYLINDERS {
        if let Some(place) = sheet.pointer_mut(pointer) {
            *place = multiplied(place, share);
        }
    }
    if sheet.pointer("/cam/journals").is_some() {
        sheet["cam"].as_object_mut().unwrap().remove("journals");
    }
    let readings = sheet.as_object_mut().unwrap().remove("readings").unwrap();
    let places = parse(sheet).places;
    let dealt = readings.as_object().unwrap().iter().map(|(name, set)| (name.clone(), dealt(name, set, &places)));
    sheet["readings"] = Value::Object(dealt.collect());
}

fn dealt(name: &str, set: &Value, places: &Places) -> Value {
    let axis = thou_fields::reading(name).unwrap().axis;
    let Some(rows) = set.get("at").and_then(Value::as_object).filter(|_| axis != Axis::One) else { return set.clone() };
    let rows: Vec<&Value> = rows.values().collect();
    // inlets and exhausts are not alike
    let inlets: Vec<&Value> = rows.iter().step_by(2).copied().collect();
    let exhausts: Vec<&Value> = rows.iter().skip(1).step_by(2).copied().collect();
    let row = |at: usize| match (axis, places.side(at)) {
        (Axis::Valve, _)
            if rows.len().is_multiple_of(4) && places.count(Axis::Valve) > 2 * places.count(Axis::Cylinder) =>
        {
            rows[at % rows.len()]
        }
        (Axis::Valve, Some(thou::sheet::Side::Inlet)) => inlets[at / 2 % inlets.len()],
        (Axis::Valve, _) => exhausts[at / 2 % exhausts.len()],
        _ => rows[at % rows.len()],
    };
    let dealt = places.labels(axis).iter().enumerate().map(|(at, label)| (label.clone(), row(at).clone()));
    let mut set = set.clone();
    set["at"] = Value::Object(dealt.collect::<Map<String, Value>>());
    set
}

fn made(build: &Build) -> Value {
    let mut sheet = thou_tests::value(&format!("sample-builds/{}.json", build.from));
    if let Some(engine) = &build.engine {
        laid_out(&mut sheet, engine);
    }
    for (name, value) in &build.every {
        let set = &mut sheet["readings"][name];
        let to = serde_json::to_value(value).unwrap();
        if set.get("value").is_some() {
            set["value"] = to;
            continue;
        }
        let rows = set["at"].as_object_mut().unwrap_or_else(|| panic!("{}: no rows of {name}", build.what));
        for row in rows.values_mut() {
            *row = match row {
                Value::Array(points) => Value::Array(vec![to.clone(); points.len()]),
                _ => to.clone(),
            };
        }
    }
    for (pointer, value) in &build.change {
        let (parent, key) = pointer.rsplit_once('/').unwrap();
        let parent = sheet.pointer_mut(parent).unwrap_or_else(|| panic!("{}: {pointer}", build.what));
        match parent {
            Value::Array(list) => list[key.parse::<usize>().unwrap()] = serde_json::to_value(value).unwrap(),
            of => {
                of.as_object_mut().unwrap().insert(key.to_owned(), serde_json::to_value(value).unwrap());
            }
        }
    }
    for pointer in &build.gone {
        let (parent, key) = pointer.rsplit_once('/').unwrap();
        let parent = sheet.pointer_mut(parent).and_then(Value::as_object_mut);
        assert!(parent.is_some_and(|p| p.remove(key).is_some()), "{}: {pointer} is not there", build.what);
    }
    sheet
}

fn verdict(sheet: &Value, packs: &[LoadedPack]) -> Verdict {
    let sheet = parse(sheet);
    let facts = SheetFacts::new(Catalogue::standard(), &sheet);
    judge(&sheet, &facts, packs, Some(jiff::civil::date(2026, 11, 30)))
}

/// What is said in each of some states, by rule and fact, whatever the place.
fn said(verdict: &Verdict, states: &[State]) -> BTreeSet<String> {
    let of = verdict.items.iter().filter(|i| states.contains(&i.state));
    of.map(|i| format!("{} {} {}", i.rule, i.fact.as_deref().unwrap_or(""), i.words)).collect()
}

const UNSETTLED: [State; 4] = [State::Unproven, State::Open, State::Stale, State::CannotSay];

/// What disturbs a build that the sheet it is made from does not have.
fn disturbed(build: &Build, packs: &[LoadedPack]) -> Vec<String> {
    let base = thou_tests::value(&format!("sample-builds/{}.json", build.from));
    let (was, is) = (verdict(&base, packs), verdict(&made(build), packs));
    let new = |states: &[State]| said(&is, states).difference(&said(&was, states)).cloned().collect::<Vec<_>>();
    let mut wrong: Vec<String> = said(&is, &[State::NoGo]).into_iter().map(|what| format!("no-go: {what}")).collect();
    wrong.extend(new(&UNSETTLED).into_iter().map(|what| format!("open: {what}")));
    let looks = new(&[State::Look]);
    if looks.len() > 1 {
        wrong.extend(looks.into_iter().map(|what| format!("look: {what}")));
    }
    wrong.into_iter().map(|w| format!("{} ({}): {w}", build.what, build.from)).collect()
}

fn builds() -> Vec<Build> {
    let mut files: Vec<_> =
        std::fs::read_dir(thou_tests::file("tests/odd")).unwrap().map(|f| f.unwrap().path()).collect();
    files.sort();
    let read = |file| toml::from_str::<Builds>(&std::fs::read_to_string(file).unwrap()).unwrap().build;
    files.iter().flat_map(read).collect()
}

#[test]
fn right_though_odd() {
    let (packs, builds) = (thou_tests::builtin(), builds());
    assert!(builds.len() >= 60, "{}", builds.len());
    assert!(builds.iter().all(|b| !b.why.is_empty()));
    let wrong: Vec<String> = std::thread::scope(|scope| {
        let work: Vec<_> = builds
            .chunks(builds.len().div_ceil(2))
            .map(|part| {
                let packs = &packs;
                scope.spawn(move || part.iter().flat_map(|b| disturbed(b, packs)).collect::<Vec<_>>())
            })
            .collect();
        work.into_iter().flat_map(|w| w.join().unwrap()).collect()
    });
    assert!(wrong.is_empty(), "{} of {}: {wrong:#?}", wrong.len(), builds.len());
}

#[test]
fn a_starter_asks_for_nothing_that_its_engine_does_not_have() {
    let mut tried = 0;
    for layout in ["single", "inline", "v", "flat"] {
        for cylinders in 1..=16_usize {
            if (layout == "single") != (cylinders == 1) {
                continue;
            }
            let text = thou::sheet::starter("bracket", cylinders, layout);
            let value: Value = serde_json::from_str(&text).unwrap();
            let sheet = parse(&value);
            assert_eq!(sheet.places.count(Axis::Cylinder), cylinders, "{layout} {cylinders}");
            for (name, set) in value["readings"].as_object().unwrap() {
                let Some(rows) = set.get("at").and_then(Value::as_object) else { continue };
                let axis = thou_fields::reading(name).unwrap().axis;
                let places: BTreeSet<&str> = sheet.places.labels(axis).iter().map(String::as_str).collect();
                assert_eq!(
                    rows.keys().map(String::as_str).collect::<BTreeSet<_>>(),
                    places,
                    "{layout} {cylinders}: {name}"
                );
            }
            tried += 1;
        }
    }
    assert_eq!(tried, 1 + 3 * 15);
}
