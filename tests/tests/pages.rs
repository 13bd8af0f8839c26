//! The pages, letter by letter, as they come off the printer. The goes of a planted sheet are left out: they are the
//! bracket engine's, which `right/03` prints.
//!
//! A page that changes on purpose: `INSTA_UPDATE=always cargo test --release -p thou-tests --test pages`, then read the
//! difference as its reader would.
#![allow(clippy::unwrap_used)]

use insta::assert_snapshot;
use thou_tests::{samples, thou};

/// What comes before the goes.
fn loud(sheet: &str) -> String {
    let page = thou(&["check", sheet]).out;
    page.split("\nGO: ").next().unwrap().to_owned()
}

#[test]
fn checks_of_planted_mistakes() {
    assert_snapshot!("check-01-aluminium-rods", loud("sample-builds/planted/01-aluminium-rods.json"));
    assert_snapshot!("check-03-nitrous", loud("sample-builds/planted/03-nitrous.json"));
    assert_snapshot!("check-05-decimal-and-unit", loud("sample-builds/planted/05-decimal-and-unit.json"));
    assert_snapshot!("check-08-gaps-before-hone", loud("sample-builds/planted/08-gaps-before-hone.json"));
}

#[test]
fn the_check_of_a_sheet_that_looks_wrong() {
    assert_snapshot!("check-right-03-no-plate", thou(&["check", "sample-builds/right/03-no-plate.json"]).out);
}

/// Accepted deviations at the head.
#[test]
fn the_check_of_a_sheet_with_accepted_deviations() {
    assert_snapshot!("check-right-05-thin-oil", loud("sample-builds/right/05-thin-oil.json"));
}

#[test]
fn the_first_pages_of_a_spec() {
    let page = thou(&["spec", "sample-builds/bracket.json"]).out;
    assert_snapshot!("spec-bracket", page.split("\nRODS AND PISTONS\n").next().unwrap());
}

#[test]
fn a_plan() {
    assert_snapshot!("plan-used-at-freshen", thou(&["plan", "sample-builds/used-at-freshen.json"]).out);
}

#[test]
fn what_explain_says() {
    assert_snapshot!("explain-top-gap", thou(&["explain", "clearances/top-gap"]).out);
    assert_snapshot!("explain-fuel-supply", thou(&["explain", "usage-class/fuel-supply"]).out);
    assert_snapshot!("explain-springs", thou(&["explain", "freshen/springs"]).out);
}

#[test]
fn what_facts_says() {
    let of = |fact: &str| thou(&["facts", fact, "--sheet", "sample-builds/bracket.json"]).out;
    assert_snapshot!("facts-compression", of("compression"));
    assert_snapshot!("facts-piston-to-wall", of("piston-to-wall"));
    assert_snapshot!("facts-seat-vacuum", of("seat.vacuum"));
}

#[test]
fn errors_of_the_command_line() {
    let folder = tempfile::tempdir().unwrap();
    let write = |name: &str, text: &str| {
        let path = folder.path().join(name);
        std::fs::write(&path, text).unwrap();
        path.display().to_string()
    };
    let starter = thou(&["new", "bracket"]).out;
    let unit = write("no-unit.json", &starter.replacen("\"bore\": null", "\"bore\": 4.155", 1));
    let usage = write("no-use.json", &starter.replacen("\"bracket\"", "\"braket\"", 1));
    let comma = write("comma.json", &starter.replacen("\"power\": null,", "\"power\": null", 1));
    let field = write("field.json", &starter.replacen("\"redline\"", "\"readline\"", 1));
    let missing = folder.path().join("missing.json").display().to_string();
    let asked: [&[&str]; 13] = [
        &[],
        &["chek", "sheet.json"],
        &["check"],
        &["check", &missing],
        &["check", &unit],
        &["check", &usage],
        &["check", &comma],
        &["check", &field],
        &["new", "bracket", "--cylinders", "17"],
        &["new", "bracket", "--layout", "w"],
        &["explain", "top-gaps"],
        &["facts", "piston-to-wal"],
        &["check", "sample-builds/bracket.json", "--units", "cm"],
    ];
    let mut page = String::new();
    for args in asked {
        let run = thou(args);
        assert_eq!(run.exit, 2, "{args:?}");
        page.push_str(&format!("$ thou {}\n{}{}\n", args.join(" "), run.out, run.err));
    }
    let page = page.replace(&format!("{}/", folder.path().display()), "");
    assert_snapshot!("errors", page);
}

/// No page of any sample shows a template's placeholder.
#[test]
fn no_placeholder_is_left_unfilled() {
    for folder in ["sample-builds", "sample-builds/planted", "sample-builds/right"] {
        for sheet in samples(folder) {
            for page in ["check", "spec", "plan"] {
                let text = thou(&[page, &sheet]).out;
                let left: Vec<&str> = text.lines().filter(|l| l.contains('{') && !l.contains(" | ")).collect();
                assert!(left.is_empty(), "{page} {sheet}: {left:#?}");
            }
        }
    }
}
