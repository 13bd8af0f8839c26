//! A table's text as values with their places: JSON with `//` remarks and a comma after the last entry.

use crate::fault::TableFault;
use jsonc_parser::ast::{self, ObjectPropName};
use jsonc_parser::errors::ParseErrorKind as Kind;
use std::collections::BTreeMap;
use std::ops::Range;
use thou_text::clean::{clean, clip};
use thou_text::json::{FaultWords, FileWords, JsonSlip, place};
use thou_text::{list, nearest};

/// A table.
const TABLE: FileWords = FileWords {
    called: "table",
    start: "`thou pack new NAME --table` writes one to start from",
    // a full one has less than 50 KB
    most_bytes: 1 << 20,
    too_much: "is this a table?",
    most_depth: 16,
    too_deep: "a table needs seven: is a bracket not closed?",
    remarks: true,
    words,
};

/// A text of the table, and where each byte of it stands in the file.
#[derive(Debug, Clone)]
pub(crate) struct SourceText {
    pub(crate) value: String,
    /// With the quotes.
    pub(crate) span: Range<usize>,
    at: Vec<usize>,
}

impl SourceText {
    /// The place in the file of bytes of the value.
    pub(crate) fn place(&self, bytes: &Range<usize>) -> Range<usize> {
        let of = |byte: usize| self.at.get(byte).copied().unwrap_or(self.span.end.saturating_sub(1));
        let start = of(bytes.start);
        start..of(bytes.end).max(start + 1).min(self.span.end)
    }
}

/// The fields of an object that was looked at.
pub(crate) type Fields<'v, 't> = BTreeMap<&'v str, &'v ast::Value<'t>>;

/// Reads values, and notes what is wrong with them.
pub(crate) struct TableReader<'t> {
    pub(crate) text: &'t str,
    pub(crate) faults: Vec<TableFault>,
}

impl<'t> TableReader<'t> {
    pub(crate) fn new(text: &'t str) -> Self {
        Self { text, faults: Vec::new() }
    }

    pub(crate) fn say(&mut self, span: Range<usize>, message: impl Into<String>, help: Option<String>) {
        self.faults.push(TableFault { message: message.into(), help, span });
    }

