//! How the faults of a sheet are shown: their order, their number, the line with a caret, and what is no sheet at all.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::path::Path;
use thou::sheet::Sheet;

/// A small sheet with nothing wrong.
const GOOD: &str = include_str!("sheets/0417.json");

fn parse(text: &str) -> Result<Sheet, String> {
    Sheet::parse("0417.json", text, Path::new("")).map_err(|faults| faults.to_string())
}

#[test]
fn several_faults_are_told_in_the_order_of_the_file() {
    let text = GOOD.replace("\"4.155 in\"", "4.155").replace("\"v\"", "\"w\"").replace("\"6 thou\"", "\"6 psi\"");
    assert_eq!(
        parse(&text).unwrap_err(),
        r#"0417.json:3:57: engine.layout cannot be "w"
    it can be single, inline, v, flat
0417.json:9:47: block.bore is a length: write it with its unit, like "4.1550 in"
0417.json:22:28: readings.end-play.value is a length; 'psi' is for a pressure
    write in, thou, tenths, mm, µm, um
"#
    );
}

#[test]
fn the_first_twenty_faults_are_told_and_the_rest_counted() {
    let rows: Vec<String> = (10..40).map(|n| format!("\"{n}\": \"6 thou\"")).collect();
    let text = GOOD.replace("\"1I\": \"18 thou\", \"1E\": \"20 thou\"", &rows.join(", "));
    let faults = Sheet::parse("0417.json", &text, Path::new("")).err().unwrap();
    assert_eq!((faults.faults().len(), faults.left_off()), (20, 10));
    assert!(faults.to_string().ends_with("\nand 10 more\n"));
    assert!(faults.render(false).ends_with("30 faults, the first 20 are shown: nothing was checked\n"));
}

#[test]
fn a_fault_is_shown_with_its_line_and_a_caret() {
    let text = GOOD.replace("7400 rpm", "6400 rpm");
    let faults = Sheet::parse("0417.json", &text, Path::new("")).err().unwrap();
    assert_eq!(
        faults.render(false),
        r#"error: intent.limiter is below intent.shift-speed
 --> 0417.json:4:67
  |
4 |   "intent": { "use": "bracket", "redline": "7200 rpm", "limiter": "6400 rpm", "shift-speed": "7000 rpm" },
  |                                                                   ^^^^^^^^^^                 ---------- the shift
    the engine would never reach its shift: are the two swapped?

1 fault: nothing was checked
"#
    );
    assert!(faults.render(true).contains("\u{1b}["));
}

#[test]
fn two_lines_that_contradict_are_both_shown() {
    let text = GOOD.replace("\"bore\": \"4.155 in\",", "\"bore\": \"4.155 in\",\n    \"bore\": \"4.125 in\",");
    let faults = Sheet::parse("0417.json", &text, Path::new("")).err().unwrap();
    assert_eq!(
        faults.render(false),
        r#"error: "bore" is written twice, on lines 9 and 10
  --> 0417.json:10:5
   |
 9 |   "block": { "material": "grey-iron", "bore": "4.155 in",
   |                                       ------ first here
10 |     "bore": "4.125 in", "deck-height": "9.000 in", "honed-with-plate": true },
   |     ^^^^^^
    keep one of them: which one counts, nobody can tell

1 fault: nothing was checked
"#
    );
}

#[test]
fn what_is_no_sheet_at_all_is_told_at_once() {
    let whole = |text: &str| parse(text).unwrap_err();
    assert_eq!(whole(""), "0417.json: the sheet is empty\n    thou new writes one to start from\n");
    assert_eq!(whole(" \n\n"), "0417.json:1:1: the sheet is empty\n    thou new writes one to start from\n");
    assert_eq!(
        whole(&"[".repeat(100_000_000)),
        "0417.json: the file has 96 MB: a sheet is read up to 16 MB\n    is this a build sheet? A full one has less than 1 MB\n"
    );
    assert_eq!(
        whole(&"[".repeat(1_000_000)),
        "0417.json:1:65: brackets are nested more than 64 deep\n    a sheet needs fewer than ten: is a bracket not closed?\n"
    );
    assert_eq!(
        whole(&format!("[{}0]", "0,".repeat(300_000))),
        "0417.json:1:400001: there are more than 200000 values in this file\n    is this a build sheet? A full one has less than 1 MB\n"
    );
    assert_eq!(whole("[]"), "0417.json:1:1: the sheet is a list, and should be a section: write { … }\n");
    assert_eq!(
        whole("{}"),
        r#"0417.json:1:1: engine is missing
    write "engine": { … } (what engine this is, and how its places are numbered: a four-stroke piston engine with spark ignition, no two-stroke, diesel or rotary)
0417.json:1:1: format is missing
    write "format": "thou-build-1" (which form of sheet this is)
0417.json:1:1: intent is missing
    write "intent": { … } (what the owner wants to do with the engine)
"#
    );
}
