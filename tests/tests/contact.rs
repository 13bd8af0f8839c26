//! What touches is a no-go in the program, on sheets that are good otherwise, and nobody can sign for it.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::{Value, json};
use std::collections::BTreeSet;
use thou::verdict::State;
use thou_tests::{judge, sheet, thou, value};

const GOOD: [&str; 3] = ["street", "bracket", "inline-four"];

/// A slip that makes parts touch: the rule that holds, the reading, its figure at every place, and what else the sheet
/// has to state for it.
struct Touch {
    rule: &'static str,
    reading: &'static str,
    /// The reading whose places it is given, where the sheet has none of its own.
    like: &'static str,
    figure: &'static str,
    stated: Option<(&'static str, &'static str, &'static str)>,
}

const fn touch(rule: &'static str, reading: &'static str, figure: &'static str) -> Touch {
    Touch { rule, reading, like: reading, figure, stated: None }
}

const TOUCHING: &[Touch] = &[
    // an oil film, rock, growth and stretch take up 15 thou and more in each of these engines
    touch("piston-to-head", "piston-to-head", "8 thou"),
    touch("piston-to-valve", "piston-to-valve", "0 thou"),
    touch("piston-to-valve", "piston-to-valve", "-5 thou"),
    touch("piston-to-valve", "piston-to-valve", "8 thou"),
    touch("valve-to-valve", "valve-to-valve", "0.5 thou"),
    touch("valve-radial", "valve-radial", "0.5 thou"),
    touch("end-play", "end-play", "0 thou"),
    touch("rod-side-clearance", "rod-side-clearance", "-1 thou"),
    touch("main-clearance", "main-clearance", "0.1 thou"),
    touch("rod-clearance", "rod-clearance", "0.1 thou"),
    touch("cam-bearing", "cam-clearance", "-0.5 thou"),
    touch("cam-end-play", "cam-end-play", "0 thou"),
    Touch { like: "pin", ..touch("pin-to-piston", "pin-to-piston", "-2 thou") },
    Touch { like: "pin", ..touch("pin-to-bush", "pin-to-rod", "0 thou") },
    Touch { like: "pin", ..touch("pin-press", "pin-to-rod", "0.2 thou") },
    Touch { like: "lifter", ..touch("lifter-to-bore", "lifter-to-bore", "0 thou") },
    Touch { like: "stem", ..touch("stem-to-guide", "stem-to-guide", "0 thou") },
    touch("top-gap", "top-gap", "0 thou"),
    touch("second-gap", "second-gap", "0 thou"),
    touch("oil-rail-gap", "rail-gap", "0 thou"),
    touch("ring-axial-clearance", "top-axial-clearance", "0 thou"),
    touch("ring-axial-clearance", "second-axial-clearance", "0 thou"),
    touch("ring-back-clearance", "top-back-clearance", "-1 thou"),
    touch("crush", "main-crush", "0 thou"),
    touch("crush", "rod-crush", "-1 thou"),
    touch("shell-to-fillet", "main-shell-to-fillet", "0 thou"),
    touch("shell-to-fillet", "rod-shell-to-fillet", "-3 thou"),
    touch("retainer-to-seal", "retainer-to-seal", "0 thou"),
    touch("pushrod-to-head", "pushrod-to-head", "0 thou"),
    touch("moving-parts", "rod-to-block", "0 thou"),
    touch("moving-parts", "rod-to-cam", "0 thou"),
    touch("moving-parts", "counterweight-to-block", "0 thou"),
    touch("oil-pump", "oil-pump-end", "0 thou"),
    touch("lash", "lash-cold", "0 thou"),
    touch("valve-clearance", "lash-cold", "0 thou"),
    touch("liner-protrusion", "liner-protrusion", "0 thou"),
    Touch { stated: Some(("valvetrain", "lifter-travel", "60 thou")), ..touch("preload", "preload", "80 thou") },
    Touch { stated: Some(("oil", "pickup-bore", "0.75 in")), ..touch("pickup-to-pan", "pickup-to-pan", "100 thou") },
];

/// A good sheet with this reading at every one of its places, if it has it or one like it.
fn with(good: &Value, touch: &Touch) -> Option<Value> {
    let mut sheet = good.clone();
    let readings = sheet["readings"].as_object_mut().unwrap();
    let had = readings.get(touch.reading).or_else(|| readings.get(touch.like))?.clone();
    let mut set = json!({ "stage": "final", "when": had["when"], "by": had["by"] });
    match had.get("at").and_then(Value::as_object) {
        Some(places) => set["at"] = places.keys().map(|p| (p.clone(), json!(touch.figure))).collect(),
        None => set["value"] = json!(touch.figure),
    }
    readings.insert(touch.reading.to_owned(), set);
    if let Some((section, field, figure)) = touch.stated {
        sheet[section][field] = json!(figure);
    }
    Some(sheet)
}

/// The states of a rule's items that nobody can sign for.
fn held(sheet_value: &Value, rule: &str) -> BTreeSet<&'static str> {
    let verdict = judge(&sheet(sheet_value));
    assert!(verdict.lost.is_empty(), "{:?}", verdict.lost);
    let of_rule = verdict.items.iter().filter(|i| i.rule == rule && !i.can_be_accepted);
    of_rule.map(|i| i.state.word()).collect()
}

