//! Two engines side by side, against the pages of each alone.
#![allow(clippy::unwrap_used)]

use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};
use thou_tests::{changed, file, thou};

const BRACKET: &str = "sample-builds/bracket.json";

fn data(args: &[&str]) -> Value {
    let run = thou(&[args, &["--format", "json"]].concat());
    serde_json::from_str(&run.out).unwrap_or_else(|_| panic!("{args:?}: {}", run.err))
}

/// The worst verdict by rule, fact and place.
fn verdicts(sheet: &str) -> BTreeMap<String, usize> {
    let states = ["no-go", "unproven", "look", "stale", "open", "cannot-say", "note", "go"];
    let mut out = BTreeMap::new();
    for item in data(&["check", sheet])["items"].as_array().unwrap() {
        let Some(state) = states.iter().position(|s| item["verdict"] == *s) else { continue };
        let key = format!("{} {} {} {}", item["rule"], item["fact"], item["place"]["axis"], item["place"]["label"]);
        out.entry(key).and_modify(|worst: &mut usize| *worst = state.min(*worst)).or_insert(state);
    }
    out
}

fn lives(sheet: &str) -> BTreeMap<String, Value> {
    let plan = data(&["plan", sheet]);
    let service = |s: &Value| (format!("{} {}", s["rule"], s["meter"]), s["nominal"].clone());
    plan["services"].as_array().unwrap().iter().map(service).collect()
}

/// Counted from the pages of each engine alone.
#[test]
fn what_differs_is_what_differs_between_the_two_pages() {
    let schema: Value =
        serde_json::from_str(&std::fs::read_to_string(file("schemas/compare.schema.json")).unwrap()).unwrap();
    let schema = jsonschema::validator_for(&schema).unwrap();
    let cases: [(&str, &str, Value); 4] = [
        ("intent.limiter", "/intent/limiter", json!("7400 rpm")),
        ("intent.fuel", "/intent/fuel", json!("methanol")),
        ("intent.use", "/intent/use", json!("street")),
        ("readings.wall-thickness.at.3.1", "/readings/wall-thickness/at/3/1", json!("0.090 in")),
    ];
    for (path, pointer, value) in cases {
        let (_folder, other) = changed("bracket", |root| *root.pointer_mut(pointer).unwrap() = value.clone());
        let found = data(&["compare", BRACKET, &other]);
        let faults: Vec<String> = schema.iter_errors(&found).map(|e| e.to_string()).collect();
        assert!(faults.is_empty(), "{path}: {faults:?}");

        let (was, now) = (verdicts(BRACKET), verdicts(&other));
        let keys: BTreeSet<&String> = was.keys().chain(now.keys()).collect();
        let mut wanted = BTreeMap::from([("worse", 0), ("better", 0), ("added", 0), ("gone", 0)]);
        for key in keys {
            let turn = match (was.get(key), now.get(key)) {
                (Some(a), Some(b)) if a == b => continue,
                (Some(a), Some(b)) => {
                    if b < a {
                        "worse"
                    } else {
                        "better"
                    }
                }
                (None, _) => "added",
                (Some(_), None) => "gone",
            };
            *wanted.get_mut(turn).unwrap() += 1;
        }
        for (turn, count) in wanted {
            let of = found["verdicts"].as_array().unwrap().iter().filter(|v| v["turn"] == turn);
            let told: usize = of.map(|v| v["places"].as_array().unwrap().len().max(1)).sum();
            assert_eq!(told, count, "{path}, {turn}");
        }

        let (was, now) = (lives(BRACKET), lives(&other));
        let keys: BTreeSet<&String> = was.keys().chain(now.keys()).collect();
        let moved: BTreeSet<String> = keys.into_iter().filter(|k| was.get(*k) != now.get(*k)).cloned().collect();
        let told = found["lives"].as_array().unwrap().iter().map(|l| format!("{} {}", l["rule"], l["meter"]));
        assert_eq!(told.collect::<BTreeSet<_>>(), moved, "{path}");

        // and by --set the same
        let text = value.as_str().unwrap();
        let mut set = data(&["compare", BRACKET, "--set", &format!("{path}={text}")]);
        let mut found = found;
        for one in [&mut set, &mut found] {
            one["second"]["name"] = Value::Null;
        }
        assert!(set == found, "{path}");
    }
}

