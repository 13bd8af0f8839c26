//! From bytes to a JSON value with the place of everything in it. Strict JSON (RFC 8259): no comments, no trailing commas.

use super::fault::{Fault, clean, escape};
use super::model::Source;
use jsonc_parser::ast;
use jsonc_parser::errors::ParseErrorKind;
use jsonc_parser::{CollectOptions, ParseOptions};
use serde_json::Value;
use std::collections::BTreeMap;
use std::ops::Range;

/// Largest sheet that is read, bytes.
pub(super) const MOST_BYTES: usize = 16 << 20;
/// Deepest nesting; a sheet needs about eight.
const MOST_DEPTH: usize = 64;
/// Most values in a sheet. Some 5,000 are in a full one.
const MOST_VALUES: usize = 200_000;

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
    guard(text)?;
    let strict = ParseOptions {
        allow_comments: false,
        allow_loose_object_property_names: false,
        allow_trailing_commas: false,
        allow_missing_commas: false,
        allow_single_quoted_strings: false,
        allow_hexadecimal_numbers: false,
        allow_unary_plus_numbers: false,
        allow_bare_decimal_point_numbers: false,
        allow_non_finite_numbers: false,
        allow_extended_string_escapes: false,
    };
    let tree = jsonc_parser::parse_to_ast(text, &CollectOptions::default(), &strict).map_err(|error| {
        let range = error.range();
        let (message, help) = words(error.kind());
        fault(text, range.start..range.end, message, help)
    })?;
    // the tree is lenient in places (numbers, escapes): the value comes from a strict reader
    let value: Value = serde_json::from_str(text).map_err(|error| {
        let at = offset(text, error.line(), error.column());
        let what = error.to_string();
        let what = what.split(" at line ").next().unwrap_or("");
        fault(text, at..at, &format!("this is not JSON: {what}"), None)
    })?;
    let Some(root) = tree.value else {
        return Err(fault(text, 0..0, "this is not JSON", None));
    };
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

/// What must hold before the text is parsed at all.
fn guard(text: &str) -> Result<(), Box<Fault>> {
    if text.trim().is_empty() {
        return Err(fault(text, 0..0, "the sheet is empty", Some("thou new writes one to start from")));
    }
    let (mut depth, mut values, mut quoted, mut escaped, mut opened) = (0_usize, 1_usize, false, false, 0);
    for (at, byte) in text.bytes().enumerate() {
        if quoted {
            match byte {
                _ if escaped => escaped = false,
                b'\\' => escaped = true,
                b'"' => quoted = false,
                b'\n' => {
                    let message = "this text is not closed on its line";
                    return Err(fault(
                        text,
                        opened..at,
                        message,
                        Some("text ends at a double quote; a new line in it is \\n"),
                    ));
                }
                _ => {}
            }
            continue;
        }
        match byte {
            b'"' => (quoted, opened) = (true, at),
            b'{' | b'[' => depth += 1,
            b'}' | b']' => depth = depth.saturating_sub(1),
            b',' => values += 1,
            _ => {}
        }
        if depth > MOST_DEPTH {
            let message = format!("brackets are nested more than {MOST_DEPTH} deep");
            return Err(fault(
                text,
                at..at + 1,
                &message,
                Some("a sheet needs fewer than ten: is a bracket not closed?"),
            ));
        }
        if values > MOST_VALUES {
            let message = format!("there are more than {MOST_VALUES} values in this file");
            return Err(fault(text, at..at + 1, &message, Some("is this a build sheet?")));
        }
    }
    Ok(())
}

pub(super) const TOO_BIG_HELP: &str = "is this a build sheet? A full one has less than 1 MB";

pub(super) fn too_big(bytes: u64) -> String {
    format!("the file has {} MB: a sheet is read up to {} MB", bytes.div_ceil(1 << 20), MOST_BYTES >> 20)
}

fn words(kind: &ParseErrorKind) -> (&'static str, Option<&'static str>) {
    use ParseErrorKind as K;
    match kind {
        K::CommentsNotAllowed | K::UnterminatedCommentBlock => {
            ("comments are not allowed in JSON", Some("put the text into \"notes\""))
        }
        K::TrailingCommasNotAllowed => ("there is a comma after the last entry", Some("take it out")),
        K::ExpectedComma => ("a comma is missing before this", None),
        K::SingleQuotedStringsNotAllowed => ("text stands in single quotes", Some("use double quotes: \"4.155 in\"")),
        K::ExpectedColonAfterObjectKey => ("a colon is missing after the name of the field", None),
        K::ExpectedObjectValue => {
            ("the value after the colon is missing", Some("write null where nothing was read yet"))
        }
        K::ExpectedStringObjectProperty | K::UnexpectedTokenInObject => {
            ("a field's name in double quotes should stand here", None)
        }
        K::UnterminatedObject => ("this brace { is never closed", Some("is the file cut off?")),
        K::UnterminatedArray => ("this bracket [ is never closed", Some("is the file cut off?")),
        K::UnexpectedCloseBrace => ("this closing brace } has no opening one", None),
        K::UnexpectedCloseBracket => ("this closing bracket ] has no opening one", None),
        K::UnexpectedComma => ("there is a comma too many here", None),
        K::UnexpectedColon => ("there is a colon too many here", None),
        K::MultipleRootJsonValues => ("something follows after the end of the sheet", None),
        K::HexadecimalNumbersNotAllowed
        | K::NonFiniteNumbersNotAllowed
        | K::UnaryPlusNumbersNotAllowed
        | K::BareDecimalPointNumbersNotAllowed
        | K::ExpectedDigit
        | K::ExpectedDigitFollowingNegativeSign
        | K::ExpectedPlusMinusOrDigitInNumberLiteral => {
            ("this is not a number of JSON", Some("write it like 0.5, and a quantity as text: \"0.5 in\""))
        }
        K::UnexpectedWord | K::UnexpectedToken => {
            ("this is neither text, number, true, false nor null", Some("put text in double quotes: \"4.155 in\""))
        }
        K::String(_) => {
            ("this text is not closed or holds a bad escape", Some("text ends at a double quote, on its line"))
        }
        K::NestingDepthExceeded => ("brackets are nested too deep", None),
    }
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
    use jsonc_parser::common::Ranged;
    let range = node.range();
    out.spans.insert(pointer.to_owned(), range.start..range.end);
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
