//! The sample builds: the good ones are good, every planted mistake is found by its rule and in its words, and what only
//! looks wrong is left alone.
#![allow(clippy::unwrap_used, clippy::panic)]

use serde_json::Value;
use std::collections::BTreeSet;
use thou_tests::{samples, thou};

fn check(name: &str) -> (u8, Value) {
    let run = thou(&["check", name, "--format", "json"]);
    assert!(run.err.is_empty(), "{name}: {}", run.err);
    (run.exit, serde_json::from_str(&run.out).unwrap())
}

fn items(report: &Value) -> &Vec<Value> {
    report["items"].as_array().unwrap()
}

fn told(item: &Value) -> String {
    let place = item["place"]["label"].as_str().unwrap_or("");
    format!(
        "{} {} {} {}",
        item["verdict"].as_str().unwrap(),
        item["rule"].as_str().unwrap(),
        place,
        item["fact"].as_str().unwrap_or("")
    )
}

#[test]
fn the_good_builds_are_good() {
    for name in ["street", "bracket", "all-out", "inline-four", "single"] {
        let (exit, report) = check(&format!("sample-builds/{name}.json"));
        let bad: Vec<String> = items(&report)
            .iter()
            .filter(|i| !matches!(i["verdict"].as_str(), Some("go" | "note" | "does-not-apply")))
            .map(told)
            .collect();
        assert!(bad.is_empty(), "{name}: {bad:#?}");
        assert_eq!(exit, 0, "{name}");
    }
}

#[test]
fn what_a_planted_or_odd_sheet_must_say_and_must_not() {
    let mut seen = 0;
    for name in samples("sample-builds/expected") {
        let expected = thou_tests::value(&name);
        let short = name.rsplit('/').next().unwrap();
        let sheet = ["planted", "right", ""]
            .into_iter()
            .map(|folder| {
                if folder.is_empty() {
                    format!("sample-builds/{short}")
                } else {
                    format!("sample-builds/{folder}/{short}")
                }
            })
            .find(|n| thou_tests::file(n).exists())
            .unwrap_or_else(|| panic!("{name}: no such sheet"));
        let (_, report) = check(&sheet);
        let text = thou(&["check", &sheet]).out;
        for want in expected["must-say"].as_array().unwrap() {
            let found = items(&report).iter().any(|i| fits(i, want, &text));
            assert!(
                found,
                "{sheet}: must say {want}\n{:#?}",
                items(&report)
                    .iter()
                    .filter(|i| i["rule"] == want["rule"])
                    .map(|i| format!("{} | {} | {}", told(i), i["words"], i["do"]))
                    .collect::<Vec<_>>()
            );
        }
        for want in expected["must-not-say"].as_array().into_iter().flatten() {
            let found: Vec<String> = items(&report).iter().filter(|i| fits(i, want, &text)).map(told).collect();
            assert!(found.is_empty(), "{sheet}: must not say {want}: {found:?}");
        }
        seen += 1;
    }
    assert!(seen >= 15, "{seen} expectations");
}

/// Whether an item is what an expectation asks for; its words may stand in any of its texts or in the printed page.
fn fits(item: &Value, want: &Value, page: &str) -> bool {
    let same = |key: &str| want.get(key).is_none_or(|w| w.is_null() || *w == item[key]);
    let place = want.get("place").is_none_or(|p| p.is_null() || *p == item["place"]["label"]);
    let flat = page.split_whitespace().collect::<Vec<_>>().join(" ");
    let own = format!("{} {} {}", item["words"], item["do"], item["whose"]);
    let words = want.get("words").and_then(Value::as_array).into_iter().flatten();
    same("rule")
        && same("verdict")
        && place
        && words.map(|w| w.as_str().unwrap()).all(|w| own.contains(w) || flat.contains(w))
}

/// Beyond what its base says, a planted sheet holds for nothing but the mistake: every new no-go is one that is expected.
#[test]
fn a_planted_sheet_holds_for_its_mistake_alone() {
    for name in samples("sample-builds/planted") {
        let short = name.rsplit('/').next().unwrap();
        let expected = thou_tests::value(&format!("sample-builds/expected/{short}"));
        let rules: BTreeSet<&str> =
            expected["must-say"].as_array().unwrap().iter().map(|w| w["rule"].as_str().unwrap()).collect();
        let (exit, report) = check(&name);
        for item in items(&report).iter().filter(|i| i["verdict"] == "no-go") {
            assert!(rules.contains(item["rule"].as_str().unwrap()), "{name}: unexpected {}", told(item));
        }
        let wanted = |v: &str| expected["must-say"].as_array().unwrap().iter().any(|w| w["verdict"] == v);
        assert_eq!(exit == 1, wanted("no-go"), "{name}: exit {exit}");
        let strict = thou(&["check", &name, "--strict"]).exit;
        assert_eq!(strict, 1, "{name}: a planted mistake is never clean under --strict");
    }
}

/// What only looks wrong holds for nothing.
#[test]
fn what_looks_wrong_and_is_right_holds_for_nothing() {
    for name in samples("sample-builds/right") {
        let (exit, report) = check(&name);
        let holds: Vec<String> = items(&report).iter().filter(|i| i["verdict"] == "no-go").map(told).collect();
        assert!(holds.is_empty() && exit != 1, "{name}: {holds:?}");
    }
}

/// Every rule of every built-in pack is answered, or says that it does not apply, in some sample.
#[test]
fn every_rule_is_answered_in_some_sample() {
    let mut answered = BTreeSet::new();
    let folders = ["sample-builds", "sample-builds/planted", "sample-builds/right"];
    for name in folders.iter().flat_map(|f| samples(f)) {
        let sheet = thou_tests::sheet_of(&name);
        let verdict = thou_tests::judge(&sheet);
        assert!(verdict.lost.is_empty(), "{name}: {:?}", verdict.lost);
        answered.extend(verdict.windows.iter().map(|w| w.rule.clone()));
        answered.extend(verdict.services.iter().map(|s| s.rule.clone()));
        answered.extend(verdict.steps.iter().map(|s| s.rule.clone()));
        let said = |s| !matches!(s, thou::verdict::State::Open | thou::verdict::State::DoesNotApply);
        answered.extend(verdict.items.iter().filter(|i| said(i.state)).map(|i| i.rule.clone()));
    }
    let all = thou_tests::builtin();
    let all = all.iter().flat_map(|p| p.manifest.rules.iter().map(|r| format!("{}/{}", p.manifest.id, r.id)));
    let silent: Vec<String> = all.filter(|r| !answered.contains(r)).collect();
    assert!(silent.is_empty(), "{silent:?}");
}
