//! What README.md and the schemas promise: its commands run as written, and what is printed for programs is what the
//! schemas say.
#![allow(clippy::unwrap_used, clippy::panic)]

use serde_json::Value;
use std::path::Path;
use thou_tests::{Run, builtin, file, samples, thou, value};

fn readme() -> String {
    std::fs::read_to_string(file("README.md")).unwrap()
}

/// Every line of an indented block that is not inside a fence.
fn commands() -> Vec<String> {
    let text = readme();
    let prose = text.split("```").step_by(2);
    prose.flat_map(str::lines).filter_map(|l| l.strip_prefix("    ")).map(|l| l.trim_end().to_owned()).collect()
}

/// Runs a command of the README in a folder; nothing where it is cargo's own business.
fn run(line: &str, folder: &Path) -> Option<Run> {
    let line = line.replacen("cargo run --release -- ", "thou ", 1);
    if ["cargo test --release", "cargo install --path host"].contains(&line.as_str()) {
        return None;
    }
    let words = line.strip_prefix("thou ").unwrap_or_else(|| panic!("a command that nobody tries: {line}"));
    let (words, to) = words.split_once(" > ").map_or((words, None), |(w, to)| (w, Some(to)));
    let args: Vec<String> = words
        .split(' ')
        // as the shell reads it
        .fold(Vec::<String>::new(), |mut words, w| {
            match words.last_mut().filter(|last| last.matches('"').count() == 1) {
                Some(last) => *last = format!("{last} {w}"),
                None => words.push(w.to_owned()),
            }
            words
        })
        .iter()
        .map(|w| w.replace('"', ""))
        .map(|w| if w == "my-engine.json" { folder.join(w).display().to_string() } else { w })
        .collect();
    let run = thou(&args.iter().map(String::as_str).collect::<Vec<_>>());
    if let Some(to) = to {
        std::fs::write(folder.join(to), &run.out).unwrap();
    }
    Some(run)
}

#[test]
fn every_command_does_what_is_promised() {
    let folder = tempfile::tempdir().unwrap();
    let mut ran = 0;
    for line in commands() {
        let Some(run) = run(&line, folder.path()) else { continue };
        // the starter sheet holds nothing yet, and holds that nobody has read are open
        let promised = if line == "thou check my-engine.json" { 4 } else { 0 };
        assert_eq!(run.exit, promised, "{line}\n{}", run.err);
        assert!(run.err.is_empty() && (!run.out.is_empty() || line.contains('>')), "{line}\n{}", run.err);
        ran += 1;
    }
    assert!(ran >= 8, "{ran} commands");
}

/// The block of JSON is a set of readings that the program takes.
#[test]
fn the_readings_shown_are_readings() {
    let text = readme();
    let block = text.split("```json\n").nth(1).unwrap().split("```").next().unwrap();
    let readings: Value = serde_json::from_str(&format!("{{{block}}}")).unwrap();
    let folder = tempfile::tempdir().unwrap();
    let mut sheet: Value = serde_json::from_str(&thou(&["new", "bracket", "--cylinders", "8"]).out).unwrap();
    sheet["readings"] = readings;
    let path = folder.path().join("my-engine.json");
    std::fs::write(&path, sheet.to_string()).unwrap();
    let run = thou(&["facts", "bore.diameter", "--sheet", &path.display().to_string()]);
    assert_eq!(run.exit, 0, "{}", run.err);
    assert!(run.out.contains("1: 4.1549"), "{}", run.out);
}

/// The verdicts that the table lists are those that the program has, but for the two that a check only counts.
#[test]
fn the_words_of_the_table_are_the_words_of_the_program() {
    let text = readme();
    for state in thou::verdict::State::ALL {
        let counted = matches!(state, thou::verdict::State::CannotSay | thou::verdict::State::DoesNotApply);
        assert_eq!(text.contains(&format!("| `{}` |", state.word())), !counted, "{}", state.word());
    }
}

#[test]
fn what_is_printed_for_programs_is_what_the_schema_says() {
    let schema = jsonschema::validator_for(&value("schemas/report.schema.json")).unwrap();
    for folder in ["sample-builds", "sample-builds/planted", "sample-builds/right"] {
        for sheet in samples(folder) {
            for page in ["check", "spec", "plan"] {
                for units in ["in", "mm"] {
                    let text = thou(&[page, &sheet, "--format", "json", "--units", units]).out;
                    let report: Value = serde_json::from_str(&text).unwrap();
                    let faults: Vec<String> =
                        schema.iter_errors(&report).take(3).map(|e| format!("{} {e}", e.instance_path())).collect();
                    assert!(faults.is_empty(), "{page} {sheet}: {faults:#?}");
                }
            }
        }
    }
}

#[test]
fn every_built_in_manifest_is_what_the_schema_says() {
    let schema = jsonschema::validator_for(&value("schemas/pack.schema.json")).unwrap();
    let packs = builtin();
    assert_eq!(packs.len(), 3);
    for pack in packs {
        let manifest = serde_json::to_value(&pack.manifest).unwrap();
        let faults: Vec<String> = schema.iter_errors(&manifest).take(3).map(|e| e.to_string()).collect();
        assert!(faults.is_empty(), "{}: {faults:#?}", pack.manifest.id);
    }
}
