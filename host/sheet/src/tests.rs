//! What a good sheet becomes.

#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use super::keys::READINGS;
use super::published::schema;
use super::*;
use serde_json::json;
use thou_contract::{KINDS, Kind};

fn sheet(engine: &str, rest: &str) -> Result<Sheet, String> {
    let text = format!(
        "{{ \"format\": \"thou-build-1\", \"engine\": {{ \"name\": \"a\", {engine} }}, \"intent\": {{ \"use\": \"street\" }}{rest} }}"
    );
    Sheet::parse("a.json", &text, Path::new("")).map_err(|f| f.to_string())
}

fn v8(rest: &str) -> Sheet {
    sheet("\"cylinders\": 8, \"layout\": \"v\"", rest).unwrap()
}

fn close(a: Option<f64>, b: f64) -> bool {
    a.is_some_and(|a| (a - b).abs() < 1e-12)
}

#[test]
fn a_v_engine_has_its_usual_places() {
    let places = v8("").places;
    assert_eq!(places.labels(Axis::Bank), ["left", "right"]);
    assert_eq!(places.bank_of_cylinder, [0, 1, 0, 1, 0, 1, 0, 1]);
    assert_eq!(places.pin_of_cylinder, [0, 0, 1, 1, 2, 2, 3, 3]);
    assert_eq!(places.labels(Axis::Crankpin), ["1", "2", "3", "4"]);
    assert_eq!(places.labels(Axis::Main), ["1", "2", "3", "4", "5"]);
    assert_eq!(places.labels(Axis::CamJournal), ["1", "2", "3", "4", "5"]);
    assert_eq!(places.labels(Axis::Valve)[..4], ["1I", "1E", "2I", "2E"]);
    assert_eq!(places.cylinder_of_valve[3], (1, false));
}

#[test]
fn an_engine_in_line_has_one_bank_and_a_pin_a_cylinder() {
    let four =
        sheet("\"cylinders\": 4, \"layout\": \"inline\"", ", \"heads\": { \"valves-a-cylinder\": 5 }").unwrap().places;
    assert_eq!(four.labels(Axis::Bank), ["all"]);
    assert_eq!((four.count(Axis::Main), four.count(Axis::Crankpin)), (5, 4));
    assert_eq!(four.labels(Axis::Valve)[..5], ["1I1", "1I2", "1I3", "1E1", "1E2"]);
    let single = sheet("\"cylinders\": 1, \"layout\": \"single\"", "").unwrap().places;
    assert_eq!((single.count(Axis::Main), single.count(Axis::Crankpin)), (2, 1));
}

#[test]
fn the_shop_numbers_as_it_likes() {
    let engine = r#""cylinders": 4, "layout": "v", "cylinder-names": ["R1", "L1", "R2", "L2"], "bank-names": ["R", "L"],
        "banks": [["R1", "R2"], ["L1", "L2"]], "crankpins": [["R1", "L2"], ["R2", "L1"]], "main-names": ["a", "b", "c", "d"],
        "firing-order": ["R1", "L1", "R2", "L2"]"#;
    let places = sheet(engine, "").unwrap().places;
    assert_eq!(places.labels(Axis::Rod), ["R1", "L1", "R2", "L2"]);
    assert_eq!(places.bank_of_cylinder, [0, 1, 0, 1]);
    assert_eq!(places.pin_of_cylinder, [0, 1, 1, 0]);
    assert_eq!((places.labels(Axis::Bank), places.count(Axis::Main)), (&["R".to_owned(), "L".to_owned()][..], 4));
    assert_eq!(places.labels(Axis::Valve)[..2], ["R1I", "R1E"]);
}

