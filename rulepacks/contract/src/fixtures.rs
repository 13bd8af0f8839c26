//! Holds a pack to its fixtures, whoever asks it: the kit natively, the host in the sandbox.
//!
//! A fixture is a file `fixtures/<rule>/<verdict>-<what it shows>.json` beside the pack. The verdict in the name is what
//! the rule must come to: `go` (a step that is given, too), `note`, `look`, `no-go`, `does-not-apply`, `cannot-say` or
//! `service`.
//!
//! ```json
//! { "facts":   { "use": "bracket", "bore.nominal": "4.155 in", "piston.alloy": "2618" },
//!   "reading": { "piston-to-wall": "4.2 thou" },
//!   "says":    "scuffs" }
//! ```
//! `facts` is what the rule is given: text with a unit, a word of a choice, true or false, a number for a count or a
//! ratio, or a list of them, one a place, with null for a hole. `reading` is what it judges. `says`, if there, must
//! stand in the words or the reason. A service has `lives` instead of `reading`: `{ "low": 40, "nominal": 60,
//! "high": 100 }`, whole numbers of its meter, or a list of such. `schemas/fixture.schema.json` has every field.
//!
//! Beside that, every limit that any fixture of a window rule brings out must have a reading within 1 % on each side.

mod given;
mod judged;

pub use given::{Facts, given, meter_unit, readings};

use crate::answer::Answer;
use crate::{Kind, Manifest, Rule, RuleKind};
use judged::{Came, Sides, came_to};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// The verdicts that a fixture's name can start with; the longer of two that start alike first.
pub const VERDICTS: [&str; 7] = ["does-not-apply", "cannot-say", "no-go", "service", "note", "look", "go"];

/// What a fixture may have in it.
const KEYS: [&str; 9] = ["$schema", "about", "facts", "reading", "says", "lives", "aims", "args", "limits"];

/// One fixture, read.
#[derive(Debug, Clone)]
pub struct Fixture {
    /// The rule's index in the manifest.
    pub rule: u32,
    /// Its file.
    pub file: PathBuf,
    /// The verdict in the file's name.
    pub wanted: &'static str,
    /// What stands in it.
    pub value: Value,
    /// The facts that it gives, as the contract hands them over.
    pub facts: Facts,
}

/// Who answers a pack's fixtures.
pub trait Asked {
    /// The pack's answer to this one rule.
    ///
    /// # Errors
    /// What was wrong with the pack, in words.
    fn ask(&mut self, fixture: &Fixture) -> Result<Answer, String>;

    /// The kind of a fact that is read; where it is not known, the unit of the reading tells it.
    fn kind(&self, _fact: &str) -> Option<Kind> {
        None
    }

    /// What else is wrong with this answer.
    fn also(&mut self, _fixture: &Fixture, _answer: &Answer) -> Vec<String> {
        Vec::new()
    }
}

/// What became of a pack's fixtures.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Report {
    /// Everything that is wrong, in the order of the rules and the files' names.
    pub faults: Vec<String>,
    /// How many fixtures were asked.
    pub fixtures: usize,
    /// How many rules have fixtures.
    pub rules: usize,
}

/// Asks every fixture in this folder and holds the answers to it. Each fault names the file, as this folder's path has
/// it, and the rule.
pub fn check(manifest: &Manifest, folder: &Path, asked: &mut impl Asked) -> Report {
    let mut report = Report::default();
    let mut folders = subfolders(folder);
    for (index, rule) in (0u32..).zip(&manifest.rules) {
        folders.remove(&rule.id);
        let here = folder.join(&rule.id);
        let files = json_files(&here);
        if files.is_empty() {
            report.faults.push(format!("{}: rule {} has no fixtures", here.display(), rule.id));
            continue;
        }
        report.rules += 1;
        let mut sides = BTreeMap::new();
        for file in files {
            report.fixtures += 1;
            let faults = match read(manifest, rule, index, &file) {
                Ok(fixture) => one(manifest, rule, &fixture, asked, &mut sides),
                Err(fault) => vec![fault],
            };
            let at = file.display();
            report.faults.extend(faults.into_iter().map(|fault| format!("{at}: rule {}: {fault}", rule.id)));
        }
        for (limit, near) in sides {
            let lacks = near.lacks().map(|side| {
                format!("{}: rule {}: no fixture reads within 1 % {side} {limit}", here.display(), rule.id)
            });
            report.faults.extend(lacks);
        }
    }
    let strays = folders.into_iter().map(|f| format!("{}: the pack has no rule {f}", folder.join(&f).display()));
    report.faults.extend(strays);
    report
}

