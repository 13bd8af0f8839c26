//! Makes CEL of what a machinist writes: `{fact}` and every number, with its unit or without, become names of the same
//! length, so that each column of the parser's is a column of the table's. Everything else is held to what is
//! supported, and told in words that a grammar does not have.

use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;
use thou_contract::KINDS;
use thou_text::clean::clip;
use thou_text::nearest;

/// Longest expression, bytes.
const MOST_BYTES: usize = 4_000;
/// Most words, numbers and signs in one.
const MOST_WORDS: usize = 400;
/// Deepest brackets.
const MOST_DEPTH: usize = 32;

/// The functions that there are, as they are in CEL's tree: `has` is another word there, since its macro takes a field.
pub(crate) const FUNCTIONS: [&str; 14] =
    ["hAs", "min", "max", "abs", "sqrt", "pow", "worst", "least", "sum", "mean", "count", "any", "all", "lookup"];
/// Other words.
const WORDS: [&str; 3] = ["in", "true", "false"];
/// For a message.
const SUPPORTED: &str = "an expression has {facts}, numbers with their unit, days like 2027-01-01, \"words\", + - * / < <= > \
                         >= == != && || ! ?: in [..], has({fact}), min(..), max(..), abs(..), sqrt(..), pow(.., 2), \
                         lookup(map, ..), and over places worst(..), least(..), sum(..), mean(..), count(..), any(..) and \
                         all(..)";

/// What the table has beside its rules, by the name that an expression calls it.
#[derive(Debug, Default)]
pub(crate) struct TableNames {
    /// A setting's number and unit; a day has its own.
    pub(crate) settings: BTreeMap<String, Item>,
    /// The whole name of each of the table's own fields of the sheet.
    pub(crate) inputs: BTreeMap<String, String>,
    /// Lists and maps.
    pub(crate) lists: BTreeSet<String>,
    pub(crate) maps: BTreeSet<String>,
}

/// A fault at bytes of the expression.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct ExpressionSlip {
    pub(crate) message: String,
    pub(crate) help: Option<String>,
    pub(crate) at: Range<usize>,
}

/// What a name stands for.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Item {
    Fact(String),
    Number(f64, Option<&'static str>),
    /// A day, as seconds.
    Day(f64),
    List(String),
    Map(String),
}

/// An expression as CEL.
#[derive(Debug)]
pub(crate) struct Scan {
    pub(crate) cel: String,
    /// What stands in the table at a byte, and where it ends.
    pub(crate) items: BTreeMap<usize, (usize, Item)>,
    /// Where the words, numbers and signs are.
    words: Vec<Range<usize>>,
}

impl Scan {
    /// How many words, numbers and signs there are.
    pub(crate) fn len(&self) -> usize {
        self.words.len()
    }

    /// The word at a byte, or the last one before it.
    pub(crate) fn word(&self, at: usize) -> Option<Range<usize>> {
        self.words.iter().rev().find(|w| w.start <= at).cloned()
    }
}

pub(crate) fn scan(text: &str, names: &TableNames) -> Result<Scan, ExpressionSlip> {
    if text.len() > MOST_BYTES {
        let message = format!("this expression has {} characters, and {MOST_BYTES} is the most", text.chars().count());
        return slip(message, Some("split it: a rule can have several windows, each with its own \"when\""), 0..1);
    }
    if text.trim().is_empty() {
        return slip("there is nothing here".to_owned(), Some(SUPPORTED), 0..text.len());
    }
    let mut scanner = Scanner {
        text,
        names,
        at: 0,
        scan: Scan { cel: String::with_capacity(text.len()), items: BTreeMap::new(), words: Vec::new() },
        open: Vec::new(),
    };
    while scanner.at < text.len() {
        scanner.one()?;
    }
    if let Some((at, bracket)) = scanner.open.pop() {
        return slip(format!("this {bracket} is never closed"), None, at..at + 1);
    }
    Ok(scanner.scan)
}

struct Scanner<'a> {
    text: &'a str,
    names: &'a TableNames,
    at: usize,
    scan: Scan,
    open: Vec<(usize, char)>,
}

fn slip<T>(message: String, help: Option<&str>, at: Range<usize>) -> Result<T, ExpressionSlip> {
    Err(ExpressionSlip { message, help: help.map(str::to_owned), at })
}

