//! From bytes to a JSON value with the place of everything in it. Strict JSON (RFC 8259): no comments, no trailing commas.

use super::fault::{Fault, clean, escape};
use super::model::Source;
use jsonc_parser::ast;
use jsonc_parser::errors::ParseErrorKind;
use serde_json::Value;
use std::collections::BTreeMap;
use std::ops::Range;
use thou_text::json::{FaultWords, FileWords, JsonSlip, place};

/// A sheet.
pub(super) const SHEET: FileWords = FileWords {
    called: "sheet",
    start: "thou new writes one to start from",
    most_bytes: 16 << 20,
    too_much: "is this a build sheet? A full one has less than 1 MB",
    most_depth: 64,
    too_deep: "a sheet needs fewer than ten: is a bracket not closed?",
    remarks: false,
    words,
};

/// Fields written twice that are told apart; finding the line of each takes a pass over the text.
const MOST_TWICE: usize = 50;

/// A sheet's value, and where it stands.
pub(super) struct Parsed {
    pub(super) value: Value,
    /// Byte ranges of values by JSON pointer.
    pub(super) spans: BTreeMap<String, Range<usize>>,
    /// Byte ranges of the names of fields by JSON pointer.
    pub(super) keys: BTreeMap<String, Range<usize>>,
    /// Fields that are written twice.
    pub(super) twice: Vec<Fault>,
}

/// Parses a text that is UTF-8 and without a byte order mark.
pub(super) fn parse(source: &Source) -> Result<Parsed, Box<Fault>> {
    let text = source.text.as_str();
    let root =
        SHEET.read(text).map_err(|JsonSlip { message, help, span }| fault(text, span, &message, help.as_deref()))?;
    // the tree is lenient in places (numbers, escapes): the value comes from a strict reader
    let value: Value = serde_json::from_str(text).map_err(|error| {
        let at = offset(text, error.line(), error.column());
        let what = error.to_string();
        let what = what.split(" at line ").next().unwrap_or("");
        fault(text, at..at, &format!("this is not JSON: {what}"), None)
    })?;
    let mut parsed = Parsed { value, spans: BTreeMap::new(), keys: BTreeMap::new(), twice: Vec::new() };
    walk(source, &root, "", &mut parsed);
    Ok(parsed)
}

fn fault(text: &str, span: Range<usize>, message: &str, help: Option<&str>) -> Box<Fault> {
    let start = span.start.min(text.len());
    Box::new(Fault {
        message: message.to_owned(),
        help: help.map(str::to_owned),
        pointer: String::new(),
        span: start..span.end.clamp(start, text.len()),
        second: None,
    })
}

fn words(kind: &ParseErrorKind) -> Option<FaultWords> {
    Some(match kind {
        ParseErrorKind::CommentsNotAllowed | ParseErrorKind::UnterminatedCommentBlock => {
            ("comments are not allowed in JSON", Some("put the text into \"notes\""))
        }
        ParseErrorKind::ExpectedObjectValue => {
            ("the value after the colon is missing", Some("write null where nothing was read yet"))
        }
        _ => return None,
    })
}

fn offset(text: &str, line: usize, column: usize) -> usize {
    let start: usize = text.split_inclusive('\n').take(line.saturating_sub(1)).map(str::len).sum();
    let mut at = (start + column.saturating_sub(1)).min(text.len());
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}

fn walk(source: &Source, node: &ast::Value<'_>, pointer: &str, out: &mut Parsed) {
    out.spans.insert(pointer.to_owned(), place(node));
    match node {
        ast::Value::Object(object) => {
            for property in &object.properties {
                let (name, at) = match &property.name {
                    ast::ObjectPropName::String(s) => (s.value.as_ref(), s.range),
                    ast::ObjectPropName::Word(w) => (w.value, w.range),
                };
                let child = format!("{pointer}/{}", escape(name));
                if out.twice.len() > MOST_TWICE {
                    return;
                }
                if let Some(first) = out.keys.get(&child).cloned() {
                    let (a, b) = (source.position(first.start).0, source.position(at.start).0);
                    let lines = if a == b { format!("on line {a}") } else { format!("on lines {a} and {b}") };
                    out.twice.push(Fault {
                        message: format!("\"{}\" is written twice, {lines}", clean(name, 40)),
                        help: Some("keep one of them: which one counts, nobody can tell".to_owned()),
                        pointer: child,
                        span: at.start..at.end,
                        second: Some((first, "first here".to_owned())),
                    });
                    continue;
                }
                out.keys.insert(child.clone(), at.start..at.end);
                walk(source, &property.value, &child, out);
            }
        }
        ast::Value::Array(array) => {
            for (index, element) in array.elements.iter().enumerate() {
                walk(source, element, &format!("{pointer}/{index}"), out);
            }
        }
        _ => {}
    }
}
