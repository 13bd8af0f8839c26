//! Holds a pack to its cases, whoever asks it: the kit natively, the host in the sandbox.
//!
//! A rule has one file of cases: `src/**/<rule>.cases.toml` beside its source, or `cases/<rule>.cases.toml` beside a pack
//! that has no folder of sources. A case is what the rule is given and what it must come to:
//!
//! ```toml
//! [given]                                  # what every case of this file is given
//! use = "bracket"
//!
//! [[case]]
//! name = "2618 in a bore of 4 in"
//! given = { "bore.nominal" = "4 in", "piston.alloy" = "2618" }
//! window = { low = "1.0e-3 * {bore.nominal}", high = "1.35e-3 * {bore.nominal}", aim = "({low} + {high}) / 2" }
//!
//! [[case]]
//! name = "a thick coating"
//! given = { "bore.nominal" = "4 in", "piston.alloy" = "2618", "piston.coating" = "thick" }
//! cannot-say = "only the piston's card"
//! ```
//!
//! - `given`: text with a unit, a word of a choice, true or false, a number for a count or a ratio, or a list of them, one
//!   a place, with `"not read"` for a place that nobody has read.
//! - What it comes to is one of `window`, `finding`, `service` or `step`, as the rule's kind is, with a row in `{ }` or a
//!   list of rows in the order of the answer; `go = true` where it looks and has nothing to say; `does-not-apply` and
//!   `cannot-say` with words of the reason.
//! - Every number is written as arithmetic over `{facts}` and numbers with their unit, from the rule's source and not from
//!   what the rule gives: see [`arithmetic`](self#arithmetic).
//! - Every limit, aim, argument, place and text that the rule gives has to be said, and nothing else.
//! - Of a service, `[work]` says its `hours`, its `shape` where it has one, and `opens`, `loses` and `action` where they are to
//!   be held too.
//!
//! | row of | columns |
//! |---|---|
//! | window | `never-below low aim high never-above`; `below` and `above` (`look` unless said): what a reading past `low` or `high` comes to, after the basis has capped it, past a never-limit it is always `no-go`; `reuse = true` for a wear limit; `judges` where the rule judges several facts; `place`, `says`, `args` |
//! | finding | `level`: `no-go`, `look` or `note`; `place`, `says`, `args` |
//! | service | its meter with low, nominal and high: `passes = [200, 300, 400]`; `place`, `says`, `args` |
//! | step | `place`, `says`, `args` |
//!
//! `says` is words of the text, enough to tell it from the rule's others; where the rule has one text it can be left out.
//! `args` are the arguments that the text announces, by name. `place` is counted from 1. Beside every expected limit the
//! runner itself puts a reading on each side, half a percent off, and holds what the judge makes of it to the case.
//!
//! # Arithmetic
//!
//! Numbers with any unit that thou knows; `{fact}` that is given (`{fact[2]}` the second place of several), `{low}` and the
//! other limits of the same row, `{argument}` of the same row; `+ - * / ^`, brackets, `min max abs sqrt floor ceil round`,
//! the last three also to a step: `floor(12345, 100)`. Dimensions are checked. A number is the same to one part in 10⁹.
#![forbid(unsafe_code)]

mod arithmetic;
mod around;
mod case;
mod file;
mod given;
mod hold;

pub use around::{NearReading, around};
pub use case::Case;
pub use file::{CaseValue, Row};
pub use given::{GivenFacts, NOT_READ, meter_unit};

use file::Slip;
use hold::Holder;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use thou_contract::answer::CheckedAnswer;
use thou_contract::{Kind, Manifest, Rule};

/// What a file of cases ends with.
pub const CASES: &str = ".cases.toml";

/// Who answers a pack's cases.
pub trait Asked {
    /// The pack's answer to this one rule.
    ///
    /// # Errors
    /// What was wrong with the pack, in words.
    fn ask(&mut self, case: &Case) -> Result<CheckedAnswer, String>;

    /// The kind of a fact that is judged, where it is known: without it, a limit's dimension is not checked.
    fn kind(&self, _fact: &str) -> Option<Kind> {
        None
    }

    /// What else is wrong with these answers to all cases of one rule, which all hold; each fault names its file.
    fn also(&mut self, _cases: &[(Case, CheckedAnswer)]) -> Vec<String> {
        Vec::new()
    }
}