#[test]
fn rows_are_read_in_every_way_they_are_written() {
    let sheet = v8(r#", "readings": { "bore": { "master": "4.1550 in", "at": {
            "1": { "tenths": [0, 1, -2, null] }, "2": { "tenths": [5], "master": "105.500 mm" },
            "3": ["4.1550 in", null], "4": "105.537 mm", "5": null } } }"#);
    let set = &sheet.readings["bore"][0];
    assert_eq!((set.points.len(), set.rows.len()), (6, 8));
    let value = |place: usize, point: usize| set.rows[place][point].value;
    assert!(close(value(0, 1), 4.1551 * 0.0254) && close(value(0, 2), 4.1548 * 0.0254));
    assert!(close(value(1, 0), 0.105_505), "a metric master counts thousandths of a millimetre");
    assert!(close(value(2, 0), 4.155 * 0.0254) && close(value(3, 0), 0.105_537));
    let pointer = |place: usize, point: usize| set.rows[place][point].pointer.as_str();
    assert_eq!((value(0, 3), pointer(0, 3)), (None, "/readings/bore/at/1/tenths/3"));
    assert_eq!((value(0, 5), pointer(0, 5)), (None, "/readings/bore/at/1/tenths/5"));
    assert_eq!((value(2, 1), pointer(2, 1)), (None, "/readings/bore/at/3/1"));
    assert_eq!((value(2, 4), pointer(2, 4)), (None, "/readings/bore/at/3/4"));
    assert_eq!((value(3, 1), pointer(3, 1)), (None, "/readings/bore/at/4"));
    assert_eq!((value(4, 0), pointer(4, 0)), (None, "/readings/bore/at/5"));
    assert_eq!((value(7, 0), pointer(7, 0)), (None, "/readings/bore/at/8"));
}

#[test]
fn points_are_as_many_as_the_shop_read() {
    let sheet = v8(
        r#", "readings": { "bore": { "at": { "1": "4.155 in" } }, "deck-clearance": { "at": { "1": ["5 thou", "6 thou"], "2": "5 thou" } },
            "stem": { "points": ["top", "bottom"], "at": { "1I": ["0.3410 in"] } }, "end-play": { "value": null } }"#,
    );
    let points = |key: &str| sheet.readings[key][0].points.clone();
    assert_eq!(points("bore"), [""]);
    assert_eq!(points("deck-clearance"), ["1", "2"]);
    assert_eq!(points("stem"), ["top", "bottom"]);
    assert_eq!(sheet.readings["deck-clearance"][0].rows[1][1].value, None);
    assert_eq!(sheet.readings["end-play"][0].rows[0][0].pointer, "/readings/end-play/value");
}

#[test]
fn sets_stand_oldest_first() {
    let sheet = v8(
        r#", "readings": { "end-play": [{ "when": "2026-03-02", "value": "6 thou" }, { "when": "2026-03-01", "value": "5 thou", "twice": true }] }"#,
    );
    let sets = &sheet.readings["end-play"];
    assert!(close(sets[0].rows[0][0].value, 5.0 * 2.54e-5) && sets[0].twice);
    assert_eq!(sets[0].rows[0][0].pointer, "/readings/end-play/1/value");
}

#[test]
fn lists_become_plain_data() {
    let sheet = v8(r#", "gauges": { "t": { "kind": "spring-tester", "resolution": "1 lb", "uncertainty": "2 %" },
              "l": { "kind": "leak-down-tester", "uncertainty": "1 %" } },
            "work": [{ "did": "decked", "when": "2026-03-02", "took": "4 thou" }, { "did": "bored", "when": "2026-03-01" }],
            "accepted": [{ "rule": "a/b", "place": "3", "reason": "r", "by": "R", "until": "2026-12-31" }],
            "certificates": [{ "part": "damper", "until": "2027-01-01" }],
            "meters": { "date": "2026-05-01", "passes": "40 passes", "miles": "10 miles", "hours": "2 hours", "events": 6 },
            "serviced": { "freshen/oil": { "date": "2026-04-01", "at": { "passes": "20 passes" } } }"#);
    let tester = &sheet.gauges["t"];
    assert!(tester.relative && close(tester.uncertainty, 0.02) && close(tester.resolution, 4.448_221_615_260_5));
    assert!(!sheet.gauges["l"].relative);
    assert_eq!(sheet.work.iter().map(|w| w.did.as_str()).collect::<Vec<_>>(), ["bored", "decked"]);
    assert_eq!((sheet.work[1].pointer.as_str(), sheet.accepted[0].place.as_deref()), ("/work/0", Some("3")));
    assert_eq!(sheet.accepted[0].until, Some(jiff::civil::date(2026, 12, 31)));
    assert_eq!(sheet.certificates[0].until, jiff::civil::date(2027, 1, 1));
    let meters: Vec<(&str, f64)> = sheet.meters.iter().map(|(k, v)| (k.as_str(), *v)).collect();
    assert_eq!(meters, [("events", 6.0), ("hours", 7_200.0), ("miles", 16_093.44), ("passes", 40.0)]);
    assert_eq!(sheet.as_of, Some(jiff::civil::date(2026, 5, 1)));
    assert_eq!(sheet.serviced[0].at["passes"], 20.0);
}