/// Reads one fixture.
///
/// # Errors
/// What is wrong with it, in words that name neither the file nor the rule.
pub fn read(manifest: &Manifest, rule: &Rule, index: u32, file: &Path) -> Result<Fixture, String> {
    let text = std::fs::read_to_string(file).map_err(|e| e.to_string())?;
    let value: Value = serde_json::from_str(&text).map_err(|e| format!("it is not JSON: {e}"))?;
    let Some(fields) = value.as_object() else { return Err("it is not an object in { }".to_owned()) };
    if let Some(unknown) = fields.keys().find(|k| !KEYS.contains(&k.as_str())) {
        return Err(format!("\"{unknown}\" is no field of a fixture; these are: {}", KEYS.join(", ")));
    }
    let name = file.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
    let starts = |v: &&str| name.strip_prefix(*v).is_some_and(|rest| rest.starts_with('-') || rest == ".json");
    let Some(wanted) = VERDICTS.into_iter().find(|v| starts(v)) else {
        return Err(format!("its name starts with no verdict; these are: {}", VERDICTS.join(", ")));
    };
    let facts = given(manifest, &value)?;
    for need in &rule.needs {
        let at = manifest.facts.iter().position(|f| f.id == *need);
        if at.is_none_or(|at| facts.of(at).iter().all(|v| v.is_nan())) {
            return Err(format!("the rule is not asked without {need}, and `facts` does not give it"));
        }
    }
    Ok(Fixture { rule: index, file: file.to_owned(), wanted, value, facts })
}

fn one(
    manifest: &Manifest,
    rule: &Rule,
    fixture: &Fixture,
    asked: &mut impl Asked,
    sides: &mut BTreeMap<String, Sides>,
) -> Vec<String> {
    let answer = match asked.ask(fixture) {
        Ok(answer) => answer,
        Err(fault) => return vec![fault],
    };
    let mut said = Vec::new();
    let kind = |fact: &str| asked.kind(fact);
    let came = match came_to(manifest, rule, fixture, &answer, &kind, &mut said, sides) {
        Ok(came) => came,
        Err(fault) => return vec![fault],
    };
    let mut faults = Vec::new();
    if came.verdict != fixture.wanted {
        faults.push(wrong(&came, fixture.wanted));
    }
    if let Some(words) = fixture.value.get("says").and_then(Value::as_str)
        && !said.iter().any(|s| s.contains(words))
    {
        let told = said.iter().map(|s| format!("\"{s}\"")).collect::<Vec<_>>().join(", ");
        let told = if told.is_empty() { "nothing".to_owned() } else { told };
        faults.push(format!("got {told}; wanted it to say \"{words}\""));
    }
    faults.extend(asked.also(fixture, &answer));
    faults
}

fn wrong(came: &Came, wanted: &str) -> String {
    let because = if came.because.is_empty() { String::new() } else { format!(" ({})", came.because) };
    format!("got {}{because}; wanted {wanted}", came.verdict)
}

/// The window of a rule is told by its words and its kind.
fn answers(rule: &Rule) -> &'static str {
    match rule.kind {
        RuleKind::Window => "a window",
        RuleKind::Finding => "a finding",
        RuleKind::Service => "a service",
        RuleKind::Step => "a step",
    }
}

fn json_files(folder: &Path) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten().map(|e| e.path());
    let mut files: Vec<PathBuf> = entries.filter(|p| p.extension().is_some_and(|e| e == "json")).collect();
    files.sort();
    files
}

fn subfolders(folder: &Path) -> BTreeSet<String> {
    let entries = std::fs::read_dir(folder).into_iter().flatten().flatten();
    entries.filter(|e| e.path().is_dir()).map(|e| e.file_name().to_string_lossy().into_owned()).collect()
}

#[cfg(test)]
mod tests;
