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

/// What models give of an engine beside those of a known good one.
#[test]
fn the_check_of_a_sheet_that_names_a_good_engine() {
    let page = loud("sample-builds/street-roller.json");
    assert!(page.lines().all(|l| l.chars().count() <= 80), "{page}");
    assert_snapshot!("check-street-roller", page);
}

/// The finish by a profile, with peaks that the brush has not taken.
#[test]
fn the_check_of_a_finish_by_its_profile() {
    assert_snapshot!("check-11-peaks-left", loud("sample-builds/planted/11-peaks-left.json"));
}

/// Every way in which the good engine, or the profile, can be no file to read.
#[test]
fn errors_of_the_files_that_a_sheet_names() {
    let folder = tempfile::tempdir().unwrap();
    let write = |name: &str, text: &str| {
        let path = folder.path().join(name);
        std::fs::write(&path, text).unwrap();
        path.display().to_string()
    };
    let starter = thou(&["new", "street"]).out;
    let naming = |like: &str| starter.replacen("\"name\":", &format!("\"like\": \"{like}\", \"name\":"), 1);
    let profile = |file: &str| {
        starter.replacen("\"readings\": {", &format!("\"finish\": {{ \"profile\": \"{file}\" }}, \"readings\": {{"), 1)
    };
    assert_ne!(naming("x.json"), starter);
    assert_ne!(profile("x.csv"), starter);
    write("0522.json", &starter);
    write("broken.json", &starter.replacen("\"bore\": null", "\"bore\": 4.155", 1));
    write("words.csv", "position [mm],height [µm]\n0.000,0.12\n0.002,rough\n");
    write("short.csv", "height [µm]\n0.12\n0.08\n");
    write("unit.csv", "# by A.R.\nposition [mm],height [mm]\n0.000,0.12\n");
    write("comma.csv", "height [µm]\n0,12\n");
    let depth: String = (0..300).map(|n| format!("{:.3},0.1\n", f64::from(n) * 0.002)).collect();
    write("ends-soon.csv", &format!("position [mm],height [µm]\n{depth}"));
    let asked = [
        ("missing.json", naming("0523.json")),
        ("elsewhere.json", naming("../0522.json")),
        ("itself.json", naming("itself.json")),
        ("first.json", naming("second.json")),
        ("second.json", naming("first.json")),
        ("of-broken.json", naming("broken.json")),
        ("no-profile.json", profile("bore.csv")),
        ("far-profile.json", profile("../bore.csv")),
        ("of-words.json", profile("words.csv")),
        ("of-short.json", profile("short.csv")),
        ("of-unit.json", profile("unit.csv")),
        ("of-comma.json", profile("comma.csv")),
        ("of-ends-soon.json", profile("ends-soon.csv")),
    ];
    let paths: Vec<String> = asked.iter().map(|(name, text)| write(name, text)).collect();
    let mut page = String::new();
    for path in &paths {
        let run = thou(&["check", path]);
        assert_eq!((run.exit, run.out.as_str()), (2, ""), "{path}");
        page.push_str(&format!("$ thou check {path}\n{}\n", run.err));
    }
    assert_snapshot!("errors-of-files", page.replace(&format!("{}/", folder.path().display()), ""));
    // a name without a file compares nothing, and is no fault
    let named = write("named.json", &naming("0522"));
    let run = thou(&["check", &named]);
    assert!(run.err.is_empty() && !run.out.contains("BESIDE"), "{}{}", run.out, run.err);
}

/// A card of one figure, against a limit of ours: it is told where it stands.
#[test]
fn limits_that_cross_point_at_the_card() {
    let folder = tempfile::tempdir().unwrap();
    let text = std::fs::read_to_string(thou_tests::file("sample-builds/bracket.json")).unwrap();
    let card = "\"seat-load\": \"260 lbf\"";
    let text = text.replacen(card, &format!("{card}, \"bind-margin\": \"150 thou\""), 1);
    let line = 1 + text.lines().position(|l| l.contains("bind-margin")).unwrap();
    let path = folder.path().join("0417.json");
    std::fs::write(&path, text).unwrap();
    let rows = "bracket-main-journals.csv";
    std::fs::copy(thou_tests::file(&format!("sample-builds/{rows}")), folder.path().join(rows)).unwrap();
    let path = path.display().to_string();
    let page = thou(&["check", &path]).out.replace(&format!("{}/", folder.path().display()), "");
    let flat = page.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains("1 cannot say") && flat.contains(thou::verdict::CROSSED), "{page}");
    assert!(flat.contains(&format!("springs.card.bind-margin, 0417.json:{line}")), "{page}");
    assert_eq!(thou::verdict::CROSSED, thou_sdk::CROSSED);
    let json: serde_json::Value = serde_json::from_str(&thou(&["check", &path, "--format", "json"]).out).unwrap();
    let item = json["items"].as_array().unwrap().iter().find(|i| i["rule"] == "clearances/coil-bind").unwrap();
    assert_eq!((&item["verdict"], &item["at"]["line"]), (&"cannot-say".into(), &line.into()));
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
