//! What a user would read of a rule's cases, with an engine of each case's own facts.

use super::bench::{Bench, Paint};
use super::{check, plan};
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::path::Path;
use thou_cases::{Case, around};
use thou_contract::answer::{Answer, Window};
use thou_contract::{Level, Manifest, System};
use thou_facts::{Catalogue, Facts, ValueKind};
use thou_judge::{Levels, Limits, judge};
use thou_sheet::model::Axis;
use thou_sheet::{Sheet, starter};
use thou_verdict::{self as verdict, State, Verdict};

/// What a user would read of one case: of a window with a reading inside its limits and with one past each of them, of
/// anything else what the rule says. What stands there already, word for word, is left out.
pub struct Reads<'a> {
    manifest: &'a Manifest,
    /// The blocks of lines below a headline that were printed.
    told: BTreeSet<String>,
    out: String,
}

impl<'a> Reads<'a> {
    /// Nothing read yet.
    #[must_use]
    pub fn new(manifest: &'a Manifest) -> Self {
        Self { manifest, told: BTreeSet::new(), out: String::new() }
    }

    /// Adds a case. A reading counts as read with a gauge that is beyond doubt; it stands for the first place, or for the
    /// place that the rule judges.
    pub fn add(&mut self, case: &Case, answer: &Answer) {
        let line = "-".repeat(case.name.chars().count());
        let _ = write!(self.out, "{}{}\n{line}\n", if self.out.is_empty() { "" } else { "\n" }, case.name);
        if answer.windows.is_empty() {
            self.page(&lines(self.manifest, case, answer, None));
            return;
        }
        for said in &answer.windows {
            let limits = Limits::of(&said.what);
            let all = around(&limits);
            let quiet = Levels { below: Level::Note, above: Level::Note, never: Level::Note };
            let is_go = |value: &f64| judge(*value, 0.0, &limits, quiet).state == State::Go;
            let inside = limits.aim.into_iter().chain(all.iter().map(|r| r.value)).find(is_go);
            let outside = all.iter().filter(|r| r.outside).map(|r| r.value);
            for value in inside.into_iter().chain(outside) {
                self.page(&lines(self.manifest, case, answer, Some((&said.what, value))));
            }
        }
    }

    /// All that was added.
    #[must_use]
    pub fn text(self) -> String {
        self.out
    }

    /// Adds a page, without the blocks of lines below its headline that were told already.
    fn page(&mut self, page: &str) {
        let mut lines = page.lines().map(str::trim_end).filter(|l| !l.is_empty());
        let headline = lines.next().unwrap_or_default();
        let below: Vec<&str> = lines.collect();
        // why it matters, and the rule's name, are the same all through
        let why = below.iter().position(|l| l.trim_start().starts_with("Why: ")).unwrap_or(below.len());
        let (advice, rest) = below.split_at(why);
        let _ = writeln!(self.out, "{headline}");
        for block in [advice.join("\n"), rest.join("\n")] {
            if !block.is_empty() && self.told.insert(block.clone()) {
                let _ = writeln!(self.out, "{block}");
            }
        }
    }
}

/// The lines of the check, or of the plan, that this answer gives, where a window has one with this reading of its fact.
fn lines(manifest: &Manifest, case: &Case, answer: &Answer, reading: Option<(&Window, f64)>) -> String {
    let catalogue = Catalogue::standard();
    let used = reading.filter(|(window, _)| window.reuse).map(|(window, _)| window);
    let sheet = sheet(catalogue, manifest, case, used);
    let empty = Facts::new(catalogue, &sheet);
    let rule = manifest.rules.get(case.rule as usize);
    let judges = rule.map(|r| r.judges.as_slice()).unwrap_or_default();
    let read = reading.and_then(|(window, value)| {
        let fact = judges.get(window.fact as usize)?;
        Some((fact.clone(), window.place.and_then(|p| usize::try_from(p).ok()).unwrap_or(0), value))
    });
    let given = given(catalogue, &sheet, manifest, case);
    let all: Vec<(&str, usize, f64)> = given.iter().chain(&read).map(|(id, at, v)| (id.as_str(), *at, *v)).collect();
    let facts = empty.read_as(&all);
    // the other windows have their own readings
    let mut own = answer.clone();
    own.windows.retain(|w| reading.is_none_or(|(window, _)| w.what == *window));
    let mut verdict = verdict::judge_answer(&sheet, &facts, manifest, &own);
    // the other places of a fact that is read once, and the lines of a sheet that nobody has written
    verdict.items.retain(|i| i.state != State::Open || !i.fact.as_ref().is_some_and(|fact| judges.contains(fact)));
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
fn sheet(catalogue: &Catalogue, manifest: &Manifest, case: &Case, used: Option<&Window>) -> Sheet {
    let cylinders = cylinders(catalogue, case);
    let layout = match cylinders {
        1 => "single",
        n if n % 2 == 0 && n >= 6 => "v",
        _ => "inline",
    };
    let parse = |root: &Value| Sheet::parse("case", &root.to_string(), Path::new("")).ok();
    let bare = serde_json::from_str(&starter("street", cylinders, layout)).unwrap_or(Value::Null);
    let mut words = bare.clone();
    for fact in &manifest.facts {
        let word = case.word(&fact.id);
        let info = catalogue.info(&fact.id).filter(|i| matches!(i.value, ValueKind::Choice(_)));
        if let (Some(word), Some(path)) = (word, info.and_then(|i| i.path)) {
            set(&mut words, path, json!(word));
        }
    }
    if let Some(window) = used {
        let judged = manifest.rules.get(case.rule as usize).and_then(|r| r.judges.get(window.fact as usize));
        if let Some(part) = judged.and_then(|f| catalogue.info(f)).and_then(|i| i.part) {
            set(&mut words, &format!("{part}.state"), json!("reused"));
        }
    }
    parse(&words).or_else(|| parse(&bare)).unwrap_or_default()
}

/// As many cylinders as the case's lists have places; eight where they do not say.
fn cylinders(catalogue: &Catalogue, case: &Case) -> usize {
    let counts = case.lists().filter_map(|(fact, places)| match catalogue.info(fact)?.axis {
        Axis::Cylinder | Axis::Rod => Some(places),
        Axis::Valve => Some(places / 2),
        _ => None,
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

/// What the case gives: one value stands for every place.
fn given(catalogue: &Catalogue, sheet: &Sheet, manifest: &Manifest, case: &Case) -> Vec<(String, usize, f64)> {
    let mut given = Vec::new();
    for (index, fact) in manifest.facts.iter().enumerate() {
        let Some(info) = catalogue.info(&fact.id) else { continue };
        let values = case.facts.of(index);
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
