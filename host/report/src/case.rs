//! What a user would read of a rule's cases, with an engine of each case's own facts.

use super::bench::{Bench, Paint};
use super::{check, plan};
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::path::Path;
use thou_cases::{Case, around};
use thou_contract::answer::{CheckedAnswer, Said, Window};
use thou_contract::{Level, Manifest, System};
use thou_facts::{Catalogue, SheetFacts, ValueKind};
use thou_judge::{Levels, Limits, judge};
use thou_sheet::model::Axis;
use thou_sheet::{Sheet, starter};
use thou_verdict::{self as verdict, State, Verdict};

/// What a user would read of a rule's cases: everything that the rule can say, once, at the first case that comes to it.
/// Of a window that is a reading inside its limits and one past each of them.
pub struct Reads<'a> {
    manifest: &'a Manifest,
    /// What the rule has said, whatever the numbers in it were.
    heard: BTreeSet<String>,
    /// The blocks of lines below a headline that were printed.
    printed: BTreeSet<String>,
    out: String,
}

impl<'a> Reads<'a> {
    /// Nothing read yet.
    #[must_use]
    pub fn new(manifest: &'a Manifest) -> Self {
        Self { manifest, heard: BTreeSet::new(), printed: BTreeSet::new(), out: String::new() }
    }

    /// Adds what this case says and none before it did. A reading counts as read with a gauge that is beyond doubt; it
    /// stands for the first place, or for the place that the rule judges.
    pub fn add(&mut self, case: &Case, answer: &CheckedAnswer) {
        let mut pages = Vec::new();
        if answer.windows.is_empty() && self.heard.insert(self.words_of(answer)) {
            pages.push(lines(self.manifest, case, answer, None));
        }
        for said in &answer.windows {
            for (what, value) in readings(&said.what) {
                let limits = Limits::of(&said.what);
                let sides = [limits.never_below, limits.low, limits.aim, limits.high, limits.never_above];
                let new = (
                    what,
                    said.what.fact,
                    said.what.reuse,
                    sides.map(|l| l.is_some()),
                    self.words(said, said.what.text),
                );
                if self.heard.insert(format!("{new:?}")) {
                    pages.push(lines(self.manifest, case, answer, Some((&said.what, value))));
                }
            }
        }
        if pages.is_empty() {
            return;
        }
        let line = "-".repeat(case.name.chars().count());
        let _ = write!(self.out, "{}{}\n{line}\n", if self.out.is_empty() { "" } else { "\n" }, case.name);
        pages.iter().for_each(|page| self.page(page));
    }

    /// All that was added.
    #[must_use]
    pub fn text(self) -> String {
        self.out
    }

    /// What an answer says, without the numbers in it.
    fn words_of(&self, answer: &CheckedAnswer) -> String {
        let states: Vec<_> = answer.outcomes.iter().map(|o| o.state).collect();
        let findings: Vec<_> = answer.findings.iter().map(|f| (f.what.level, self.words(f, f.what.text))).collect();
        let services: Vec<_> = answer.services.iter().map(|s| (s.what.meter, self.words(s, s.what.text))).collect();
        let steps: Vec<_> = answer.steps.iter().map(|s| self.words(s, s.what.text)).collect();
        format!("{:?}", (states, findings, services, steps))
    }

    /// A text and the words that are filled into it.
    fn words<T>(&self, said: &Said<T>, text: u32) -> (u32, Vec<u64>) {
        let rule = self.manifest.rules.get(said.rule as usize);
        let args = rule.and_then(|r| r.texts.get(text as usize)).map(|t| t.args.as_slice()).unwrap_or_default();
        let words = args.iter().zip(&said.args).filter(|(arg, _)| arg.kind == "choice");
        (text, words.map(|(_, word)| word.to_bits()).collect())
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
            if !block.is_empty() && self.printed.insert(block.clone()) {
                let _ = writeln!(self.out, "{block}");
            }
        }
    }
}

/// A reading inside a window and one past each of its limits, each with what it is.
fn readings(window: &Window) -> Vec<(&'static str, f64)> {
    let limits = Limits::of(window);
    let all = around(&limits);
    let quiet = Levels { below: Level::Note, above: Level::Note, physics: false };
    let is_go = |value: &f64| judge(*value, 0.0, &limits, quiet).state == State::Go;
    let inside = limits.aim.into_iter().chain(all.iter().map(|r| r.value)).find(is_go);
    let outside = all.iter().filter(|r| r.outside).map(|r| (r.limit, r.value));
    inside.map(|value| ("inside", value)).into_iter().chain(outside).collect()
}

/// The lines of the check, or of the plan, that this answer gives, where a window has one with this reading of its fact.
fn lines(manifest: &Manifest, case: &Case, answer: &CheckedAnswer, reading: Option<(&Window, f64)>) -> String {
    let catalogue = Catalogue::standard();
    let used = reading.filter(|(window, _)| window.reuse).map(|(window, _)| window);
    let sheet = sheet(catalogue, manifest, case, used);
    let empty = SheetFacts::new(catalogue, &sheet);
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