fn in_name(c: char) -> bool {
    c.is_ascii_alphanumeric() || c == '_'
}

impl<'a> Scanner<'a> {
    fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or("")
    }

    fn one(&mut self) -> Result<(), ExpressionSlip> {
        let rest = self.rest();
        let Some(c) = rest.chars().next() else { return Ok(()) };
        if self.scan.words.len() >= MOST_WORDS {
            let message = format!("this expression has more than {MOST_WORDS} words, numbers and signs");
            return slip(message, Some("split it: a rule can have several windows"), self.at..self.at + c.len_utf8());
        }
        match c {
            ' ' | '\t' | '\n' | '\r' => {
                self.scan.cel.push(' ');
                self.at += 1;
                Ok(())
            }
            '{' => self.fact(rest),
            '"' | '\'' => self.string(rest, c),
            '0'..='9' => self.number(rest),
            '.' if rest.chars().nth(1).is_some_and(|d| d.is_ascii_digit()) => self.number(rest),
            c if c.is_ascii_alphabetic() || c == '_' => self.name(rest),
            _ => self.sign(rest, c),
        }
    }

    /// Takes so many bytes as they are.
    fn keep(&mut self, length: usize) {
        let word = self.rest().get(..length).unwrap_or("");
        self.scan.cel.push_str(word);
        self.scan.words.push(self.at..self.at + length);
        self.at += length;
    }

    /// Puts a name of the same length there.
    fn replace(&mut self, length: usize, item: Item) {
        self.scan.cel.push('n');
        self.scan.cel.extend(std::iter::repeat_n('_', length.saturating_sub(1)));
        self.scan.words.push(self.at..self.at + length);
        self.scan.items.insert(self.at, (self.at + length, item));
        self.at += length;
    }

    fn fact(&mut self, rest: &str) -> Result<(), ExpressionSlip> {
        let Some(end) = rest.find('}') else {
            return slip(
                "this { is never closed".to_owned(),
                Some("a fact is written {bore.diameter}"),
                self.at..self.at + 1,
            );
        };
        let id = rest.get(1..end).unwrap_or("").trim();
        let plain = |c: char| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '.' || c == '-';
        if id.is_empty() || !id.chars().all(plain) {
            let message = format!("{{{}}} is no name of a fact", clip(id, 40));
            return slip(
                message,
                Some("a fact is written {bore.diameter}; `thou facts` lists them"),
                self.at..self.at + end + 1,
            );
        }
        let item = match (self.names.settings.get(id), self.names.inputs.get(id)) {
            (Some(setting), _) => setting.clone(),
            (None, Some(whole)) => Item::Fact(whole.clone()),
            (None, None) => Item::Fact(id.to_owned()),
        };
        self.replace(end + 1, item);
        Ok(())
    }

    fn string(&mut self, rest: &str, quote: char) -> Result<(), ExpressionSlip> {
        let inside = rest.get(1..).unwrap_or("");
        let Some(length) = inside.find(quote) else {
            let inches = self.scan.items.keys().next_back().is_some_and(|last| {
                self.scan.items.get(last).is_some_and(|(end, item)| *end == self.at && matches!(item, Item::Number(..)))
            });
            let help = if inches { Some("inches are written in: 4.2 in") } else { None };
            return slip(format!("this {quote} is never closed"), help, self.at..self.at + 1);
        };
        let word = inside.get(..length).unwrap_or("");
        if let Some(odd) = word.chars().find(|c| !c.is_ascii() || *c == '\\' || c.is_ascii_control()) {
            let message = format!("\"{}\" has a {} in it, and no choice has", clip(word, 40), odd.escape_default());
            return slip(message, None, self.at..self.at + length + 2);
        }
        self.keep(length + 2);
        Ok(())
    }

    fn number(&mut self, rest: &str) -> Result<(), ExpressionSlip> {
        if let Some(text) = rest.get(..10).filter(|t| like_a_day(t)) {
            let Some(day) = thou_contract::day(text) else {
                return slip(format!("the calendar has no {text}"), None, self.at..self.at + 10);
            };
            self.replace(10, Item::Day(day));
            return Ok(());
        }
        let end = number_end(rest);
        let digits = rest.get(..end).unwrap_or("");
        let Some(value) = digits.parse::<f64>().ok().filter(|v| v.is_finite()) else {
            return slip(format!("{} is no number", clip(digits, 40)), None, self.at..self.at + end);
        };
        let after = rest.get(end..).unwrap_or("");
        let gap = after.len() - after.trim_start_matches(' ').len();
        let after = after.get(gap..).unwrap_or("");
        if let Some(unit) = unit(after) {
            self.replace(end + gap + unit.len(), Item::Number(value, Some(unit)));
            return Ok(());
        }
        let word: String = after.chars().take_while(|c| in_name(*c) || "°µ²³·".contains(*c)).collect();
        if !word.is_empty() && word != "in" {
            let units = || KINDS.iter().flat_map(|k| k.units).map(|u| u.name).filter(|n| !n.is_empty());
            let near = KINDS
                .iter()
                .filter_map(|k| thou_contract::Kind::by_id(k.id))
                .find_map(|k| thou_contract::nearest_unit(k, &word))
                .or_else(|| nearest(&word, units()));
            let help = near.map(|u| format!("did you mean {digits} {u}?"));
            let at = self.at + end + gap;
            return slip(
                format!("'{}' is not a unit that thou knows", clip(&word, 40)),
                help.as_deref(),
                at..at + word.len(),
            );
        }
        self.replace(end, Item::Number(value, None));
        Ok(())
    }

    fn name(&mut self, rest: &str) -> Result<(), ExpressionSlip> {
        let length = rest.find(|c| !in_name(c)).unwrap_or(rest.len());
        let word = rest.get(..length).unwrap_or("");
        let whole = rest.find(|c: char| !(in_name(c) || c == '.' || c == '-')).unwrap_or(rest.len());
        let name = rest.get(..whole).unwrap_or(word).trim_end_matches(['.', '-']);
        if self.names.lists.contains(name) {
            self.replace(name.len(), Item::List(name.to_owned()));
            return Ok(());
        }
        if self.names.maps.contains(name) {
            self.replace(name.len(), Item::Map(name.to_owned()));
            return Ok(());
        }
        if word == "has" || FUNCTIONS.contains(&word) || WORDS.contains(&word) {
            if word == "has" {
                // the macro of that name takes a field of a map, and a fact is none
                self.scan.cel.push_str("hAs");
                self.scan.words.push(self.at..self.at + length);
                self.at += length;
            } else {
                self.keep(length);
            }
            return Ok(());
        }
        let called = rest.get(length..).unwrap_or("").trim_start().starts_with('(');
        if called {
            let message = format!("there is no {}(..) in a table", clip(word, 40));
            let near = nearest(word, FUNCTIONS.iter().copied().filter(|f| *f != "hAs"));
            let all = || format!("the functions are has, {}", FUNCTIONS.get(1..).unwrap_or_default().join(", "));
            let help = near.map_or_else(all, |n| format!("did you mean {n}(..)?"));
            return slip(message, Some(&help), self.at..self.at + length);
        }
        let kept = || self.names.lists.iter().chain(&self.names.maps).map(String::as_str);
        if let Some(near) = nearest(name, kept()) {
            let message = format!("{} is no list or map of this table", clip(name, 60));
            return slip(message, Some(&format!("did you mean {near}?")), self.at..self.at + name.len().max(1));
        }
        let message = format!("{} stands alone", clip(name, 60));
        let help = format!("a fact stands in braces, {{{}}}; a word of a choice in quotes", clip(name, 60));
        slip(message, Some(&help), self.at..self.at + name.len().max(1))
    }

    fn sign(&mut self, rest: &str, c: char) -> Result<(), ExpressionSlip> {
        let two = rest.get(..2).unwrap_or("");
        if ["<=", ">=", "==", "!=", "&&", "||"].contains(&two) {
            self.keep(2);
            return Ok(());
        }
        let here = self.at..self.at + c.len_utf8();
        match c {
            '(' | '[' => {
                self.open.push((self.at, c));
                if self.open.len() > MOST_DEPTH {
                    let message = format!("brackets are nested more than {MOST_DEPTH} deep");
                    return slip(message, None, here);
                }
            }
            ')' | ']' => {
                let opening = if c == ')' { '(' } else { '[' };
                if self.open.pop().is_none_or(|(_, o)| o != opening) {
                    return slip(format!("this {c} closes no {opening}"), None, here);
                }
            }
            '+' | '-' | '*' | '/' | '<' | '>' | '!' | '?' | ':' | ',' => {}
            '=' => return slip("one = says nothing here".to_owned(), Some("write =="), here),
            '&' | '|' => return slip(format!("one {c} says nothing here"), Some(&format!("write {c}{c}")), here),
            '≤' => return slip("≤ is written <=".to_owned(), None, here),
            '≥' => return slip("≥ is written >=".to_owned(), None, here),
            '≠' => return slip("≠ is written !=".to_owned(), None, here),
            '×' | '·' => return slip(format!("{c} is written *"), None, here),
            '÷' => return slip("÷ is written /".to_owned(), None, here),
            '\u{2212}' | '–' => return slip(format!("{c} is written -"), None, here),
            '%' => {
                return slip("% is a unit, of a share: 5 %; there is no remainder".to_owned(), Some(SUPPORTED), here);
            }
            c => {
                let message = format!("{} has no meaning in a table", clip(&format!("'{c}'"), 10));
                return slip(message, Some(SUPPORTED), here);
            }
        }
        self.keep(1);
        Ok(())
    }
}

