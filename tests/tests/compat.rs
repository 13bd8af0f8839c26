//! Packs built against a released contract answer for good as they did when it was frozen.
//!
//! Once the contract is released, a file in `compat/rules-1.0` is never built again: when this test fails, it is the host
//! that changed. `compat/build.sh` builds their sources; THOU_COMPAT names the folder with what it built, which has to
//! answer as what is kept does.
#![allow(clippy::unwrap_used, clippy::panic)]

use serde_json::Value;
use sha2::{Digest, Sha256};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use thou_tests::answers::{Handed, text};

/// Each kept pack, and what the file of its facts and of its answers is called.
const KEPT: [(&str, &str); 4] = [
    ("every-field.wasm", "every-field"),
    ("house-table.wasm", "house-table"),
    ("ring-gaps-c.wasm", "ring-gaps"),
    ("ring-gaps-rust.wasm", "ring-gaps"),
];

fn folder() -> PathBuf {
    thou_tests::file("tests/compat/rules-1.0")
}

/// What the packs in this folder say that is not what was kept.
fn other_answers(packs: &Path) -> Vec<String> {
    let mut wrong = Vec::new();
    for (pack, name) in KEPT {
        let loaded = thou::packs::load_file(&packs.join(pack)).unwrap_or_else(|f| panic!("{f}"));
        let asked = std::fs::read_to_string(folder().join(format!("{name}.given.json"))).unwrap();
        let asked: Vec<Value> = serde_json::from_str(&asked).unwrap();
        let mut said = String::new();
        for case in &asked {
            let rules: Vec<u32> = serde_json::from_value(case["ask"].clone()).unwrap();
            let _ = writeln!(said, "{}", case["name"].as_str().unwrap());
            match Handed::by_name(&loaded.manifest, &case["facts"]).ask(&loaded, &rules) {
                Ok(answer) => said.push_str(&text(&answer)),
                Err(fault) => panic!("{pack}, {}: {fault}", case["name"]),
            }
            said.push('\n');
        }
        let file = folder().join(format!("{name}.answers.txt"));
        if std::env::var_os("THOU_WRITE_EXPECTED").is_some() && !file.exists() {
            std::fs::write(&file, &said).unwrap();
        }
        if std::fs::read_to_string(&file).ok().as_deref() != Some(said.as_str()) {
            wrong.push(format!("{pack} now answers:\n{said}"));
        }
    }
    wrong
}

#[test]
fn kept_packs_answer_as_they_did() {
    let wrong = other_answers(&folder());
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn packs_built_from_the_kept_sources_answer_as_the_kept_ones_do() {
    let Some(built) = std::env::var_os("THOU_COMPAT") else {
        println!("skipped: THOU_COMPAT does not say where tests/compat/build.sh has built them");
        return;
    };
    let wrong = other_answers(Path::new(&built));
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_kept_pack_is_asked_and_is_the_file_that_was_kept() {
    let mut there: Vec<String> = std::fs::read_dir(folder())
        .unwrap()
        .map(|e| e.unwrap().file_name().into_string().unwrap())
        .filter(|n| n.ends_with(".wasm"))
        .collect();
    there.sort();
    assert_eq!(there, KEPT.map(|(pack, _)| pack));
    let sums = std::fs::read_to_string(folder().join("sha256")).unwrap();
    let sum = |name: &String| format!("{}  {name}\n", hex(&std::fs::read(folder().join(name)).unwrap()));
    assert_eq!(there.iter().map(sum).collect::<String>(), sums);
}

/// The answers show what the pack was made to show: no field of the contract is left out.
#[test]
fn the_kept_answers_have_every_field() {
    let said = std::fs::read_to_string(folder().join("every-field.answers.txt")).unwrap();
    #[rustfmt::skip]
    let words = [
        "never-below ", " low ", " aim ", " high ", " never-above ", "below hold, above hold", "below warn, above note",
        "below note, above warn", ", reuse,", "place 3", "everywhere", "fact 1", "text 1", ": hold, ", ": warn, ",
        ": note, ", ": answered", ": clear", "not-applicable, reason 0", "cannot-say, reason 1", "cannot-say, reason 2",
        "meter 4", "step of rule 5, place 2", "step of rule 4, everywhere",
    ];
    for word in words {
        assert!(said.contains(word), "no \"{word}\" in the kept answers");
    }
}

#[test]
fn a_sheet_can_name_a_kept_pack_its_use_its_fields_and_its_default() {
    let mut sheet = thou_tests::value("sample-builds/bracket.json");
    sheet["intent"]["use"] = "marine".into();
    sheet["looser"] = serde_json::json!([{ "rule": "clearances/second-gap", "instead": "every-field/windows",
        "reason": "to see that it stands in", "by": "R. L." }]);
    sheet["extra"] = serde_json::json!({ "every-field": { "state": "cannot-say", "yes": true } });
    let keep = tempfile::tempdir().unwrap();
    for entry in std::fs::read_dir(thou_tests::file("sample-builds")).unwrap().flatten() {
        if entry.path().extension().is_some_and(|e| e == "csv") {
            std::fs::copy(entry.path(), keep.path().join(entry.file_name())).unwrap();
        }
    }
    let file = keep.path().join("sheet.json").display().to_string();
    std::fs::write(&file, sheet.to_string()).unwrap();
    let pack = folder().join("every-field.wasm").display().to_string();
    let run = thou_tests::thou(&["check", &file, "--pack", &pack, "--format", "json"]);
    assert_eq!(run.err, "");
    let check: Value = serde_json::from_str(&run.out).unwrap();
    assert_eq!(check["faults"], serde_json::json!([]));
    let items = check["items"].as_array().unwrap();
    let of = |rule: &str| items.iter().filter(|i| i["rule"] == rule).count();
    assert_eq!(of("every-field/state"), 1, "{}", run.out);
    // of the two facts that the superseded rule judges, every-field stands in for the gap and not for the ratio; where the
    // ring's ends meet stays
    let meets = |i: &&Value| i["limits"]["low"].is_null() && i["limits"]["high"].is_null();
    let second = || items.iter().filter(|i| i["rule"] == "clearances/second-gap");
    let works: Vec<&Value> = second().filter(|i| !meets(i)).collect();
    assert!(!works.is_empty() && works.iter().all(|i| i["fact"] == "ring.gap.second-over-top"), "{works:?}");
    assert!(second().any(|i| i["fact"] == "ring.second.gap" && meets(&i)), "nothing is left of what physics holds");
    assert!(of("every-field/windows") >= 16, "{}", of("every-field/windows"));
    assert!(run.out.contains("100 psi"), "the default is told");
}

/// The contract's own text, held for good: a record with one more field refuses every pack that was built before.
#[test]
fn the_contract_is_frozen() {
    let text = std::fs::read_to_string(thou_tests::file("schemas/rules-1.0.wit")).unwrap().replace("\r\n", "\n");
    assert_eq!(
        hex(text.as_bytes()),
        "5e613f39aec89c370a3c01ecf85bd350f0722cd6395e1cbfea7f7be59473485e",
        "rules-1.0.wit is frozen"
    );
}

fn hex(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().map(|b| format!("{b:02x}")).collect()
}
