//! A file of cases as it is written, with the line of everything in it.

use std::collections::BTreeMap;
use std::fmt;
use std::ops::Range;
use toml::de::{DeTable, DeValue};

/// What stands behind a name in a file of cases.
#[derive(Debug, Clone, PartialEq)]
pub enum CaseValue {
    /// In quotes.
    Text(String),
    /// As it is written.
    Number(String),
    /// true or false.
    Flag(bool),
    /// In [ ].
    List(Vec<Self>),
    /// In { }.
    Row(Row),
}

/// Names with their values, and the line where they start.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Counted from 1.
    pub(crate) line: usize,
    /// Each with the line where it stands.
    pub(crate) cells: BTreeMap<String, (usize, CaseValue)>,
}

impl Row {
    pub(crate) fn get(&self, name: &str) -> Option<&CaseValue> {
        self.cells.get(name).map(|(_, value)| value)
    }
    pub(crate) fn line_of(&self, name: &str) -> usize {
        self.cells.get(name).map_or(self.line, |(line, _)| *line)
    }
    /// The first name in it that is none of these.
    pub(crate) fn stray(&self, known: &[&str]) -> Option<(usize, &str)> {
        let strays = self.cells.iter().filter(|(name, _)| !known.contains(&name.as_str()));
        strays.map(|(name, (line, _))| (*line, name.as_str())).min()
    }
    /// What is in quotes behind a name.
    pub(crate) fn text(&self, name: &str) -> Result<Option<&str>, Slip> {
        match self.get(name) {
            None => Ok(None),
            Some(CaseValue::Text(text)) => Ok(Some(text)),
            Some(other) => {
                Err(Slip::new(self.line_of(name), format!("{name} is {other}, and text in quotes is wanted")))
            }
        }
    }
    /// What is true or false behind a name; false where it is not there.
    pub(crate) fn flag(&self, name: &str) -> Result<bool, Slip> {
        match self.get(name) {
            None => Ok(false),
            Some(CaseValue::Flag(yes)) => Ok(*yes),
            Some(other) => {
                Err(Slip::new(self.line_of(name), format!("{name} is {other}, and true or false is wanted")))
            }
        }
    }
    /// One row in { } or several in [ ] behind a name; none where it is not there.
    pub(crate) fn rows(&self, name: &str) -> Result<Option<Vec<&Self>>, Slip> {
        let all = match self.get(name) {
            None => return Ok(None),
            Some(CaseValue::List(list)) => list.as_slice(),
            Some(one) => std::slice::from_ref(one),
        };
        let row = |value: &'_ CaseValue| match value {
            CaseValue::Row(_) => Ok(()),
            other => Err(Slip::new(self.line_of(name), format!("{name} is {other}, and a row in {{ }} is wanted"))),
        };
        all.iter().try_for_each(row)?;
        Ok(Some(all.iter().filter_map(|v| if let CaseValue::Row(row) = v { Some(row) } else { None }).collect()))
    }
}

impl fmt::Display for CaseValue {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Text(text) => write!(f, "\"{text}\""),
            Self::Number(number) => f.write_str(number),
            Self::Flag(yes) => write!(f, "{yes}"),
            Self::List(list) => {
                let all: Vec<String> = list.iter().map(ToString::to_string).collect();
                write!(f, "[{}]", all.join(", "))
            }
            Self::Row(_) => f.write_str("a row in { }"),
        }
    }
}

/// What to do about a number or a word that differs.
pub(crate) const CORRECT: &str = "correct the rule, or the case by its source";

/// What is wrong at a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Slip {
    pub(crate) line: usize,
    pub(crate) words: String,
}

impl Slip {
    pub(crate) fn new(line: usize, words: impl Into<String>) -> Self {
        Self { line, words: words.into() }
    }
}

/// Reads a file's text.
pub(crate) fn parse(text: &str) -> Result<Row, Slip> {
    let lines = Lines::of(text);
    let table = DeTable::parse(text).map_err(|e| {
        let message = e.message().lines().collect::<Vec<_>>().join("; ");
        Slip::new(lines.at(&e.span().unwrap_or(0..0)), format!("it is not TOML: {message}"))
    })?;
    lines.row(table.get_ref(), 1)
}

/// Where each line of a text starts.
struct Lines(Vec<usize>);

impl Lines {
    fn of(text: &str) -> Self {
        Self(std::iter::once(0).chain(text.match_indices('\n').map(|(at, _)| at + 1)).collect())
    }

    fn at(&self, span: &Range<usize>) -> usize {
        self.0.partition_point(|start| *start <= span.start)
    }

    fn row(&self, table: &DeTable<'_>, line: usize) -> Result<Row, Slip> {
        let mut cells = BTreeMap::new();
        for (name, value) in table {
            let at = self.at(&name.span());
            cells.insert(name.get_ref().to_string(), (at, self.value(value.get_ref(), self.at(&value.span()))?));
        }
        Ok(Row { line, cells })
    }

    fn value(&self, value: &DeValue<'_>, line: usize) -> Result<CaseValue, Slip> {
        Ok(match value {
            DeValue::String(text) => CaseValue::Text(text.to_string()),
            DeValue::Integer(number) if number.radix() == 10 => CaseValue::Number(number.as_str().to_owned()),
            DeValue::Float(number) => CaseValue::Number(number.as_str().to_owned()),
            DeValue::Boolean(yes) => CaseValue::Flag(*yes),
            DeValue::Array(list) => {
                let one = |v: &toml::Spanned<DeValue<'_>>| self.value(v.get_ref(), self.at(&v.span()));
                CaseValue::List(list.iter().map(one).collect::<Result<_, _>>()?)
            }
            DeValue::Table(table) => CaseValue::Row(self.row(table, line)?),
            other => {
                return Err(Slip::new(line, format!("a {} says nothing here: write it in quotes", other.type_str())));
            }
        })
    }
}