#[test]
fn everything_has_its_place_in_the_text() {
    let sheet = v8(r#", "block": { "bore": "4.155 in" }, "extra": { "a/b": { "x~y": [1, 2] } }"#);
    let at = |pointer: &str| sheet.source.text.get(sheet.source.spans[pointer].clone()).unwrap().to_owned();
    assert_eq!(at("/block/bore"), "\"4.155 in\"");
    assert_eq!(at("/extra/a~1b/x~0y/1"), "2");
    assert_eq!(
        sheet.stated("block.bore").map(|(v, p)| (v.clone(), p)),
        Some((json!("4.155 in"), "/block/bore".to_owned()))
    );
}

#[test]
fn the_schema_takes_exactly_the_units_that_are_read() {
    for spec in KINDS {
        let node = &schema()["$defs"][spec.id];
        let kind = Kind::by_id(spec.id).unwrap();
        for example in node["examples"].as_array().unwrap() {
            assert!(example.is_number() || kind.parse(example.as_str().unwrap()).is_ok(), "{}: {example}", spec.id);
        }
        let Some(pattern) = node["pattern"].as_str() else {
            assert_eq!(spec.id, "count");
            continue;
        };
        let units = pattern.rsplit_once(r"\s*(").unwrap().1;
        let mut written: Vec<String> =
            units.split(')').next().unwrap().split('|').map(|u| u.replace('\\', "")).collect();
        if spec.id == "octane" || spec.id == "specific-consumption" {
            continue; // their units hold brackets: the sheet below reads them
        }
        written.sort();
        let mut known: Vec<&str> = spec.units.iter().map(|u| u.name).filter(|n| !n.is_empty()).collect();
        known.sort_unstable();
        assert_eq!(written, known, "{}", spec.id);
    }
    v8(r#", "fuel": { "octane": "93 (R+M)/2", "bsfc": "0.5 lb/(hp·h)" }, "valvetrain": { "rocker-ratio": 1.6 }"#);
}

#[test]
fn readings_and_the_schema_say_the_same() {
    let known: Vec<&String> = schema()["properties"]["readings"]["properties"].as_object().unwrap().keys().collect();
    let ours: Vec<&str> = READINGS.iter().map(|r| r.key).collect();
    assert_eq!(known, ours);
    for reading in READINGS {
        let node = &schema()["properties"]["readings"]["properties"][reading.key];
        assert_eq!(node["$ref"], format!("#/$defs/{}-readings", reading.kind), "{}", reading.key);
        let kind = reading.quantity().unwrap();
        assert!(bands::Band::new(kind, reading.low, reading.high).is_some(), "{}", reading.key);
    }
}

/// The node of the schema at a dotted path of a sheet.
fn node(path: &str) -> Option<&'static Value> {
    let mut at = schema();
    for step in path.split('.') {
        at = at.get("properties")?.get(step)?;
        if let Some(target) = at.get("$ref").and_then(Value::as_str)
            && at.get("properties").is_none()
        {
            at = schema().pointer(target.trim_start_matches('#'))?;
        }
    }
    Some(at)
}

#[test]
fn what_is_held_to_a_band_is_a_field_of_its_kind() {
    for (path, kind, low, high) in bands::STATED {
        let wanted = &schema()["$defs"][*kind];
        assert_eq!(node(path), Some(wanted), "{path}");
        assert!(bands::Band::new(Kind::by_id(kind).unwrap(), low, high).is_some(), "{path}");
    }
}

#[test]
fn every_field_of_the_schema_is_described() {
    fn walk(at: &Value, path: &str) {
        for (key, child) in at.get("properties").and_then(Value::as_object).into_iter().flatten() {
            let path = format!("{path}/{key}");
            let about = child
                .get("description")
                .or_else(|| schema().pointer(child.get("$ref")?.as_str()?.trim_start_matches('#'))?.get("description"));
            assert!(about.and_then(Value::as_str).is_some_and(|a| !a.is_empty()), "{path}");
            walk(child, &path);
        }
    }
    walk(schema(), "");
    for (id, def) in schema()["$defs"].as_object().unwrap() {
        assert!(def.get("description").is_some(), "{id}");
        walk(def, id);
    }
}