/// What became of a pack's cases.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Report {
    /// Everything that is wrong, in the order of the rules and their cases.
    pub faults: Vec<String>,
    /// How many cases were asked.
    pub cases: usize,
    /// How many rules have cases.
    pub rules: usize,
}

/// Asks every case of a pack and holds the answers to it. `folder` is that of the pack. Each fault names the file, as this
/// folder's path has it, the line, the rule and the case.
pub fn check(manifest: &Manifest, folder: &Path, asked: &mut impl Asked) -> Report {
    let mut report = Report::default();
    let mut files = files(folder);
    for (index, rule) in (0u32..).zip(&manifest.rules) {
        let mut own = files.remove(&rule.id).unwrap_or_default().into_iter();
        let Some(file) = own.next() else {
            let place = if folder.join("src").is_dir() { "src" } else { "cases" };
            let wanted = folder.join(place).join(format!("{}{CASES}", rule.id));
            report.faults.push(format!(
                "{}: rule {} has no cases: write them in this file{}",
                wanted.display(),
                rule.id,
                if place == "src" { ", or beside the rule's source" } else { "" }
            ));
            continue;
        };
        for twin in own {
            let fault = format!("{}: rule {} has its cases in {}", twin.display(), rule.id, file.display());
            report.faults.push(fault + ": a rule has one file of them");
        }
        report.rules += 1;
        one_rule(manifest, index, rule, &file, asked, &mut report);
    }
    for (rule, all) in files {
        report.faults.extend(all.iter().map(|f| format!("{}: the pack has no rule {rule}", f.display())));
    }
    report
}

fn one_rule(manifest: &Manifest, index: u32, rule: &Rule, file: &Path, asked: &mut impl Asked, report: &mut Report) {
    let (cases, mut slips) = case::read(manifest, index, rule, file);
    report.cases += cases.len();
    let (mut said, mut answers) = (BTreeSet::new(), Vec::new());
    for case in cases {
        let answer = match asked.ask(&case) {
            Ok(answer) => answer,
            Err(fault) => {
                slips.push(Slip::new(case.line, format!("case \"{}\": {fault}", case.name)));
                continue;
            }
        };
        let kind = |fact: &str| asked.kind(fact);
        let holder = Holder { manifest, rule, case: &case, kind: &kind, said: &mut said, slips: Vec::new() };
        let found = holder.hold(&answer);
        if found.is_empty() {
            answers.push((case, answer));
        } else {
            slips.extend(found.into_iter().map(|s| Slip::new(s.line, format!("case \"{}\": {}", case.name, s.words))));
        }
    }
    if slips.is_empty() {
        // every text of a rule is seen by somebody before its user
        for (at, text) in (0u32..).zip(&rule.texts).filter(|(at, _)| !said.contains(at)) {
            let words =
                format!("no case comes to its text {} (\"{}\"): add one, or take the text out", at + 1, text.words);
            slips.push(Slip::new(1, words));
        }
    }
    slips.sort_by_key(|s| s.line);
    let at = file.display();
    report.faults.extend(slips.iter().map(|s| format!("{at}:{}: rule {}, {}", s.line, rule.id, s.words)));
    // what is read of a part of the cases is no text to hold the whole to
    if slips.is_empty() {
        report.faults.extend(asked.also(&answers));
    }
}

/// Every file of cases under a pack's folder, by its rule.
fn files(folder: &Path) -> BTreeMap<String, Vec<PathBuf>> {
    let mut found = BTreeMap::new();
    for part in ["src", "cases"] {
        list(&folder.join(part), &mut found);
    }
    for all in found.values_mut() {
        all.sort();
    }
    found
}

/// Whether a pack's folder has any file of cases.
#[must_use]
pub fn has_cases(folder: &Path) -> bool {
    !files(folder).is_empty()
}

fn list(folder: &Path, found: &mut BTreeMap<String, Vec<PathBuf>>) {
    for entry in std::fs::read_dir(folder).into_iter().flatten().flatten() {
        let path = entry.path();
        if path.is_dir() {
            list(&path, found);
        } else if let Some(rule) = path.file_name().and_then(|n| n.to_str()).and_then(|n| n.strip_suffix(CASES)) {
            // a source's name has no dashes
            found.entry(rule.replace('_', "-")).or_default().push(path);
        }
    }
}

#[cfg(test)]
mod tests;