/// The change of two figures by the textbook: mean piston speed is twice the stroke a turn (Taylor, The Internal-Combustion
/// Engine in Theory and Practice; from memory), and limiter over shift is a difference.
#[test]
fn figures_move_as_the_textbook_has_it() {
    let found = data(&["compare", BRACKET, "--set", "crank.stroke=3.500 in", "--set", "intent.limiter=7400 rpm"]);
    let figures = found["figures"].as_array().unwrap();
    let of = |fact: &str| figures.iter().find(|f| f["fact"] == fact).unwrap_or_else(|| panic!("{fact} does not move"));
    let root: Value = serde_json::from_str(&std::fs::read_to_string(file(BRACKET)).unwrap()).unwrap();
    let number =
        |at: &str| root.pointer(at).unwrap().as_str().unwrap().split(' ').next().unwrap().parse::<f64>().unwrap();
    let (stroke, shift, limiter) = (number("/crank/stroke"), number("/intent/shift-speed"), number("/intent/limiter"));
    let speed = |stroke: f64| 2.0 * stroke * 0.0254 * shift / 60.0;
    let speeds = of("piston.speed.mean.at-shift");
    for (side, wanted) in [("was", speed(stroke)), ("now", speed(3.5))] {
        assert!((speeds[side].as_f64().unwrap() - wanted).abs() < 1e-9 * wanted, "{speeds}");
    }
    let margin = of("limiter.margin");
    let turn = std::f64::consts::TAU / 60.0;
    assert!(
        (margin["was"].as_f64().unwrap() - margin["now"].as_f64().unwrap() - (limiter - 7400.0) * turn).abs() < 1e-9
    );
    assert_eq!(margin["told-apart"], true);
}

#[test]
fn a_sheet_beside_itself_moves_nothing() {
    let page = thou(&["compare", BRACKET, BRACKET]);
    assert_eq!(page.exit, 0, "{}", page.err);
    for said in ["The sheets say the same.", "No rule says another thing.", "No life moves.", "No figure moves."] {
        assert!(page.out.contains(said), "{said}\n{}", page.out);
    }
}

#[test]
fn the_page_is_short_and_says_what_it_leaves_off() {
    let set = ["compare", BRACKET, "--set", "intent.limiter=7000 rpm", "--set", "intent.shift-speed=6800 rpm"];
    let page = thou(&set).out;
    assert!(page.lines().count() < 80 && page.lines().all(|l| l.chars().count() <= 80), "{page}");
    assert!(page.contains("  limiter margin: go, then look; 200 rpm, then -400 rpm\n"), "{page}");
    assert!(page.contains(" more: --all\n"), "{page}");
    let all = thou(&[&set[..], &["--all"]].concat()).out;
    assert!(!all.contains(" more: --all\n") && all.lines().count() > page.lines().count());
}

#[test]
fn one_sheet_alone_cannot_be_compared() {
    for args in [&["compare", BRACKET][..], &["compare", BRACKET, BRACKET, "--set", "rods.length=6 in"]] {
        let run = thou(args);
        assert_eq!((run.exit, run.out.as_str()), (2, ""), "{args:?}");
        assert!(run.err.contains("--set"), "{}", run.err);
    }
}

/// Of what only one of the two is asked, a go is counted and all else named.
#[test]
fn a_rule_that_only_one_is_asked_is_named_unless_it_is_a_go() {
    let args = ["compare", BRACKET, "sample-builds/half-filled.json"];
    let (page, found) = (thou(&args).out, data(&args));
    for (head, turn, side) in [("ASKED ONLY OF THE SECOND", "added", "now"), ("NO LONGER ASKED", "gone", "was")] {
        let list = found["verdicts"].as_array().unwrap().iter().filter(|v| v["turn"] == turn);
        let (goes, others): (Vec<&Value>, Vec<&Value>) = list.partition(|v| v[side]["verdict"] == "go");
        let part = page.split(&format!("\n{head}\n")).nth(1).unwrap_or_default().split("\n\n").next().unwrap();
        let lines: Vec<&str> = part.lines().filter(|l| !l.starts_with("      ")).collect();
        let (told, named): (Vec<&str>, Vec<&str>) = lines.into_iter().partition(|l| l.ends_with(" a go: --all"));
        assert_eq!(named.len(), others.len(), "{head}\n{page}");
        let counted = told.iter().flat_map(|l| l.split(' ')).filter_map(|w| w.parse::<usize>().ok()).sum::<usize>();
        assert_eq!(counted, goes.len(), "{head}\n{page}");
    }
    let all = thou(&[&args[..], &["--all"]].concat()).out;
    assert!(!all.contains(" a go: --all"));
}
