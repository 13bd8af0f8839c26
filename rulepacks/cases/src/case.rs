//! The cases of one rule, read from its file.

use crate::file::{CORRECT, CaseValue, Row, Slip, parse};
use crate::given::{GivenFacts, facts};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use thou_contract::{METERS, Manifest, Rule, RuleKind};

/// One case of a rule.
#[derive(Debug, Clone)]
pub struct Case {
    /// The rule's index in the manifest.
    pub rule: u32,
    /// Its file.
    pub file: PathBuf,
    /// Where it starts in it, counted from 1.
    pub line: usize,
    /// What it shows.
    pub name: String,
    /// What the rule is given, in words.
    pub given: BTreeMap<String, CaseValue>,
    /// The same as the contract hands it over.
    pub facts: GivenFacts,
    /// What is wanted.
    pub(crate) wanted: Wanted,
}

/// What a case wants of its rule.
#[derive(Debug, Clone)]
pub(crate) enum Wanted {
    /// It looks and has nothing to say.
    Go,
    /// With these words in its reason.
    DoesNotApply(String),
    /// With these words in its reason.
    CannotSay(String),
    /// Windows, findings, services or steps, as the rule's kind is, in the order of the answer.
    Rows(Vec<Row>),
}

impl Case {
    /// What a fact is given as in words, where it is one word.
    #[must_use]
    pub fn word(&self, fact: &str) -> Option<&str> {
        match self.given.get(fact) {
            Some(CaseValue::Text(text)) => Some(text),
            _ => None,
        }
    }
    /// How many places a fact is given for, where it is a list.
    #[must_use]
    pub fn places(&self, fact: &str) -> Option<usize> {
        match self.given.get(fact) {
            Some(CaseValue::List(list)) => Some(list.len()),
            _ => None,
        }
    }
    /// Every fact that is given as a list, with its places.
    pub fn lists(&self) -> impl Iterator<Item = (&str, usize)> {
        self.given.keys().filter_map(|fact| Some((fact.as_str(), self.places(fact)?)))
    }
}

/// What a rule gives, as a case names it.
pub(crate) fn kind_word(kind: RuleKind) -> &'static str {
    match kind {
        RuleKind::Window => "window",
        RuleKind::Finding => "finding",
        RuleKind::Service => "service",
        RuleKind::Step => "step",
    }
}

/// The columns of a window, a finding, a service or a step.
fn columns(kind: RuleKind) -> Vec<&'static str> {
    match kind {
        RuleKind::Window => [
            &["judges", "place", "reuse", "never-below", "low", "aim", "high", "never-above"][..],
            &["below", "above", "says", "args"],
        ]
        .concat(),
        RuleKind::Finding => vec!["level", "place", "says", "args"],
        RuleKind::Service => [&METERS[..], &["place", "says", "args"]].concat(),
        RuleKind::Step => vec!["place", "says", "args"],
    }
}

/// The cases of a rule, and what is wrong with the others; the faults with their lines.
pub(crate) fn read(manifest: &Manifest, index: u32, rule: &Rule, file: &Path) -> (Vec<Case>, Vec<Slip>) {
    let table = std::fs::read_to_string(file)
        .map_err(|e| Slip::new(1, e.to_string()))
        .and_then(|text| parse(&text))
        .and_then(|table| Ok((common(&table)?, work(rule, &table)?, table)));
    let (common, mut slips, table) = match table {
        Ok(all) => all,
        Err(slip) => return (Vec::new(), vec![slip]),
    };
    let rows = match table.rows("case") {
        Ok(Some(rows)) if !rows.is_empty() => rows,
        Ok(_) => return (Vec::new(), vec![Slip::new(1, "it has no case: each starts with [[case]]")]),
        Err(slip) => return (Vec::new(), vec![slip]),
    };
    let mut cases = Vec::<Case>::new();
    for row in rows {
        match one(manifest, index, rule, file, &common, row) {
            Ok(case) => {
                if let Some(twin) = cases.iter().find(|c| c.name == case.name) {
                    slips.push(Slip::new(
                        row.line,
                        format!("case \"{}\" is there twice, first at line {}", case.name, twin.line),
                    ));
                } else if let Some(twin) = cases.iter().find(|c| c.given == case.given) {
                    slips.push(Slip::new(
                        row.line,
                        format!(
                            "case \"{}\" is given what \"{}\" is given: one of them is enough",
                            case.name, twin.name
                        ),
                    ));
                }
                cases.push(case);
            }
            Err(slip) => slips.push(slip),
        }
    }
    (cases, slips)
}

/// What every case of the file is given.
fn common(table: &Row) -> Result<BTreeMap<String, CaseValue>, Slip> {
    if let Some((line, stray)) = table.stray(&["given", "work", "case"]) {
        let words = format!("\"{stray}\" is no part of a file of cases; these are: given, work, case");
        return Err(Slip::new(line, words));
    }
    given(table)
}

