//! Asking a pack directly, and its answer as text to the last bit.

use serde_json::Value;
use std::fmt::Write as _;
use thou::packs::{CheckedAnswer, Given, LoadedPack, OutcomeState, PackFault, Said};
use thou_contract::{Level, Manifest};

/// What a pack is handed: starts and values as the contract has them.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Handed {
    /// Where each fact of the manifest starts, and the end.
    pub starts: Vec<u32>,
    /// SI; NaN for a place that is not read.
    pub values: Vec<f64>,
}

impl Handed {
    /// Facts by name: a list of numbers, null for a place that is not read; what is left out is absent.
    ///
    /// # Panics
    /// When a name is none of the manifest's facts, or its value no list of numbers.
    #[must_use]
    pub fn by_name(manifest: &Manifest, facts: &Value) -> Self {
        let unknown = |id: &&String| !manifest.facts.iter().any(|f| f.id == **id);
        let named = facts.as_object().unwrap_or_else(|| panic!("{facts}: no object"));
        assert_eq!(named.keys().find(unknown), None, "{}: no such fact", manifest.id);
        let mut handed = Self::default();
        for fact in &manifest.facts {
            let list = named.get(&fact.id).map(|v| v.as_array().unwrap_or_else(|| panic!("{v}: no list")));
            let number = |v: &Value| if v.is_null() { f64::NAN } else { v.as_f64().unwrap_or_else(|| panic!("{v}")) };
            handed.push(&list.into_iter().flatten().map(number).collect::<Vec<_>>());
        }
        handed
    }

    /// The next fact's places.
    pub fn push(&mut self, places: &[f64]) {
        if self.starts.is_empty() {
            self.starts.push(0);
        }
        self.values.extend(places);
        self.starts.push(u32::try_from(self.values.len()).unwrap_or(u32::MAX));
    }

    /// Asks a pack about an engine of eight cylinders.
    ///
    /// # Errors
    /// When its answer is lost.
    pub fn ask(&self, pack: &LoadedPack, rules: &[u32]) -> Result<CheckedAnswer, PackFault> {
        let one = |fact: &str| pack.manifest.facts.iter().any(|f| f.id == fact && f.axis == "one");
        let places = |fact: &str| Some(if one(fact) { 1 } else { 8 });
        pack.assess(rules, &Given { starts: &self.starts, values: &self.values, places: &places })
    }
}

/// An answer, an item a line. A number is printed so that it reads back as the same bits.
#[must_use]
pub fn text(answer: &CheckedAnswer) -> String {
    let mut out = String::new();
    for o in &answer.outcomes {
        let state = match o.state {
            OutcomeState::Answered => "answered".to_owned(),
            OutcomeState::Clear => "clear".to_owned(),
            OutcomeState::NotApplicable(reason) => format!("not-applicable, reason {reason}"),
            OutcomeState::CannotSay(reason) => format!("cannot-say, reason {reason}"),
        };
        let _ = writeln!(out, "rule {}: {state}", o.rule);
    }
    for Said { rule, what: w, args } in &answer.windows {
        let _ = write!(out, "window of rule {rule}, fact {}, {}:", w.fact, place(w.place));
        for (name, limit) in ["never-below", "low", "aim", "high", "never-above"].iter().zip(w.limits()) {
            if let Some(limit) = limit {
                let _ = write!(out, " {name} {limit:?}");
            }
        }
        let _ = write!(out, ", below {}, above {}", level(w.below), level(w.above));
        let _ = writeln!(out, "{}, text {}, {args:?}", if w.reuse { ", reuse" } else { "" }, w.text);
    }
    for Said { rule, what: f, args } in &answer.findings {
        let (at, level) = (place(f.place), level(f.level));
        let _ = writeln!(out, "finding of rule {rule}, {at}: {level}, text {}, {args:?}", f.text);
    }
    for Said { rule, what: s, args } in &answer.services {
        let _ = write!(out, "service of rule {rule}, {}: meter {}, ", place(s.place), s.meter);
        let _ = writeln!(out, "{:?} {:?} {:?}, text {}, {args:?}", s.low, s.nominal, s.high, s.text);
    }
    for Said { rule, what: s, args } in &answer.steps {
        let _ = writeln!(out, "step of rule {rule}, {}: text {}, {args:?}", place(s.place), s.text);
    }
    out
}

fn place(place: Option<u32>) -> String {
    place.map_or_else(|| "everywhere".to_owned(), |p| format!("place {p}"))
}

fn level(level: Level) -> &'static str {
    match level {
        Level::Hold => "hold",
        Level::Warn => "warn",
        Level::Note => "note",
    }
}
