//! What the check says that nothing judges makes no difference to it; and every page and format says to whom it defers.
#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::Value;
use std::path::Path;
use thou::facts::{Catalogue, SheetFacts};
use thou::packs::LoadedPack;
use thou::sheet::Sheet;
use thou::verdict::{Verdict, judge};
use thou_tests::thou;

fn verdict(value: &Value, packs: &[LoadedPack]) -> Option<Verdict> {
    let text = serde_json::to_string(value).unwrap();
    let sheet = Sheet::parse("sheet.json", &text, Path::new(&thou_tests::file("sample-builds"))).ok()?;
    let facts = SheetFacts::new(Catalogue::standard(), &sheet);
    Some(judge(&sheet, &facts, packs, None))
}

fn said(verdict: &Verdict) -> Vec<String> {
    verdict.items.iter().map(|i| format!("{} {:?} {:?} {:?} {}", i.rule, i.fact, i.place, i.state, i.words)).collect()
}

#[test]
fn what_nothing_judges_can_be_left_out() {
    let packs = thou_tests::builtin();
    for name in ["bracket", "inline-four", "single"] {
        let good = thou_tests::value(&format!("sample-builds/{name}.json"));
        let was = verdict(&good, &packs).unwrap();
        let named: Vec<&str> = was.unjudged.readings.iter().chain(&was.unjudged.stated).copied().collect();
        assert!(!named.is_empty(), "{name}: everything is judged: take this sheet out of the test");
        let mut tried = 0;
        for path in named {
            let mut value = good.clone();
            let (section, key) = path.rsplit_once('.').unwrap();
            let section = value.pointer_mut(&format!("/{}", section.replace('.', "/"))).unwrap();
            section.as_object_mut().unwrap().remove(key).unwrap();
            // what the schema wants beside it is another matter
            let Some(without) = verdict(&value, &packs) else { continue };
            assert_eq!(said(&without), said(&was), "{name} without {path}");
            tried += 1;
        }
        assert!(tried > 10, "{name}: {tried}");
    }
}

#[test]
fn a_reading_that_no_rule_knows_is_named() {
    let mut sheet = thou_tests::value("sample-builds/bracket.json");
    sheet["readings"]["stem-height"] = serde_json::json!({ "at": { "1I": "1.900 in" } });
    let folder = tempfile::tempdir().unwrap();
    for csv in std::fs::read_dir(thou_tests::file("sample-builds")).unwrap().map(|f| f.unwrap().path()) {
        if csv.extension().is_some_and(|e| e == "csv") {
            std::fs::copy(&csv, folder.path().join(csv.file_name().unwrap())).unwrap();
        }
    }
    let file = folder.path().join("sheet.json");
    std::fs::write(&file, serde_json::to_string(&sheet).unwrap()).unwrap();
    let page = thou(&["check", "--all", file.to_str().unwrap()]).out;
    assert!(page.contains("Recorded, judged by nothing:") && page.contains("stem-height"), "{page}");
}

#[test]
fn every_page_and_format_says_to_whom_it_defers() {
    let sheet = "sample-builds/bracket.json";
    let flat = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
    for args in [
        &["spec", sheet][..],
        &["check", sheet],
        &["plan", sheet],
        &["plan", "--card", sheet],
        &["explain", "clearances/top-gap"],
        &["facts", "compression"],
        &["fields", "rods.length"],
        &["--help"],
        &["spec", sheet, "--format", "json"],
        &["check", sheet, "--format", "json"],
        &["plan", sheet, "--format", "json"],
    ] {
        let run = thou(args);
        assert!(flat(&run.out).contains(thou::report::DEFERS), "{args:?}: {}", run.out);
    }
}
