//! A file's text as JSON with the place of every value, or what is wrong with it, in words for who wrote it.

use jsonc_parser::ast::Value;
use jsonc_parser::common::Ranged;
use jsonc_parser::errors::ParseErrorKind as Kind;
use jsonc_parser::{CollectOptions, ParseOptions};
use std::ops::Range;

/// Most values in a file. Some 5,000 are in a full sheet.
const MOST_VALUES: usize = 200_000;

/// What is wrong, and what to write instead.
pub type FaultWords = (&'static str, Option<&'static str>);

/// A file that people write: what it is called, what it may hold, and its own words for what is wrong.
#[derive(Debug, Clone, Copy)]
pub struct FileWords {
    /// "sheet".
    pub called: &'static str,
    /// Where to get one to start from, for one that is empty.
    pub start: &'static str,
    /// Largest that is read, bytes.
    pub most_bytes: usize,
    /// What to ask who has a larger one, or one with more values than any.
    pub too_much: &'static str,
    /// Deepest nesting.
    pub most_depth: usize,
    /// What to ask who nests deeper.
    pub too_deep: &'static str,
    /// Whether it may have remarks, and a comma after the last entry.
    pub remarks: bool,
    /// Its own words for a fault, where the common ones do not tell enough.
    pub words: fn(&Kind) -> Option<FaultWords>,
}

/// What is wrong with a text, at bytes of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct JsonSlip {
    /// What is wrong.
    pub message: String,
    /// What to write instead.
    pub help: Option<String>,
    /// Where, in bytes, within the text.
    pub span: Range<usize>,
}

impl FileWords {
    /// The text as one value with its places.
    ///
    /// # Errors
    /// What is wrong with it first.
    pub fn read<'t>(&self, text: &'t str) -> Result<Value<'t>, JsonSlip> {
        if text.len() > self.most_bytes {
            return Err(slip(text, 0..1, self.too_big(text.len() as u64), Some(self.too_much)));
        }
        if text.trim().is_empty() {
            return Err(slip(text, 0..0, format!("the {} is empty", self.called), Some(self.start)));
        }
        self.guard(text)?;
        let options = ParseOptions {
            allow_comments: self.remarks,
            allow_trailing_commas: self.remarks,
            allow_loose_object_property_names: false,
            allow_missing_commas: false,
            allow_single_quoted_strings: false,
            allow_hexadecimal_numbers: false,
            allow_unary_plus_numbers: false,
            allow_bare_decimal_point_numbers: false,
            allow_non_finite_numbers: false,
            allow_extended_string_escapes: false,
        };
        let tree = jsonc_parser::parse_to_ast(text, &CollectOptions::default(), &options).map_err(|error| {
            let range = error.range();
            let (message, help) = (self.words)(error.kind()).unwrap_or_else(|| words(error.kind()));
            slip(text, range.start..range.end, message.replace("{file}", self.called), help)
        })?;
        tree.value.ok_or_else(|| slip(text, 0..0, format!("the {} is empty", self.called), Some(self.start)))
    }

    /// That a file of so many bytes is not read.
    #[must_use]
    pub fn too_big(&self, bytes: u64) -> String {
        let (called, most) = (self.called, self.most_bytes >> 20);
        format!("the file has {} MB: a {called} is read up to {most} MB", bytes.div_ceil(1 << 20))
    }

    /// What must hold before the text is parsed at all: text that ends on its line, and so many brackets and values.
    fn guard(&self, text: &str) -> Result<(), JsonSlip> {
        let (mut depth, mut values) = (0_usize, 1_usize);
        let mut bytes = text.bytes().enumerate().peekable();
        while let Some((at, byte)) = bytes.next() {
            match byte {
                b'"' => quoted(text, at, &mut bytes)?,
                b'/' if self.remarks => remark(&mut bytes),
                b'{' | b'[' => depth += 1,
                b'}' | b']' => depth = depth.saturating_sub(1),
                b',' => values += 1,
                _ => {}
            }
            if depth > self.most_depth {
                let message = format!("brackets are nested more than {} deep", self.most_depth);
                return Err(slip(text, at..at + 1, message, Some(self.too_deep)));
            }
            if values > MOST_VALUES {
                let message = format!("there are more than {MOST_VALUES} values in this file");
                return Err(slip(text, at..at + 1, message, Some(self.too_much)));
            }
        }
        Ok(())
    }
}

/// Goes past the end of a quoted text.
fn quoted(text: &str, opened: usize, bytes: &mut impl Iterator<Item = (usize, u8)>) -> Result<(), JsonSlip> {
    while let Some((at, byte)) = bytes.next() {
        match byte {
            b'"' => return Ok(()),
            b'\n' => {
                let help = "text ends at a double quote; a new line in it is \\n";
                return Err(slip(text, opened..at, "this text is not closed on its line", Some(help)));
            }
            b'\\' => {
                bytes.next();
            }
            _ => {}
        }
    }
    Ok(())
}

/// Goes past the end of a remark, if it is one: `//` to the end of the line, or `/* */`.
fn remark(bytes: &mut std::iter::Peekable<impl Iterator<Item = (usize, u8)>>) {
    match bytes.peek() {
        Some((_, b'/')) => while bytes.next().is_some_and(|(_, byte)| byte != b'\n') {},
        Some((_, b'*')) => {
            bytes.next();
            while let Some((_, byte)) = bytes.next() {
                if byte == b'*' && bytes.next_if(|(_, next)| *next == b'/').is_some() {
                    break;
                }
            }
        }
        _ => {}
    }
}

