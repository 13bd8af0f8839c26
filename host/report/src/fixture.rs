//! What a user would read of one rule's answer: for the fixtures of a pack, with an engine of the fixture's own facts.

use super::bench::{Bench, Paint};
use super::{check, plan};
use serde_json::{Value, json};
use std::path::Path;
use thou_contract::fixtures::{Fixture, readings};
use thou_contract::{Manifest, System};
use thou_facts::{Catalogue, SheetFacts, ValueKind};
use thou_sandbox::Answer;
use thou_sheet::model::Axis;
use thou_sheet::{Sheet, starter};
use thou_verdict::{self as verdict, State, Verdict};

/// The lines of the check, or of the plan, that this answer gives. The fixture's readings count as read with a gauge
/// that is beyond doubt; one reading stands for the first place, or for the place that the rule judges. Where a rule has
/// wear limits, the lines for a new part and for a used one.
#[must_use]
pub fn text(manifest: &Manifest, fixture: &Fixture, answer: &Answer) -> String {
    if answer.windows.iter().any(|w| w.what.reuse) {
        let (new, used) = (lines(manifest, fixture, answer, false), lines(manifest, fixture, answer, true));
        return format!("A new part:\n\n{new}\nA used part:\n\n{used}");
    }
    lines(manifest, fixture, answer, false)
}

fn lines(manifest: &Manifest, fixture: &Fixture, answer: &Answer, used: bool) -> String {
    let catalogue = Catalogue::standard();
    let sheet = sheet(catalogue, manifest, fixture, answer, used);
    let empty = SheetFacts::new(catalogue, &sheet);
    let (given, read) =
        (given(catalogue, &sheet, manifest, fixture), read(catalogue, &sheet, manifest, fixture, answer));
    let all: Vec<(&str, usize, f64)> = given.iter().chain(&read).map(|(id, at, v)| (id.as_str(), *at, *v)).collect();
    let facts = empty.read_as(&all);
    let mut verdict = verdict::judge_answer(&sheet, &facts, manifest, answer);
    let is_read = |fact: &str| read.iter().any(|(id, ..)| id == fact);
    // the other places of a fact that is read once, and the lines of a sheet that nobody has written
    verdict.items.retain(|i| i.state != State::Open || !i.fact.as_deref().is_some_and(is_read));
    for item in &mut verdict.items {
        item.pointer = None;
    }
    let bench = Bench { sheet: &sheet, facts: &facts, system: System::Inch, paint: Paint::Plain, like: None };
    let page = check::lines(&bench, &verdict) + &services(&bench, &verdict);
    match verdict.items.first() {
        // on a whole page its title stands among the goes
        Some(item) if page.is_empty() && item.state == State::Go => format!("{} is a go\n", item.rule),
        _ => page,
    }
}

fn services(bench: &Bench<'_>, verdict: &Verdict) -> String {
    if verdict.services.is_empty() && verdict.steps.is_empty() {
        return String::new();
    }
    plan::lines(bench, verdict, &thou_plan::plan(bench.sheet, verdict, None))
}

/// A sheet with nothing in it but the engine's size, the words of the choices and the state of the parts.
fn sheet(catalogue: &Catalogue, manifest: &Manifest, fixture: &Fixture, answer: &Answer, used: bool) -> Sheet {
    let cylinders = cylinders(catalogue, fixture);
    let layout = match cylinders {
        1 => "single",
        n if n % 2 == 0 && n >= 6 => "v",
        _ => "inline",
    };
    let parse = |root: &Value| Sheet::parse("fixture", &root.to_string(), Path::new("")).ok();
    let bare = serde_json::from_str(&starter("street", cylinders, layout)).unwrap_or(Value::Null);
    let mut words = bare.clone();
    for fact in &manifest.facts {
        let word = fixture.value.pointer("/facts").and_then(|f| f.get(&fact.id)).and_then(Value::as_str);
        let info = catalogue.info(&fact.id).filter(|i| matches!(i.value, ValueKind::Choice(_)));
        if let (Some(word), Some(path)) = (word, info.and_then(|i| i.path)) {
            set(&mut words, path, json!(word));
        }
    }
    for window in answer.windows.iter().filter(|_| used) {
        let judged = manifest.rules.get(window.rule as usize).and_then(|r| r.judges.get(window.what.fact as usize));
        if let Some(part) = judged.and_then(|f| catalogue.info(f)).and_then(|i| i.part) {
            set(&mut words, &format!("{part}.state"), json!("reused"));
        }
    }
    parse(&words).or_else(|| parse(&bare)).unwrap_or_default()
}

/// As many cylinders as the fixture's lists have places; eight where they do not say.
fn cylinders(catalogue: &Catalogue, fixture: &Fixture) -> usize {
    let lists = ["facts", "reading"].into_iter().filter_map(|k| fixture.value.get(k)?.as_object()).flatten();
    let counts = lists.filter_map(|(fact, value)| {
        let places = value.as_array()?.len();
        match catalogue.info(fact)?.axis {
            Axis::Cylinder | Axis::Rod => Some(places),
            Axis::Valve => Some(places / 2),
            _ => None,
        }
    });
    counts.max().filter(|n| (1..=16).contains(n)).unwrap_or(8)
}

/// Writes a value at a dotted path, with the objects on the way.
fn set(root: &mut Value, path: &str, value: Value) {
    let mut at = root;
    for name in path.split('.') {
        if !at.is_object() {
            *at = json!({});
        }
        let Some(object) = at.as_object_mut() else { return };
        at = object.entry(name).or_insert(Value::Null);
    }
    *at = value;
}

/// What the fixture gives: one value stands for every place.
fn given(catalogue: &Catalogue, sheet: &Sheet, manifest: &Manifest, fixture: &Fixture) -> Vec<(String, usize, f64)> {
    let mut given = Vec::new();
    for (index, fact) in manifest.facts.iter().enumerate() {
        let Some(info) = catalogue.info(&fact.id) else { continue };
        let values = fixture.facts.of(index);
        let places = sheet.places.count(info.axis);
        for place in 0..places {
            let value = if values.len() == 1 { values.first() } else { values.get(place) };
            if let Some(value) = value.filter(|v| !v.is_nan() && !matches!(info.value, ValueKind::Choice(_))) {
                given.push((fact.id.clone(), place, *value));
            }
        }
    }
    given
}

/// What the fixture reads: one reading stands for the first place, or for those that the rule judges by themselves.
fn read(
    catalogue: &Catalogue,
    sheet: &Sheet,
    manifest: &Manifest,
    fixture: &Fixture,
    answer: &Answer,
) -> Vec<(String, usize, f64)> {
    let Some(rule) = manifest.rules.get(fixture.rule as usize) else { return Vec::new() };
    let mut read = Vec::new();
    for (index, fact) in (0u32..).zip(&rule.judges) {
        let Some(info) = catalogue.info(fact) else { continue };
        let Ok(values) = readings(&fixture.value, fact, info.value.kind()) else { continue };
        let count = sheet.places.count(info.axis);
        if let ([Some(value)], true) = (values.as_slice(), count > 1) {
            let own = answer.windows.iter().map(|w| w.what).filter(|w| w.fact == index).filter_map(|w| w.place);
            let mut places: Vec<usize> = own.filter_map(|p| usize::try_from(p).ok()).collect();
            if places.is_empty() {
                places.push(0);
            }
            read.extend(places.into_iter().map(|place| (fact.clone(), place, *value)));
            continue;
        }
        read.extend(values.iter().enumerate().filter_map(|(place, v)| Some((fact.clone(), place, (*v)?))));
    }
    read
}
