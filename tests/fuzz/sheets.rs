//! Sheets that were tampered with, through the whole of a check.

use super::{bytes, holds, trees};
use fastrand::Rng;
use serde_json::Value;
use thou::facts::{Catalogue, SheetFacts};
use thou::packs::LoadedPack;
use thou::report::{self, Bench, Paint};
use thou::sheet::Sheet;
use thou::{plan, verdict};
use thou_contract::System;
use thou_tests::{TODAY, file, named, samples};

/// The samples as text.
pub fn real() -> Vec<String> {
    let all = ["sample-builds", "sample-builds/planted", "sample-builds/right"];
    all.iter().flat_map(|f| samples(f)).map(|n| std::fs::read_to_string(file(&n)).unwrap()).collect()
}

/// Changes a sample as a tree or as bytes, and checks it.
pub fn tampered(rng: &mut Rng, real: &[String], packs: &[LoadedPack]) {
    let whole = &real[rng.usize(..real.len())];
    let text = if rng.u8(..4) == 0 {
        String::from_utf8_lossy(&bytes::bent(rng, whole.as_bytes())).into_owned()
    } else {
        let mut tree: Value = serde_json::from_str(whole).unwrap();
        trees::change(rng, &mut tree);
        serde_json::to_string_pretty(&tree).unwrap()
    };
    through(&text, packs, rng.u8(..16) == 0);
}

/// Every page of it, in inches and in millimetres; twice, where that is asked for.
pub fn through(text: &str, packs: &[LoadedPack], twice: bool) {
    let sheet = match Sheet::parse("sheet.json", text, &file("sample-builds")) {
        Ok(sheet) => sheet,
        Err(faults) => {
            let told = faults.render(false);
            holds::plain(&told);
            assert!(!told.trim().is_empty());
            return;
        }
    };
    let once = || {
        let facts = SheetFacts::new(Catalogue::standard(), &sheet);
        pages(&sheet, &facts, packs)
    };
    let first = once();
    if twice {
        assert!(first == once(), "the same sheet, other bytes");
    }
}

/// Check, spec and plan as text and as JSON, each held to what holds for all.
pub fn pages(sheet: &Sheet, facts: &SheetFacts<'_>, packs: &[LoadedPack]) -> Vec<String> {
    let judged = verdict::judge(sheet, facts, packs, Some(TODAY));
    let plan = plan::plan(sheet, &judged, Some(TODAY));
    let names = named(packs);
    let mut all = Vec::new();
    for system in [System::Inch, System::Metric] {
        let bench = Bench { sheet, facts, system, paint: Paint::Plain, like: None };
        for text in [
            report::check::text(&bench, &judged, &names, false),
            report::spec::text(&bench, &judged, &names),
            report::plan::text(&bench, &judged, &plan, &names),
        ] {
            holds::page(&text);
            all.push(text);
        }
        for value in [
            report::json::check(&bench, &judged, &names, judged.exit_code(false)),
            report::json::spec(&bench, &judged, &names),
            report::json::plan(&bench, &judged, &plan, &names),
        ] {
            holds::report(&value);
            all.push(value.to_string());
        }
    }
    all
}