fn like_a_day(text: &str) -> bool {
    text.bytes().enumerate().all(|(at, b)| if matches!(at, 4 | 7) { b == b'-' } else { b.is_ascii_digit() })
}

fn number_end(text: &str) -> usize {
    let bytes = text.as_bytes();
    let digits = |from: usize| bytes.iter().skip(from).take_while(|b| b.is_ascii_digit()).count();
    let mut end = digits(0);
    if bytes.get(end) == Some(&b'.') {
        end += 1 + digits(end + 1);
    }
    if matches!(bytes.get(end), Some(b'e' | b'E')) {
        let sign = usize::from(matches!(bytes.get(end + 1), Some(b'+' | b'-')));
        let power = digits(end + 1 + sign);
        if power > 0 {
            end += 1 + sign + power;
        }
    }
    end
}

/// The longest unit that the text starts with.
fn unit(text: &str) -> Option<&'static str> {
    let whole = |name: &&str| {
        let tail = text.get(name.len()..).unwrap_or("");
        let ends_in_letter = name.chars().next_back().is_some_and(char::is_alphanumeric);
        // `4 in [4, 6]` asks whether, and is no length
        let asks = *name == "in" && tail.trim_start().starts_with('[');
        !(asks || ends_in_letter && tail.starts_with(|c: char| in_name(c) || c == '²' || c == '³'))
    };
    KINDS
        .iter()
        .flat_map(|kind| kind.units)
        .map(|unit| unit.name)
        .filter(|name| name.starts_with(|c: char| c.is_alphabetic() || c == '°' || c == '%'))
        .filter(|name| text.starts_with(name))
        .filter(whole)
        .max_by_key(|name| name.len())
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    #[test]
    fn columns_hold_and_units_are_the_longest() {
        let text = "{bore.nominal} < 4.2 in ? 4.5 thou : 40 lb-ft / (2 in)";
        let scan = scan(text, &TableNames::default()).unwrap();
        assert_eq!(scan.cel.len(), text.len());
        assert_eq!(scan.cel, "n_____________ < n_____ ? n_______ : n_______ / (n___)");
        let items: Vec<&Item> = scan.items.values().map(|(_, item)| item).collect();
        assert_eq!(items.get(3), Some(&&Item::Number(40.0, Some("lb-ft"))));
    }

    #[test]
    fn in_asks_before_a_bracket_and_measures_elsewhere() {
        let scan = scan("4 in [4, 4 in, 5 %]", &TableNames::default()).unwrap();
        let items: Vec<&Item> = scan.items.values().map(|(_, item)| item).collect();
        let number = |v, u| Item::Number(v, u);
        assert_eq!(items, [&number(4.0, None), &number(4.0, None), &number(4.0, Some("in")), &number(5.0, Some("%"))]);
    }

    #[test]
    fn a_unit_is_not_cut_out_of_a_longer_word() {
        assert_eq!(unit("minutes"), None);
        assert_eq!(unit("m/s * 2"), Some("m/s"));
        assert_eq!(unit("m / s"), Some("m"));
        assert_eq!(unit("µm)"), Some("µm"));
        assert_eq!(unit("in² * 2"), Some("in²"));
        assert_eq!(unit("ft-lb"), Some("ft-lb"));
    }
}