/// What is wrong with what a file says of a service's work. No life shows how long it takes, nor how sharply lives of the
/// part end, so the hours have to be said, and the shape where the service has one.
fn work(rule: &Rule, table: &Row) -> Result<Vec<Slip>, Slip> {
    let wrong = |words: String| Slip::new(table.line_of("work"), words);
    let (work, service) = match (table.get("work"), &rule.service) {
        (None, None) => return Ok(Vec::new()),
        (Some(_), None) => return Err(wrong("work is said of a service, and this rule is none".to_owned())),
        (Some(CaseValue::Row(work)), Some(service)) => (work, service),
        (_, Some(_)) => {
            return Err(wrong("nothing says how long the work takes: write [work] with its hours".to_owned()));
        }
    };
    let numbers = [("hours", Some(service.hours)), ("shape", service.shape)];
    let words = [("opens", &service.opens), ("loses", &service.loses), ("action", &service.action)];
    let known = ["hours", "shape", "opens", "loses", "action"];
    if let Some((line, stray)) = work.stray(&known) {
        return Err(Slip::new(line, format!("\"{stray}\" is no part of the work; these are: {}", known.join(", "))));
    }
    let mut slips = Vec::new();
    let mut held = |name: &str, got: &str, wanted: &str| {
        if got != wanted {
            let words = format!("of the work, {name} is {got}; wanted {wanted}: {CORRECT}");
            slips.push(Slip::new(work.line_of(name), words));
        }
    };
    for (name, got) in numbers {
        let wanted: Option<f64> = match work.get(name) {
            Some(CaseValue::Number(number)) => number.parse().ok(),
            _ => None,
        };
        match (got, wanted) {
            (Some(_), None) => return Err(wrong(format!("the work has no {name}, as a number"))),
            (Some(got), Some(wanted)) => held(name, &got.to_string(), &wanted.to_string()),
            (None, Some(wanted)) => held(name, "not said", &wanted.to_string()),
            (None, None) => {}
        }
    }
    for (name, got) in words {
        if let Some(wanted) = work.text(name)? {
            held(name, got, wanted);
        }
    }
    Ok(slips)
}

fn given(row: &Row) -> Result<BTreeMap<String, CaseValue>, Slip> {
    match row.get("given") {
        None => Ok(BTreeMap::new()),
        Some(CaseValue::Row(facts)) => {
            let mut all = BTreeMap::new();
            flat("", facts, &mut all);
            Ok(all)
        }
        Some(other) => Err(Slip::new(row.line_of("given"), format!("given is {other}, and facts in {{ }} are wanted"))),
    }
}

/// A fact's name has dots, which TOML takes for tables where it stands without quotes.
fn flat(under: &str, row: &Row, all: &mut BTreeMap<String, CaseValue>) {
    for (name, (_, value)) in &row.cells {
        let name = if under.is_empty() { name.clone() } else { format!("{under}.{name}") };
        match value {
            CaseValue::Row(inner) => flat(&name, inner, all),
            value => {
                all.insert(name, value.clone());
            }
        }
    }
}

fn one(
    manifest: &Manifest,
    index: u32,
    rule: &Rule,
    file: &Path,
    common: &BTreeMap<String, CaseValue>,
    row: &Row,
) -> Result<Case, Slip> {
    let kind = kind_word(rule.kind);
    let ends = ["go", "does-not-apply", "cannot-say", kind];
    let known = [&["name", "given"][..], &ends].concat();
    let name = row.text("name")?.filter(|n| !n.trim().is_empty());
    let name =
        name.ok_or_else(|| Slip::new(row.line, "this case has no name: say in the trade's words what it shows"))?;
    let here = |words: String| Slip::new(row.line, format!("case \"{name}\": {words}"));
    if let Some((line, stray)) = row.stray(&known) {
        let words =
            format!("case \"{name}\": \"{stray}\" is no part of a case of a {kind}; these are: {}", known.join(", "));
        return Err(Slip::new(line, words));
    }
    let mut all = common.clone();
    all.extend(given(row)?);
    let numbers = facts(manifest, &all).map_err(here)?;
    for need in &rule.needs {
        let at = manifest.facts.iter().position(|f| f.id == *need);
        if at.is_none_or(|at| numbers.of(at).iter().all(|v| v.is_nan())) {
            return Err(here(format!("the rule is not asked without {need}, and it is not given")));
        }
    }
    let said: Vec<&str> = ends.into_iter().filter(|end| row.get(end).is_some()).collect();
    let wanted = match said.as_slice() {
        ["go"] if row.flag("go")? => Wanted::Go,
        ["does-not-apply"] => Wanted::DoesNotApply(row.text("does-not-apply")?.unwrap_or_default().to_owned()),
        ["cannot-say"] => Wanted::CannotSay(row.text("cannot-say")?.unwrap_or_default().to_owned()),
        [end] if *end == kind => {
            let rows: Vec<Row> = row.rows(kind)?.unwrap_or_default().into_iter().cloned().collect();
            let columns = columns(rule.kind);
            for cells in &rows {
                if let Some((line, stray)) = cells.stray(&columns) {
                    let words = format!(
                        "case \"{name}\": \"{stray}\" is no column of a {kind}; these are: {}",
                        columns.join(", ")
                    );
                    return Err(Slip::new(line, words));
                }
            }
            Wanted::Rows(rows)
        }
        _ => {
            return Err(here(format!(
                "it wants one of {kind} = {{ .. }}, go = true (it looks and has nothing to say), does-not-apply = \"words of \
                 its reason\" and cannot-say = \"words of its reason\""
            )));
        }
    };
    let empty = match &wanted {
        Wanted::Go => false,
        Wanted::DoesNotApply(words) | Wanted::CannotSay(words) => words.trim().is_empty(),
        Wanted::Rows(rows) => rows.is_empty(),
    };
    if empty {
        return Err(here("it says nothing of what the rule must come to".to_owned()));
    }
    let (file, name) = (file.to_owned(), name.to_owned());
    Ok(Case { rule: index, file, line: row.line, name, given: all, facts: numbers, wanted })
}
