//! From a case's words and quantities to the numbers that a rule is given.

use crate::file::CaseValue;
use std::collections::BTreeMap;
use thou_contract::{Kind, Manifest, factor};

/// What a place is called that nobody has read yet.
pub const NOT_READ: &str = "not read";

/// Facts as the contract hands them over, SI.
#[derive(Debug, Clone, PartialEq)]
pub struct GivenFacts {
    /// Fact i of the manifest is `values[starts[i]..starts[i + 1]]`.
    pub starts: Vec<u32>,
    /// One value a place, NaN for a hole.
    pub values: Vec<f64>,
}

impl GivenFacts {
    /// Every place of the manifest's fact at this index; nothing where it is absent.
    #[must_use]
    pub fn of(&self, index: usize) -> &[f64] {
        let at = |i: usize| self.starts.get(i).map(|s| *s as usize);
        match (at(index), at(index + 1)) {
            (Some(from), Some(to)) => self.values.get(from..to).unwrap_or_default(),
            _ => &[],
        }
    }
}

/// The facts that a case is given.
///
/// # Errors
/// When it names a fact that the pack does not ask for, or a value is not one.
pub(crate) fn facts(manifest: &Manifest, given: &BTreeMap<String, CaseValue>) -> Result<GivenFacts, String> {
    for name in given.keys() {
        if !manifest.facts.iter().any(|f| f.id == *name) {
            return Err(format!("{name} is given, and the pack does not ask for that fact"));
        }
    }
    let mut facts = GivenFacts { starts: vec![0], values: Vec::new() };
    for fact in &manifest.facts {
        let list = match given.get(&fact.id) {
            None => &[] as &[CaseValue],
            Some(CaseValue::List(list)) => list,
            Some(one) => std::slice::from_ref(one),
        };
        for value in list {
            let value = match (fact.kind.as_str(), value) {
                (_, CaseValue::Text(text)) if text == NOT_READ => Ok(f64::NAN),
                // a word that the pack does not know is what the host gives for such a word
                ("choice", CaseValue::Text(word)) => {
                    Ok(fact.choices.iter().position(|c| c == word).map_or(-1.0, |i| i as f64))
                }
                ("flag", CaseValue::Flag(yes)) => Ok(f64::from(u8::from(*yes))),
                ("choice", other) => Err(format!("{other} is not a word in quotes")),
                ("flag", other) => Err(format!("{other} is neither true nor false")),
                (kind, CaseValue::Text(text)) => of_kind(kind)?.parse(text).map_err(|e| e.to_string()),
                (kind, CaseValue::Number(number)) => of_kind(kind)?.parse(number).map_err(|e| e.to_string()),
                (_, other) => Err(format!("{other} is not a quantity")),
            };
            facts.values.push(
                value.map_err(|what| {
                    format!("{} is given as {value_of}: {what}", fact.id, value_of = value_text(list))
                })?,
            );
        }
        facts.starts.push(u32::try_from(facts.values.len()).unwrap_or(u32::MAX));
    }
    Ok(facts)
}

fn value_text(list: &[CaseValue]) -> String {
    list.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ")
}

fn of_kind(kind: &str) -> Result<Kind, String> {
    Kind::by_id(kind).ok_or_else(|| format!("there is no kind of quantity called {kind}"))
}

/// SI in one of a meter: passes and events count, the rest are metres and seconds.
#[must_use]
pub fn meter_unit(meter: &str) -> f64 {
    match meter {
        "miles" => factor::MILE,
        "hours" => 3_600.0,
        "months" => factor::MONTH,
        _ => 1.0,
    }
}
