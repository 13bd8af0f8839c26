//! Holds a pack to its fixtures, natively and without the sandbox.
//!
//! A fixture is a file `fixtures/<rule>/<verdict>-<what it shows>.json` in the pack's folder. The verdict in the name
//! is what the rule must come to: `go`, `note`, `look`, `no-go`, `does-not-apply`, `cannot-say`, or `service`.
//!
//! ```json
//! { "facts":   { "use": "bracket", "bore.nominal": "4.155 in", "piston.alloy": "2618" },
//!   "reading": { "piston-to-wall": "4.2 thou" },
//!   "says":    "scuffs" }
//! ```
//! `facts` is what the rule is given: text with a unit, a word of a choice, true or false, a number for a count or a
//! ratio, or a list of them, one a place, with null for a hole. `reading` is what it judges. `says`, if there, must
//! stand in the words or the reason. A service has `lives` instead of `reading`: `{ "low": 40, "nominal": 60,
//! "high": 100 }`, whole numbers of its meter, or a list of such.
//!
//! Beside that, every limit that any fixture of a window rule brings out must have a reading within 1 % on each side.

use crate::{Answer, Facts, Outcome, Pack, Rule, Window};
use serde_json::Value;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use thou_contract::{Kind, Level, RuleKind};

/// Limits are inclusive to this share: half of all "x thou" differ from "x/1000 in" in floating point.
const SAME: f64 = 1e-9;

/// Everything that is wrong with this pack's fixtures; empty when all hold.
#[must_use]
pub fn faults(pack: &Pack, folder: &Path) -> Vec<String> {
    let mut faults = manifest_faults(pack);
    let mut folders: BTreeSet<String> = subfolders(folder);
    for (index, rule) in (0u32..).zip(pack.rules) {
        folders.remove(rule.id);
        let files = json_files(&folder.join(rule.id));
        if files.is_empty() {
            faults.push(format!("{}: no fixtures", rule.id));
        }
        let mut sides = BTreeMap::new();
        for file in files {
            let name = file.file_name().map(|n| n.to_string_lossy().into_owned()).unwrap_or_default();
            if let Err(fault) = one(pack, rule, index, &file, &name, &mut sides) {
                faults.push(format!("{}/{name}: {fault}", rule.id));
            }
        }
        for (limit, side) in sides {
            for (have, what) in [(side.inside, "inside"), (side.outside, "outside")] {
                if !have {
                    faults.push(format!("{}: no reading within 1 % {what} of {limit}", rule.id));
                }
            }
        }
    }
    faults.extend(folders.into_iter().map(|f| format!("{f}: fixtures of no rule")));
    faults
}

/// Panics with every fault, for a test of one line.
///
/// # Panics
/// When a fixture does not hold.
#[allow(clippy::panic)]
pub fn check(pack: &Pack, folder: impl AsRef<Path>) {
    let faults = faults(pack, folder.as_ref());
    assert!(faults.is_empty(), "{} faults in the fixtures of {}\n{}", faults.len(), pack.id, faults.join("\n"));
}

#[derive(Default)]
struct Sides {
    inside: bool,
    outside: bool,
}

fn manifest_faults(pack: &Pack) -> Vec<String> {
    let mut faults = Vec::new();
    let mut ids = BTreeSet::new();
    for rule in pack.rules {
        let mut say = |what: &str| faults.push(format!("{}: {what}", rule.id));
        if !ids.insert(rule.id) {
            say("this rule id is there twice");
        }
        if rule.title.is_empty() || rule.why.is_empty() || rule.source.is_empty() || rule.operation.is_empty() {
            say("title, operation, why and source must say something");
        }
        if rule.texts.is_empty() {
            say("a rule needs at least one text");
        }
        if rule.kind == RuleKind::Window && rule.judges.is_empty() {
            say("a window rule judges a fact");
        }
        if (rule.kind == RuleKind::Service) != rule.service.is_some() {
            say("a service, and only a service, says what is done");
        }
        for fact in rule.needs.iter().chain(rule.takes) {
            if rule.judges.contains(&fact.id) {
                say("what is judged is never given to the rule");
            }
        }
    }
    faults
}