#[test]
fn what_touches_is_a_no_go_that_nobody_can_sign_for() {
    let mut tried = BTreeSet::new();
    for name in GOOD {
        let good = value(&format!("sample-builds/{name}.json"));
        for touch in TOUCHING {
            let Some(bad) = with(&good, touch) else { continue };
            let rule = format!("clearances/{}", touch.rule);
            let before = judge(&sheet(&good));
            // a rule that has nothing to say of this engine: lash of hydraulic lifters, say
            if before.windows.iter().all(|w| w.rule != rule) {
                continue;
            }
            tried.insert((touch.rule, touch.reading, touch.figure));
            let states = held(&bad, &rule);
            assert!(
                states.contains(State::NoGo.word()),
                "{name}: {} {} is {states:?} by {rule}",
                touch.reading,
                touch.figure
            );
        }
    }
    let all: BTreeSet<_> = TOUCHING.iter().map(|t| (t.rule, t.reading, t.figure)).collect();
    let untried: Vec<_> = all.difference(&tried).collect();
    assert!(untried.is_empty(), "no good sheet has {untried:?}");
}

/// A signature for the rule takes the look or the no-go of practice off the exit status, never that of contact.
#[test]
fn a_signature_does_not_help_against_contact() {
    let folder = tempfile::tempdir().unwrap();
    let good = value("sample-builds/street.json");
    let exit = |sheet: &Value| {
        let file = folder.path().join("sheet.json");
        std::fs::write(&file, sheet.to_string()).unwrap();
        thou(&["check", file.to_str().unwrap()]).exit
    };
    let signed = |sheet: &Value, rule: &str| {
        let mut sheet = sheet.clone();
        sheet["accepted"] = json!([{ "rule": rule, "reason": "we know", "by": "A.R.", "until": "next-freshen" }]);
        sheet
    };
    assert_eq!(exit(&good), 0);
    // 25 thou of end play: nobody would, but it is theirs to say
    let loose = with(&good, &touch("end-play", "end-play", "25 thou")).unwrap();
    assert_eq!((exit(&loose), exit(&signed(&loose, "clearances/end-play"))), (1, 0));
    for (rule, reading, figure) in [
        ("end-play", "end-play", "0 thou"),
        ("piston-to-valve", "piston-to-valve", "5 thou"),
        ("top-gap", "top-gap", "2 thou"),
    ] {
        let bad = with(&good, &touch(rule, reading, figure)).unwrap();
        let by = format!("clearances/{rule}");
        assert_eq!((exit(&bad), exit(&signed(&bad, &by))), (1, 1), "{reading} {figure}");
    }
}
