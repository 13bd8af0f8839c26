//! A shop's own pack beside the built-in ones: it adds a use, its window meets theirs, it stands in for a rule, and
//! what somebody signs for.
#![allow(clippy::unwrap_used, clippy::panic)]

use serde_json::{Value, json};
use std::path::PathBuf;
use thou::verdict::State;
use thou_tests::{changed, judge, made, sheet, thou, value};

/// A pack of the shop `ours` with this in its manifest, and the folder it stands in.
fn ours(change: impl FnOnce(&mut Value)) -> (tempfile::TempDir, PathBuf) {
    let text = std::fs::read_to_string(thou_tests::file("tests/hostile/manifest.json")).unwrap();
    let mut manifest: Value = serde_json::from_str(&text.replace("\"?\"", "\"ours\"")).unwrap();
    change(&mut manifest);
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("ours.wasm");
    std::fs::write(&file, made::good(&manifest)).unwrap();
    (folder, file)
}

fn json_of(args: &[&str]) -> Value {
    let run = thou(args);
    assert!(run.err.is_empty(), "{}", run.err);
    serde_json::from_str(&run.out).unwrap()
}

#[test]
fn a_use_that_nobody_declares_is_told_with_what_is_known() {
    let (_keep, file) = changed("all-out", |v| v["intent"]["use"] = json!("pulling"));
    let run = thou(&["check", &file]);
    assert_eq!((run.exit, run.out.as_str()), (2, ""));
    // the message is folded to the width of a page
    let flat = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    let told = flat(&run.err);
    assert!(
        told.contains("no loaded pack knows the use \"pulling\". Known: street, bracket, all-out, circuit, "),
        "{told}"
    );
    let (_keep, file) = changed("all-out", |v| v["intent"]["use"] = json!("brakcet"));
    assert!(flat(&thou(&["check", &file]).err).contains("Did you mean \"bracket\"?"));
}

#[test]
fn a_declared_use_is_judged_like_the_one_it_is_like() {
    let (_pack, pack) = ours(|m| {
        m["uses"] = json!([{ "id": "pulling", "title": "Pulling", "about": "A sled.", "like": "all-out" }]);
        m["rules"][0]["judges"] = json!(["cam.end-play"]);
    });
    let (_sheet, file) = changed("all-out", |v| v["intent"]["use"] = json!("pulling"));
    let windows = |file: &str| {
        let spec = json_of(&["spec", file, "--pack", pack.to_str().unwrap(), "--format", "json"]);
        spec["operations"].clone()
    };
    assert_eq!(windows(&file), windows("sample-builds/all-out.json"));
}

#[test]
fn two_windows_that_leave_no_room_are_both_shown() {
    let (_keep, pack) = ours(|_| ());
    let run = thou(&["spec", "sample-builds/bracket.json", "--pack", pack.to_str().unwrap()]);
    // a rule's name may be folded at its hyphens
    let flat = run.out.split_whitespace().collect::<Vec<_>>().join(" ").replace("- ", "-");
    assert!(flat.contains("No room is left between them: "), "{}", run.out);
    assert!(
        flat.contains("ours/piston-to-wall wants") && flat.contains("clearances/piston-to-wall wants"),
        "{}",
        run.out
    );
}

#[test]
fn a_rule_stands_in_for_another_where_it_answers() {
    let (_keep, pack) = ours(|m| m["rules"][0]["supersedes"] = json!(["clearances/piston-to-wall"]));
    let (_sheet, file) = changed("bracket", |v| {
        v["looser"] = json!([{ "rule": "clearances/piston-to-wall", "instead": "ours/piston-to-wall", "reason": "ours run so", "by": "R. L." }]);
    });
    let check = json_of(&["check", &file, "--pack", pack.to_str().unwrap(), "--format", "json"]);
    let of = |rule: &str| check["items"].as_array().unwrap().iter().filter(|i| i["rule"] == rule).count();
    assert_eq!((of("clearances/piston-to-wall"), of("ours/piston-to-wall")), (0, 8));
}

#[test]
fn a_packs_file_beside_the_sheet_counts_and_a_bad_pack_costs_the_others_nothing() {
    let (folder, file) = changed("bracket", |_| ());
    let (_keep, pack) = ours(|m| m["rules"][0]["judges"] = json!(["cam.end-play"]));
    std::fs::copy(&pack, folder.path().join("ours.wasm")).unwrap();
    let list = folder.path().join("packs");
    std::fs::write(&list, "# the shop's own\nours.wasm\n").unwrap();
    assert_eq!(thou(&["pack", "lock", "--sheet", &file]).exit, 0);
    std::fs::write(&list, "# the shop's own\nours.wasm\nmissing.wasm\n").unwrap();
    let run = thou(&["check", &file, "--format", "json"]);
    let check: Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(run.exit, 3);
    assert!(check["packs"].as_array().unwrap().iter().any(|p| p["id"] == "ours"));
    assert_eq!(check["faults"].as_array().unwrap().len(), 1, "{}", check["faults"]);
    let alone = json_of(&["check", "sample-builds/bracket.json", "--format", "json"]);
    let items = |v: &Value| {
        v["items"]
            .as_array()
            .unwrap()
            .iter()
            .filter(|i| !i["rule"].as_str().unwrap().starts_with("ours/"))
            .map(|i| (i["rule"].clone(), i["place"].clone(), i["verdict"].clone()))
            .collect::<Vec<_>>()
    };
    assert_eq!(items(&check), items(&alone));
}

fn accepted(name: &str, entry: &Value) -> thou::verdict::Verdict {
    let mut v = value(&format!("sample-builds/{name}.json"));
    v["accepted"] = json!([entry]);
    judge(&sheet(&v))
}

fn entry(rule: &str, until: &str) -> Value {
    json!({ "rule": rule, "reason": "the engine has run so for two seasons", "by": "R. L.", "until": until })
}

#[test]
fn what_is_signed_for_stays_on_the_page_and_off_the_exit_status() {
    let name = "planted/01-aluminium-rods";
    let verdict = accepted(name, &entry("clearances/piston-to-head", "2026-12-31"));
    let signed: Vec<_> = verdict.items.iter().filter(|i| i.accepted.is_some()).collect();
    assert_eq!(signed.len(), 8);
    assert!(signed.iter().all(|i| i.state == State::NoGo && i.rule == "clearances/piston-to-head"));
    assert_eq!(verdict.count(State::NoGo), 0);
    assert_eq!(verdict.exit_code(false), 0);
}

#[test]
fn what_has_ended_or_matches_nothing_is_a_finding() {
    let told = |rule: &str, until: &str, words: &str| {
        let verdict = accepted("planted/01-aluminium-rods", &entry(rule, until));
        let found = verdict.items.iter().any(|i| i.rule == "host/accepted" && i.words.contains(words));
        assert!(found, "{rule} {until}");
        assert_eq!(verdict.exit_code(false), 1, "{rule} {until}");
    };
    told("clearances/piston-to-head", "2026-06-30", "accepted until 2026-06-30 and no longer");
    told("clearances/crush", "2026-12-31", "nothing is left to accept here");
}

#[test]
fn what_physics_forbids_cannot_be_signed_for() {
    let verdict = accepted("planted/07-small-gasket", &entry("clearances/gasket-overhang", "2026-12-31"));
    assert_eq!(verdict.exit_code(false), 1);
    assert!(verdict.items.iter().any(|i| i.rule == "host/accepted" && i.words.contains("physics")));
}