fn one(
    pack: &Pack,
    rule: &Rule,
    index: u32,
    file: &Path,
    name: &str,
    sides: &mut BTreeMap<String, Sides>,
) -> Result<(), String> {
    let text = std::fs::read_to_string(file).map_err(|e| e.to_string())?;
    let fixture: Value = serde_json::from_str(&text).map_err(|e| e.to_string())?;
    let (starts, values) = given(pack, &fixture)?;
    for need in rule.needs {
        if Facts::new(&starts, &values).get(*need).is_none() {
            return Err(format!("the rule needs {}, which the fixture does not give", need.id));
        }
    }
    let (outcomes, answer) = pack.assess(&[index], &Facts::new(&starts, &values));
    let outcome = outcomes.first().map_or(Outcome::Clear, |o| o.1);
    let mut said: Vec<&str> = Vec::new();
    let verdict = verdict(pack, rule, &fixture, outcome, &answer, &mut said, sides)?;
    let wanted = ["does-not-apply", "cannot-say", "no-go", "service", "note", "look", "go"]
        .into_iter()
        .find(|v| name.starts_with(&format!("{v}-")) || name == format!("{v}.json"))
        .ok_or("the file's name does not start with a verdict")?;
    if verdict != wanted {
        return Err(format!("came to {verdict}: {answer:?}"));
    }
    if let Some(words) = fixture.get("says").and_then(Value::as_str)
        && !said.iter().any(|s| s.contains(words))
    {
        return Err(format!("does not say \"{words}\" but {said:?}"));
    }
    Ok(())
}

fn verdict<'r>(
    pack: &Pack,
    rule: &'r Rule,
    fixture: &Value,
    outcome: Outcome,
    answer: &Answer,
    said: &mut Vec<&'r str>,
    sides: &mut BTreeMap<String, Sides>,
) -> Result<&'static str, String> {
    match outcome {
        Outcome::Clear => return Ok("go"),
        Outcome::NotApplicable(reason) | Outcome::CannotSay(reason) => {
            let crossed =
                (reason as usize == rule.reasons.len() && rule.kind == RuleKind::Window).then_some(&crate::CROSSED);
            said.push(rule.reasons.get(reason as usize).or(crossed).ok_or("the reason is not in the rule's list")?);
            let not = matches!(outcome, Outcome::NotApplicable(_));
            return Ok(if not { "does-not-apply" } else { "cannot-say" });
        }
        Outcome::Answered => {}
    }
    if answer.windows.is_empty() && answer.findings.is_empty() && answer.services.is_empty() && answer.steps.is_empty()
    {
        return Err("answered, and gave nothing".to_owned());
    }
    if rule.kind == RuleKind::Service {
        return lives(pack, rule, fixture, answer, said).map(|()| "service");
    }
    let mut worst = None;
    for (_, finding, _) in &answer.findings {
        let text = rule.texts.get(finding.text as usize).ok_or("the text is not in the rule's list")?;
        said.push(text.words);
        worst = worst.max(Some(text.basis.unwrap_or(rule.basis).cap(finding.level)));
    }
    for (_, window, _) in &answer.windows {
        let text = rule.texts.get(window.text as usize).ok_or("the text is not in the rule's list")?;
        said.push(text.words);
        let fact = rule.judges.get(window.fact as usize).ok_or("the fact is not one the rule judges")?;
        let reading = fixture.get("reading").and_then(|r| r.get(*fact)).ok_or(format!("no reading of {fact}"))?;
        let (kind, scale) = (judged_kind(reading), limits(window));
        let readings: Vec<Option<f64>> = match reading {
            Value::Array(list) => list.iter().map(|v| number(v, kind)).collect::<Result<_, _>>()?,
            value => vec![number(value, kind)?],
        };
        for (place, value) in (0u32..).zip(&readings) {
            let here = window.place.is_none_or(|p| p == place || readings.len() == 1);
            if let (true, Some(value)) = (here, value) {
                worst = worst.max(judge(rule, text, window, *value));
                near(window, *value, scale, sides);
            }
        }
    }
    Ok(match worst {
        None => "go",
        Some(Level::Note) => "note",
        Some(Level::Warn) => "look",
        Some(Level::Hold) => "no-go",
    })
}

/// How far outside its window a value is, in words of the level; none inside.
fn judge(rule: &Rule, text: &crate::Text, w: &Window, value: f64) -> Option<Level> {
    let basis = text.basis.unwrap_or(rule.basis);
    let hold = text.hold_basis.or(rule.hold_basis).unwrap_or(basis);
    let under = |limit: Option<f64>| limit.is_some_and(|l| value < l - SAME * l.abs());
    let over = |limit: Option<f64>| limit.is_some_and(|l| value > l + SAME * l.abs());
    let mut worst = None;
    if under(w.low) {
        worst = worst.max(Some(basis.cap(w.below)));
    }
    if over(w.high) {
        worst = worst.max(Some(basis.cap(w.above)));
    }
    if under(w.never_below) || over(w.never_above) {
        worst = worst.max(Some(hold.cap(Level::Hold)));
    }
    worst
}

fn limits(w: &Window) -> f64 {
    [w.never_below, w.low, w.aim, w.high, w.never_above].into_iter().flatten().fold(0.0, |m, l| f64::max(m, l.abs()))
}