fn slip(text: &str, span: Range<usize>, message: impl Into<String>, help: Option<&str>) -> JsonSlip {
    let start = span.start.min(text.len());
    JsonSlip { message: message.into(), help: help.map(str::to_owned), span: start..span.end.clamp(start, text.len()) }
}

/// The bytes that a value stands at.
#[must_use]
pub fn place(value: &Value<'_>) -> Range<usize> {
    let range = value.range();
    range.start..range.end
}

/// The words that serve for every file; `{file}` is what it is called.
fn words(kind: &Kind) -> FaultWords {
    match kind {
        Kind::CommentsNotAllowed => ("comments are not allowed in JSON", None),
        Kind::UnterminatedCommentBlock => ("this remark /* is never closed", None),
        Kind::TrailingCommasNotAllowed => ("there is a comma after the last entry", Some("take it out")),
        Kind::ExpectedComma => ("a comma is missing before this", None),
        Kind::SingleQuotedStringsNotAllowed => {
            ("text stands in single quotes", Some("use double quotes: \"4.155 in\""))
        }
        Kind::ExpectedColonAfterObjectKey => ("a colon is missing after the name of the field", None),
        Kind::ExpectedObjectValue => ("the value after the colon is missing", None),
        Kind::ExpectedStringObjectProperty | Kind::UnexpectedTokenInObject => {
            ("a field's name in double quotes should stand here", None)
        }
        Kind::UnterminatedObject => ("this brace { is never closed", Some("is the file cut off?")),
        Kind::UnterminatedArray => ("this bracket [ is never closed", Some("is the file cut off?")),
        Kind::UnexpectedCloseBrace => ("this closing brace } has no opening one", None),
        Kind::UnexpectedCloseBracket => ("this closing bracket ] has no opening one", None),
        Kind::UnexpectedComma => ("there is a comma too many here", None),
        Kind::UnexpectedColon => ("there is a colon too many here", None),
        Kind::MultipleRootJsonValues => ("something follows after the end of the {file}", None),
        Kind::HexadecimalNumbersNotAllowed
        | Kind::NonFiniteNumbersNotAllowed
        | Kind::UnaryPlusNumbersNotAllowed
        | Kind::BareDecimalPointNumbersNotAllowed
        | Kind::ExpectedDigit
        | Kind::ExpectedDigitFollowingNegativeSign
        | Kind::ExpectedPlusMinusOrDigitInNumberLiteral => {
            ("this is not a number of JSON", Some("write it like 0.5, and a quantity as text: \"0.5 in\""))
        }
        Kind::UnexpectedWord | Kind::UnexpectedToken => {
            ("this is neither text, number, true, false nor null", Some("put text in double quotes: \"4.155 in\""))
        }
        Kind::String(_) => {
            ("this text is not closed or holds a bad escape", Some("text ends at a double quote, on its line"))
        }
        Kind::NestingDepthExceeded => ("brackets are nested too deep", None),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    const STRICT: FileWords = FileWords {
        called: "sheet",
        start: "write one",
        most_bytes: 2 << 20,
        too_much: "is this a sheet?",
        most_depth: 3,
        too_deep: "is a bracket not closed?",
        remarks: false,
        words: |_| None,
    };
    const LOOSE: FileWords = FileWords {
        called: "table",
        remarks: true,
        words: |kind| matches!(kind, Kind::ExpectedComma).then_some(("a comma, please", None)),
        ..STRICT
    };

    fn told(file: &FileWords, text: &str) -> String {
        file.read(text)
            .map_or_else(|s| format!("{}..{} {}", s.span.start, s.span.end, s.message), |_| "fine".to_owned())
    }

    #[test]
    fn brackets_quotes_and_remarks_are_told_apart() {
        assert_eq!(told(&STRICT, r#"{"a": "[[[[{{{{\"[[["}"#), "fine");
        assert_eq!(told(&STRICT, "[[[[]]]]"), "3..4 brackets are nested more than 3 deep");
        assert_eq!(told(&STRICT, "{\"a\": \"b\n\"}"), "6..8 this text is not closed on its line");
        assert_eq!(told(&STRICT, "[1] // a\n"), "4..8 comments are not allowed in JSON");
        assert_eq!(told(&LOOSE, "[1, /* \" [[[[ \n */ 2, // \"[[[[\n]"), "fine");
        assert_eq!(told(&LOOSE, "[1 /* "), "3..6 this remark /* is never closed");
        assert_eq!(told(&LOOSE, "[1 / 2]"), "3..4 this is neither text, number, true, false nor null");
    }

    #[test]
    fn a_file_has_its_own_name_and_words() {
        assert_eq!(told(&STRICT, "[1 2]"), "2..2 a comma is missing before this");
        assert_eq!(told(&LOOSE, "[1 2]"), "2..2 a comma, please");
        assert_eq!(told(&STRICT, "{} {}"), "3..4 something follows after the end of the sheet");
        assert_eq!(
            [told(&STRICT, " \n"), told(&LOOSE, "// a")],
            ["0..0 the sheet is empty", "0..0 the table is empty"]
        );
        let long = format!("[{}1]", "1,".repeat(1 << 20));
        assert_eq!(told(&STRICT, &long), "0..1 the file has 3 MB: a sheet is read up to 2 MB");
        assert_eq!(told(&STRICT, &long[..900_000]), "400000..400001 there are more than 200000 values in this file");
    }
}