    /// The text as one value; none where it is no JSON, and then that is noted.
    pub(crate) fn parse(&mut self) -> Option<ast::Value<'t>> {
        TABLE.read(self.text).map_err(|JsonSlip { message, help, span }| self.say(span, message, help)).ok()
    }

    /// The fields of an object: each known, each once, those that must be there there.
    pub(crate) fn fields<'v>(
        &mut self,
        value: &'v ast::Value<'t>,
        what: &str,
        known: &[&str],
        needed: &[&str],
    ) -> Option<Fields<'v, 't>> {
        let ast::Value::Object(object) = value else {
            self.say(place(value), format!("{what} is an object in braces"), None);
            return None;
        };
        let mut fields = BTreeMap::new();
        for property in &object.properties {
            let (name, range) = match &property.name {
                ObjectPropName::String(s) => (s.value.as_ref(), s.range),
                ObjectPropName::Word(w) => (w.value, w.range),
            };
            let at = range.start..range.end;
            if !known.contains(&name) {
                let help = match nearest(name, known.iter().copied()) {
                    Some(near) => format!("did you mean \"{near}\"?"),
                    None => format!("{what} has {}", list(known)),
                };
                self.say(at, format!("{what} has no field \"{}\"", clip(name, 40)), Some(help));
            } else if fields.insert(name, &property.value).is_some() {
                self.say(at, format!("\"{name}\" is written twice"), Some("keep one of them".to_owned()));
            }
        }
        for name in needed.iter().filter(|n| !fields.contains_key(**n)) {
            let range = object.range;
            self.say(range.start..range.start + 1, format!("{what} has no \"{name}\""), None);
        }
        Some(fields)
    }

    /// The fields of an object whose names are the table's own, each once.
    pub(crate) fn named<'v>(
        &mut self,
        value: &'v ast::Value<'t>,
        what: &str,
        most: usize,
    ) -> Vec<(SourceText, &'v ast::Value<'t>)> {
        let ast::Value::Object(object) = value else {
            self.say(place(value), format!("{what} is an object in braces"), None);
            return Vec::new();
        };
        if object.properties.len() > most {
            let at = place(value).start;
            self.say(
                at..at + 1,
                format!("{what} has {} entries, and {most} is the most", object.properties.len()),
                None,
            );
            return Vec::new();
        }
        let mut all: Vec<(SourceText, &ast::Value<'t>)> = Vec::new();
        for property in &object.properties {
            let (name, range) = match &property.name {
                ObjectPropName::String(s) => (s.value.to_string(), s.range),
                ObjectPropName::Word(w) => (w.value.to_owned(), w.range),
            };
            let span = range.start..range.end;
            if all.iter().any(|(n, _)| n.value == name) {
                self.say(
                    span,
                    format!("\"{}\" is written twice", clip(&name, 40)),
                    Some("keep one of them".to_owned()),
                );
                continue;
            }
            let at = places(self.text, &span);
            all.push((SourceText { value: name, at, span }, &property.value));
        }
        all
    }

    /// A text of at most so many characters.
    pub(crate) fn string(&mut self, value: &ast::Value<'t>, what: &str, most: usize) -> Option<SourceText> {
        let span = place(value);
        let ast::Value::StringLit(literal) = value else {
            self.say(span, format!("{what} is a text in double quotes"), None);
            return None;
        };
        let text = SourceText { value: literal.value.to_string(), at: places(self.text, &span), span: span.clone() };
        let long = text.value.chars().count();
        // what is drawn as nothing is nothing
        if clean(&text.value).trim().is_empty() || long > most {
            let wrong = if long > most { format!("longer than {most} characters") } else { "empty".to_owned() };
            self.say(span, format!("{what} is {wrong}"), None);
            return None;
        }
        Some(text)
    }

    /// An expression: a text, or a number alone, which is one without a unit.
    pub(crate) fn expression(&mut self, value: &ast::Value<'t>, what: &str) -> Option<SourceText> {
        match value {
            ast::Value::StringLit(literal) => {
                let span = place(value);
                Some(SourceText { value: literal.value.to_string(), at: places(self.text, &span), span })
            }
            ast::Value::NumberLit(number) => {
                let span = place(value);
                Some(SourceText { value: number.value.to_owned(), at: (span.start..=span.end).collect(), span })
            }
            ast::Value::BooleanLit(b) => {
                let span = place(value);
                Some(SourceText { value: b.value.to_string(), at: (span.start..=span.end).collect(), span })
            }
            other => {
                self.say(place(other), format!("{what} is an expression in double quotes, such as \"2.5 thou\""), None);
                None
            }
        }
    }

    /// One of these words.
    pub(crate) fn word<T: Copy>(&mut self, value: &ast::Value<'t>, what: &str, words: &[(&str, T)]) -> Option<T> {
        let text = self.string(value, what, 60)?;
        let found = words.iter().find(|(word, _)| *word == text.value);
        if found.is_none() {
            let all: Vec<&str> = words.iter().map(|(word, _)| *word).collect();
            let near = nearest(&text.value, all.iter().copied()).map(|n| format!("did you mean \"{n}\"? "));
            let help = format!("{}{what} is {}", near.unwrap_or_default(), list(&all));
            self.say(
                text.span,
                format!("{what} is \"{}\", which thou does not know", clip(&text.value, 40)),
                Some(help),
            );
        }
        found.map(|(_, value)| *value)
    }

    /// A list of at most so many entries.
    pub(crate) fn array<'v>(&mut self, value: &'v ast::Value<'t>, what: &str, most: usize) -> &'v [ast::Value<'t>] {
        let ast::Value::Array(array) = value else {
            self.say(place(value), format!("{what} is a list in [ ]"), None);
            return &[];
        };
        if array.elements.len() > most {
            let at = place(value).start;
            self.say(at..at + 1, format!("{what} has {} entries, and {most} is the most", array.elements.len()), None);
            return &[];
        }
        &array.elements
    }

    /// A list of texts, each of them once.
    pub(crate) fn strings(
        &mut self,
        value: &ast::Value<'t>,
        what: &str,
        most: usize,
        longest: usize,
    ) -> Vec<SourceText> {
        let mut texts: Vec<SourceText> = Vec::new();
        for item in self.array(value, what, most) {
            let Some(text) = self.string(item, what, longest) else { continue };
            if texts.iter().any(|t| t.value == text.value) {
                let message = format!("{what} has \"{}\" twice", clip(&text.value, 40));
                self.say(text.span, message, Some("keep one of them".to_owned()));
            } else {
                texts.push(text);
            }
        }
        texts
    }

    /// Yes or no.
    pub(crate) fn yes(&mut self, value: &ast::Value<'t>, what: &str) -> bool {
        if let ast::Value::BooleanLit(b) = value {
            return b.value;
        }
        self.say(place(value), format!("{what} is true or false"), None);
        false
    }

    /// A plain number within limits.
    pub(crate) fn number(&mut self, value: &ast::Value<'t>, what: &str, low: f64, high: f64) -> Option<f64> {
        let number = match value {
            ast::Value::NumberLit(n) => n.value.parse::<f64>().ok().filter(|n| (low..=high).contains(n)),
            _ => None,
        };
        if number.is_none() {
            self.say(place(value), format!("{what} is a number from {low} to {high}"), None);
        }
        number
    }
}

/// For each byte of a quoted text's value, and for its end, the byte of the file that it stands at.
fn places(file: &str, span: &Range<usize>) -> Vec<usize> {
    let inside = file.get(span.start + 1..span.end.saturating_sub(1)).unwrap_or("");
    let mut at = Vec::with_capacity(inside.len() + 1);
    let mut chars = inside.char_indices().peekable();
    while let Some((offset, c)) = chars.next() {
        let start = span.start + 1 + offset;
        let mut bytes = c.len_utf8();
        if c == '\\' {
            match chars.next() {
                Some((_, 'u')) => {
                    let hex: String = chars.by_ref().take(4).map(|(_, d)| d).collect();
                    let code = u32::from_str_radix(&hex, 16).unwrap_or(0xfffd);
                    // half of a pair gives two of the four bytes of its character
                    bytes = char::from_u32(code).map_or(2, char::len_utf8);
                }
                _ => bytes = 1,
            }
        }
        at.extend(std::iter::repeat_n(start, bytes));
    }
    at.push(span.end.saturating_sub(1));
    at
}

fn words(kind: &Kind) -> Option<FaultWords> {
    Some(match kind {
        Kind::SingleQuotedStringsNotAllowed => {
            ("text stands in single quotes", Some("use double quotes around an expression, single ones inside it"))
        }
        Kind::UnexpectedWord | Kind::UnexpectedToken => {
            ("this is neither text, number, true nor false", Some("put an expression in double quotes: \"2.5 thou\""))
        }
        _ => return None,
    })
}