fn near(w: &Window, value: f64, scale: f64, sides: &mut BTreeMap<String, Sides>) {
    let every = [
        ("never-below", w.never_below, -1.0),
        ("low", w.low, -1.0),
        ("high", w.high, 1.0),
        ("never-above", w.never_above, 1.0),
    ];
    for (name, limit, sign) in every {
        let Some(limit) = limit else { continue };
        let side = sides.entry(format!("text {} {name}{}", w.text, if w.reuse { " (reuse)" } else { "" })).or_default();
        let reach = 0.01 * if limit == 0.0 { scale.max(1e-6) } else { limit.abs() } + SAME;
        let outside = (value - limit) * sign;
        if outside.abs() <= reach {
            if outside > SAME * limit.abs() {
                side.outside = true;
            } else {
                side.inside = true;
            }
        }
    }
}

fn lives<'r>(
    pack: &Pack,
    rule: &'r Rule,
    fixture: &Value,
    answer: &Answer,
    said: &mut Vec<&'r str>,
) -> Result<(), String> {
    let wanted = match fixture.get("lives") {
        Some(Value::Array(list)) => list.clone(),
        Some(one) => vec![one.clone()],
        None => return Err("a service's fixture has lives".to_owned()),
    };
    let given: Vec<Value> = answer
        .services
        .iter()
        .map(|(_, s, _)| {
            let meter = pack.meters.get(s.meter as usize).copied().unwrap_or("?");
            let whole = |si: f64| (si / meter_unit(meter)).round();
            serde_json::json!({ "meter": meter, "low": whole(s.low), "nominal": whole(s.nominal), "high": whole(s.high) })
        })
        .collect();
    said.extend(answer.services.iter().filter_map(|(_, s, _)| rule.texts.get(s.text as usize)).map(|t| t.words));
    let same = wanted.len() == given.len()
        && wanted.iter().zip(&given).all(|(w, g)| {
            ["low", "nominal", "high"]
                .iter()
                .all(|k| w.get(k).and_then(Value::as_f64) == g.get(k).and_then(Value::as_f64))
                && w.get("meter").is_none_or(|m| Some(m) == g.get("meter"))
        });
    if same { Ok(()) } else { Err(format!("lives are {}", Value::Array(given))) }
}

/// SI in one of a meter: passes and events count, the rest are metres and seconds.
#[must_use]
pub fn meter_unit(meter: &str) -> f64 {
    match meter {
        "miles" => 1_609.344,
        "hours" => 3_600.0,
        "months" => 365.25 * 86_400.0 / 12.0,
        _ => 1.0,
    }
}

/// The fixture's facts as the contract hands them over: `starts` and `values`.
///
/// # Errors
/// When it names a fact that the pack does not ask for, or a value is not one.
pub fn given(pack: &Pack, fixture: &Value) -> Result<(Vec<u32>, Vec<f64>), String> {
    let empty = serde_json::Map::new();
    let facts = fixture.get("facts").and_then(Value::as_object).unwrap_or(&empty);
    for name in facts.keys() {
        if !pack.facts.iter().any(|f| f.id == name) {
            return Err(format!("{name} is not a fact that this pack asks for"));
        }
    }
    let (mut starts, mut values) = (vec![0], Vec::new());
    for fact in pack.facts {
        let list = match facts.get(fact.id) {
            None => &[] as &[Value],
            Some(Value::Array(list)) => list,
            Some(one) => std::slice::from_ref(one),
        };
        for value in list {
            values.push(match (fact.kind, value) {
                (_, Value::Null) => f64::NAN,
                ("choice", Value::String(word)) => {
                    fact.choices.iter().position(|c| c == word).map_or(-1.0, |i| i as f64)
                }
                ("flag", Value::Bool(yes)) => f64::from(u8::from(*yes)),
                (kind, value) => {
                    number(value, Kind::by_id(kind).ok_or(format!("{}: no kind {kind}", fact.id))?)?.unwrap_or(f64::NAN)
                }
            });
        }
        starts.push(u32::try_from(values.len()).unwrap_or(u32::MAX));
    }
    Ok((starts, values))
}

/// The kind whose unit the reading is written in; a fixture's reading needs no catalogue.
fn judged_kind(reading: &Value) -> Kind {
    let text = match reading {
        Value::String(s) => Some(s.as_str()),
        Value::Array(list) => list.iter().find_map(Value::as_str),
        _ => None,
    };
    let ids = thou_contract::KINDS.iter().map(|k| k.id);
    let fits = |id: &str| Kind::by_id(id).filter(|k| text.is_none_or(|t| k.parse(t).is_ok()));
    let ratio = if text.is_none() { Kind::by_id("ratio") } else { None };
    ratio
        .or_else(|| ids.filter_map(fits).next())
        .unwrap_or(Kind::by_id("ratio").unwrap_or_else(|| unreachable!("ratio is a kind")))
}

fn number(value: &Value, kind: Kind) -> Result<Option<f64>, String> {
    match value {
        Value::Null => Ok(None),
        Value::Number(n) => Ok(n.as_f64()),
        Value::String(text) => kind.parse(text).map(Some).map_err(|e| e.to_string()),
        other => Err(format!("{other} is not a quantity")),
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
