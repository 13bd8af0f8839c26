//! A sheet as it would be with some fields written otherwise: for a look at what follows, never to be kept.

use super::Sheet;
use super::dotted::below;
use super::fault::{SheetFaults, clean, escape};
use super::json;
use super::model::{Change, Source};
use super::schema::hold_to_schema;
use serde_json::Value;
use std::str::FromStr;
use thou_fields::FieldValue;

/// A field and what to write into it, as `rods.length=6.125 in`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Assignment {
    path: String,
    value: String,
}

impl FromStr for Assignment {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let shape = "write FIELD=VALUE, like rods.length=\"6.125 in\"";
        let (path, value) = text.split_once('=').ok_or(shape)?;
        let (path, value) = (path.trim().replace('/', "."), value.trim());
        let path = path.trim_matches('.').to_owned();
        if path.is_empty() || path.split('.').any(str::is_empty) {
            return Err(format!("no field is named before the =: {shape}"));
        }
        if value.is_empty() {
            return Err(format!("nothing stands after {path}=: {shape}; null takes the field out"));
        }
        if of_kind(&path) && (value.contains("..") || value.contains(" to ") || value.contains(',')) {
            return Err("one value at a time: look at the page once for each".to_owned());
        }
        Ok(Self { path, value: value.to_owned() })
    }
}

/// Why there is no such sheet.
#[derive(Debug)]
pub enum WhatIfFault {
    /// A field cannot be written there.
    Field(String),
    /// What the sheet would be does not hold together.
    Sheet(SheetFaults),
}

/// Whether a field holds a quantity.
fn of_kind(path: &str) -> bool {
    thou_fields::field(path).is_some_and(|f| f.kind().is_some())
}

/// What is written: JSON as it stands, all else as a text, and so whatever a field of words is given.
fn literal(path: &str, value: &str) -> Value {
    let words = thou_fields::field(path).is_some_and(|f| {
        matches!(f.value, FieldValue::Text | FieldValue::Choice(_) | FieldValue::Day | FieldValue::Constant(_))
    });
    let text = || Value::String(value.to_owned());
    match serde_json::from_str::<Value>(value) {
        Ok(Value::Number(_) | Value::Bool(_)) if words => text(),
        Ok(read) => read,
        Err(_) => text(),
    }
}

/// A value as a person reads it: a text without its quotes.
fn shown(value: &Value) -> String {
    value.as_str().map_or_else(|| value.to_string(), str::to_owned)
}

impl Sheet {
    /// The sheet with these fields written otherwise, read anew like any other; it knows what was changed. Faults point
    /// into the changed text.
    ///
    /// # Errors
    /// [`WhatIfFault`]: there is no such place in the sheet, or the sheet would not hold together.
    pub fn what_if(&self, assignments: &[Assignment]) -> Result<Self, WhatIfFault> {
        let mut text = self.source.text.clone();
        let mut changes: Vec<Change> = Vec::new();
        for Assignment { path, value } in assignments {
            if changes.iter().any(|c| c.path == *path) {
                return Err(WhatIfFault::Field(format!("{path} is changed twice: leave one of them out")));
            }
            let value = literal(path, value);
            let (changed, was) = write(&text, path, &value).map_err(WhatIfFault::Field)?;
            text = changed;
            changes.push(Change { path: path.clone(), was: was.map(|v| shown(&v)), now: shown(&value) });
        }
        let with: Vec<String> = changes.iter().map(|c| format!("{} = {}", c.path, clean(&c.now, 40))).collect();
        let source = Source {
            name: format!("{}, with {}", self.source.name, with.join(", ")),
            folder: self.source.folder.clone(),
            kept: self.source.kept.clone(),
            ..Source::default()
        };
        let mut sheet = Self::parse_from(source, &text, hold_to_schema).map_err(WhatIfFault::Sheet)?;
        sheet.source.name.clone_from(&self.source.name);
        sheet.changes = changes;
        Ok(sheet)
    }
}

/// The text with a value at a dotted path, and what stood there. Every other line stays as it is.
fn write(text: &str, path: &str, value: &Value) -> Result<(String, Option<Value>), String> {
    let source = Source::of_text("", text);
    let parsed = json::parse(&source).map_err(|fault| fault.message)?;
    let steps: Vec<&str> = path.split('.').collect();
    let mut pointer = String::new();
    let mut at = &parsed.value;
    let mut found = 0;
    for step in &steps {
        let Some(next) = below(at, step) else { break };
        pointer = format!("{pointer}/{}", escape(step));
        (at, found) = (next, found + 1);
    }
    let span = parsed.spans.get(&pointer).ok_or_else(|| format!("{path}: nothing is known of that place"))?;
    let (left, right) = (steps.get(..found).unwrap_or(&[]).join("."), steps.get(found..).unwrap_or(&[]));
    // what is not there yet, from the inside out
    let inner = |names: &[&str]| {
        names
            .iter()
            .rev()
            .fold(value.clone(), |inner, name| Value::Object([((*name).to_owned(), inner)].into_iter().collect()))
    };
    let replaced = |with: &Value, range: std::ops::Range<usize>| {
        let (before, after) = (text.get(..range.start).unwrap_or(""), text.get(range.end..).unwrap_or(""));
        format!("{before}{with}{after}")
    };
    match (at, right) {
        (old, []) => {
            let was = Some(old.clone()).filter(|v| !v.is_null());
            Ok((replaced(value, span.clone()), was))
        }
        (Value::Null, names) => Ok((replaced(&inner(names), span.clone()), None)),
        (Value::Object(map), [first, names @ ..]) => {
            let comma = if map.is_empty() { "" } else { ", " };
            let (before, after) = (text.get(..span.start + 1).unwrap_or(""), text.get(span.start + 1..).unwrap_or(""));
            Ok((format!("{before}{}: {}{comma}{after}", Value::String((*first).to_owned()), inner(names)), None))
        }
        (Value::Array(list), [first, ..]) => {
            let places = match list.len() {
                0 => "it has none".to_owned(),
                1 => "its only place is 0".to_owned(),
                n => format!("its places are 0 to {}", n - 1),
            };
            Err(format!("{path}: {left} is a list, and {} is no place in it; {places}", clean(first, 20)))
        }
        (old, [first, ..]) => {
            Err(format!("{path}: {left} is {}, which has no {}", clean(&old.to_string(), 40), clean(first, 20)))
        }
    }
}
