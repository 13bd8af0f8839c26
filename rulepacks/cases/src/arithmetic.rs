//! The arithmetic in which a case states a number: `0.6 * 0.8e-3 * {bore.nominal}`, `2.5 thou + 0.5 thou`.
//!
//! Numbers with any unit that thou knows, names in braces, `+ - * / ^`, brackets, and `min max abs sqrt floor ceil
//! round`; the last three also to a step: `floor(1234 miles, 100 miles)`. Dimensions are checked as in a house table: a
//! length is not added to a pressure. A temperature with °F or °C is one on its scale, so a difference is written in K.

use thou_contract::{KINDS, Kind, Measure, Unit};

/// A number and what it measures; SI.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Number {
    pub(crate) value: f64,
    pub(crate) measure: Measure,
}

impl Number {
    pub(crate) fn of(value: f64, kind: Option<Kind>) -> Self {
        Self { value, measure: kind.map_or(Measure::BARE, Measure::of) }
    }
    fn bare(value: f64) -> Self {
        Self { value, measure: Measure::BARE }
    }
}

/// What a name in braces stands for: every place of a fact, or one number.
pub(crate) trait Names {
    /// # Errors
    /// Why there is no such number, in words.
    fn get(&self, name: &str) -> Result<Vec<Number>, String>;
}

/// Deepest brackets.
const MOST_DEPTH: usize = 32;

/// What an expression comes to, as a quantity of this kind; of no kind where nobody knows it, and then a unit alone says
/// what a number is.
///
/// # Errors
/// What is wrong with it, in words.
pub(crate) fn evaluate(text: &str, kind: Option<Kind>, names: &dyn Names) -> Result<Number, String> {
    let mut parser = Parser { text, at: 0, depth: 0, kind, names };
    let number = parser.sum()?;
    parser.space();
    if !parser.rest().is_empty() {
        return Err(format!("\"{}\" is more than the arithmetic has room for", parser.rest()));
    }
    if !number.value.is_finite() {
        return Err("this comes to no number".to_owned());
    }
    let Some(kind) = kind else { return Ok(number) };
    let wanted = Measure::of(kind);
    let has_bare_unit = kind.spec().units.iter().any(|u| u.name.is_empty());
    if number.measure.bare && (has_bare_unit || kind.id() == "passes") {
        return Ok(Number::of(number.value, Some(kind)));
    }
    if number.measure.bare {
        let unit = kind.spec().inch.unit;
        return Err(format!("{text} has no unit, and {} is wanted: write it like \"{text} {unit}\"", kind.noun()));
    }
    if number.measure.dim.si() != wanted.dim.si() {
        return Err(format!("this comes to {}, and {} is wanted", number.measure.name(), kind.noun()));
    }
    Ok(Number::of(number.value, Some(kind)))
}

struct Parser<'a> {
    text: &'a str,
    at: usize,
    depth: usize,
    kind: Option<Kind>,
    names: &'a dyn Names,
}

impl<'a> Parser<'a> {
    fn rest(&self) -> &'a str {
        self.text.get(self.at..).unwrap_or("")
    }

    fn space(&mut self) {
        self.at += self.rest().len() - self.rest().trim_start().len();
    }

    fn takes(&mut self, sign: char) -> bool {
        self.space();
        let there = self.rest().starts_with(sign);
        if there {
            self.at += sign.len_utf8();
        }
        there
    }

    fn sum(&mut self) -> Result<Number, String> {
        let mut left = self.product()?;
        loop {
            let sign = if self.takes('+') {
                1.0
            } else if self.takes('-') {
                -1.0
            } else {
                return Ok(left);
            };
            let right = self.product()?;
            alike(left, right)?;
            left = Number { value: left.value + sign * right.value, measure: both(left, right) };
        }
    }

    fn product(&mut self) -> Result<Number, String> {
        let mut left = self.sign()?;
        loop {
            let divides = if self.takes('*') {
                false
            } else if self.takes('/') {
                true
            } else {
                return Ok(left);
            };
            let right = self.sign()?;
            let (value, sign) = if divides { (left.value / right.value, -1) } else { (left.value * right.value, 1) };
            // 2 % of a plain number is that number's share
            let mut measure = left.measure.times(right.measure, sign);
            measure.share = left.measure.share && right.measure.bare || left.measure.bare && right.measure.share;
            left = Number { value, measure };
        }
    }

    fn sign(&mut self) -> Result<Number, String> {
        if self.takes('-') {
            let number = self.sign()?;
            return Ok(Number { value: -number.value, ..number });
        }
        self.power()
    }

    fn power(&mut self) -> Result<Number, String> {
        let base = self.one()?;
        if !self.takes('^') {
            return Ok(base);
        }
        let exponent = self.sign()?;
        if exponent.measure.dim.si() != Measure::BARE.dim {
            return Err(format!("a power is a plain number, and this is {}", exponent.measure.name()));
        }
        let dim = base.measure.dim.power(exponent.value);
        let plain = base.measure.dim.si() == Measure::BARE.dim;
        let measure = match dim {
            Some(dim) => Measure { dim, point: false, share: false, ..base.measure },
            None if plain => Measure::BARE,
            None => return Err(format!("{} to the power {} is no quantity", base.measure.name(), exponent.value)),
        };
        Ok(Number { value: base.value.powf(exponent.value), measure })
    }

    fn one(&mut self) -> Result<Number, String> {
        self.space();
        match self.rest().chars().next() {
            None => Err("the arithmetic ends where a number is wanted".to_owned()),
            Some('(') => {
                self.at += 1;
                self.depth += 1;
                if self.depth > MOST_DEPTH {
                    return Err(format!("brackets are deeper than {MOST_DEPTH}"));
                }
                let inner = self.sum()?;
                self.depth -= 1;
                self.closes()?;
                Ok(inner)
            }
            Some('{') => {
                let (name, all) = self.name()?;
                match all.as_slice() {
                    [one] => Ok(*one),
                    [] => Err(format!("{{{name}}} is not given")),
                    many => Err(format!(
                        "{{{name}}} has {} places: write {{{name}[1]}} for the first of them, or take the min or the max",
                        many.len()
                    )),
                }
            }
            Some(c) if c.is_ascii_digit() || c == '.' => self.number(),
            Some(c) if c.is_ascii_alphabetic() => self.function(),
            Some(c) => Err(format!("'{c}' stands where a number is wanted")),
        }
    }

    fn closes(&mut self) -> Result<(), String> {
        if self.takes(')') { Ok(()) } else { Err("a bracket ( is never closed".to_owned()) }
    }

    /// A name in braces and what it stands for.
    fn name(&mut self) -> Result<(&'a str, Vec<Number>), String> {
        let rest = self.rest();
        let (name, _) = rest
            .strip_prefix('{')
            .and_then(|r| r.split_once('}'))
            .ok_or_else(|| "a brace { is never closed".to_owned())?;
        self.at += name.len() + 2;
        let (bare, place) = match name.strip_suffix(']').and_then(|n| n.split_once('[')) {
            Some((bare, place)) => {
                let place = place.parse::<usize>().ok().filter(|p| *p > 0);
                (bare, Some(place.ok_or_else(|| format!("{{{name}}}: places are counted from 1"))?))
            }
            None => (name, None),
        };
        let all = self.names.get(bare.trim())?;
        let Some(place) = place else { return Ok((name, all)) };
        let one = all.get(place - 1).copied();
        let one = one.ok_or_else(|| format!("{{{bare}}} has {} places, and {place} is none of them", all.len()))?;
        Ok((name, vec![one]))
    }

    fn number(&mut self) -> Result<Number, String> {
        let rest = self.rest();
        let end = number_end(rest);
        let digits = rest.get(..end).unwrap_or("");
        let value: f64 = digits.parse().map_err(|_| format!("\"{digits}\" is no number"))?;
        self.at += end;
        let after = self.rest();
        let spaced = after.trim_start();
        let Some((name, unit, kind)) = unit_at(spaced, self.kind) else {
            let word: String = spaced.chars().take_while(|c| c.is_alphabetic() || *c == '°' || *c == '%').collect();
            if word.is_empty() {
                return Ok(Number::bare(value));
            }
            return Err(format!("'{word}' is not a unit that thou knows"));
        };
        self.at += after.len() - spaced.len() + name.len();
        Ok(Number::of((value + unit.offset) * unit.factor, Some(kind)))
    }

    fn function(&mut self) -> Result<Number, String> {
        let rest = self.rest();
        let name: &str = rest.split(|c: char| !c.is_ascii_alphanumeric()).next().unwrap_or("");
        self.at += name.len();
        if !self.takes('(') {
            return Err(format!("\"{name}\" is no number: a fact stands in braces, like {{bore.nominal}}"));
        }
        let mut args = Vec::new();
        loop {
            self.space();
            // a fact with many places, by itself, stands for all of them
            let start = self.at;
            if self.rest().starts_with('{') {
                let (_, all) = self.name()?;
                self.space();
                if self.rest().starts_with([',', ')']) {
                    args.extend(all);
                } else {
                    self.at = start;
                    args.push(self.sum()?);
                }
            } else {
                args.push(self.sum()?);
            }
            if !self.takes(',') {
                break;
            }
        }
        self.closes()?;
        apply(name, &args)
    }
}

fn apply(name: &str, args: &[Number]) -> Result<Number, String> {
    let step = |f: fn(f64) -> f64, x: &Number, step: f64| Number { value: f(x.value / step) * step, ..*x };
    // what is whole on paper may fall short of it by a rounding error
    let floor = |x: f64| (x + 1e-12 * x.abs()).floor();
    let ceil = |x: f64| (x - 1e-12 * x.abs()).ceil();
    match (name, args) {
        ("min" | "max", [first, more @ ..]) => {
            let mut found = *first;
            for other in more {
                alike(found, *other)?;
                let further = if name == "min" { other.value < found.value } else { other.value > found.value };
                if further {
                    found = *other;
                }
            }
            Ok(found)
        }
        ("abs", [x]) => Ok(Number { value: x.value.abs(), ..*x }),
        ("sqrt", [x]) => {
            let dim = x.measure.dim.power(0.5).ok_or_else(|| format!("the root of {} is none", x.measure.name()))?;
            Ok(Number { value: x.value.sqrt(), measure: Measure { dim, point: false, share: false, ..x.measure } })
        }
        ("floor", [x]) => Ok(step(floor, x, 1.0)),
        ("ceil", [x]) => Ok(step(ceil, x, 1.0)),
        ("round", [x]) => Ok(step(f64::round, x, 1.0)),
        ("floor" | "ceil" | "round", [x, to]) => {
            alike(*x, *to)?;
            let f = match name {
                "floor" => floor,
                "ceil" => ceil,
                _ => f64::round,
            };
            Ok(step(f, x, to.value))
        }
        ("min" | "max" | "abs" | "sqrt" | "floor" | "ceil" | "round", _) => {
            Err(format!("{name}(..) does not take {} numbers", args.len()))
        }
        _ => Err(format!("there is no {name}(..): these are min, max, abs, sqrt, floor, ceil, round")),
    }
}

/// Whether two numbers can be added or compared.
fn alike(a: Number, b: Number) -> Result<(), String> {
    if a.measure.dim.si() == b.measure.dim.si() {
        return Ok(());
    }
    Err(format!("{} and {} are not added or compared", a.measure.name(), b.measure.name()))
}

fn both(a: Number, b: Number) -> Measure {
    Measure { bare: a.measure.bare && b.measure.bare, share: a.measure.share || b.measure.share, ..a.measure }
}

/// The longest unit that the text starts with, as the wanted kind has it, or the first kind that has it.
fn unit_at(text: &str, wanted: Option<Kind>) -> Option<(&'static str, &'static Unit, Kind)> {
    let ends = |name: &str| {
        let next = text.get(name.len()..).and_then(|rest| rest.chars().next());
        !name.ends_with(char::is_alphabetic) || !next.is_some_and(char::is_alphanumeric)
    };
    let all = KINDS.iter().filter_map(|k| Kind::by_id(k.id)).flat_map(|k| k.spec().units.iter().map(move |u| (u, k)));
    let fits = all.filter(|(u, _)| !u.name.is_empty() && text.starts_with(u.name) && ends(u.name));
    let longest = |found: Option<(&'static Unit, Kind)>, (unit, kind): (&'static Unit, Kind)| match found {
        Some((best, _)) if best.name.len() > unit.name.len() => found,
        Some((best, _)) if best.name.len() == unit.name.len() && Some(kind) != wanted => found,
        _ => Some((unit, kind)),
    };
    fits.fold(None, longest).map(|(unit, kind)| (unit.name, unit, kind))
}

/// Where the number at the start of the text ends.
fn number_end(text: &str) -> usize {
    let digits = |from: usize| {
        let rest = text.get(from..).unwrap_or("");
        from + rest.find(|c: char| !c.is_ascii_digit()).unwrap_or(rest.len())
    };
    let mut end = digits(0);
    if text.get(end..).is_some_and(|rest| rest.starts_with('.')) {
        end = digits(end + 1);
    }
    if let Some(rest) = text.get(end..).and_then(|r| r.strip_prefix(['e', 'E'])) {
        let signed = rest.strip_prefix(['-', '+']).unwrap_or(rest);
        if signed.starts_with(|c: char| c.is_ascii_digit()) {
            end = digits(text.len() - signed.len());
        }
    }
    end
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used)]
    use super::*;

    fn value(text: &str, kind: Option<Kind>, names: &dyn Names) -> Result<f64, String> {
        evaluate(text, kind, names).map(|number| number.value)
    }

    struct Bore;

    impl Names for Bore {
        fn get(&self, name: &str) -> Result<Vec<Number>, String> {
            let length =
                |values: &[f64]| values.iter().map(|v| Number::of(v * 0.0254, Kind::by_id("length"))).collect();
            match name {
                "bore.nominal" => Ok(length(&[4.0])),
                "bore.diameter" => Ok(length(&[4.0, 4.5, 4.25])),
                other => Err(format!("there is no {other}")),
            }
        }
    }

    fn thou(text: &str) -> Result<f64, String> {
        value(text, Kind::by_id("clearance"), &Bore).map(|si| (si / 2.54e-5 * 1e9).round() / 1e9)
    }

    #[test]
    fn it_comes_to_what_a_hand_calculator_says() {
        for (text, wanted) in [
            ("2.5 thou + 0.5 thou", 3.0),
            ("{bore.nominal} * 1.35e-3", 5.4),
            ("-0.8 thou", -0.8),
            ("0.6 * (1 thou + 3 thou) - 1 thou / 2", 1.9),
            ("min(4 in, 25.4 mm) / 1000", 1.0),
            ("max({bore.diameter}) * 1e-3", 4.5),
            ("{bore.diameter[3]} * 1e-3", 4.25),
            ("min({bore.diameter[2]} - 4 in, 1 in)", 500.0),
            ("floor(3.7 thou, 0.5 thou)", 3.5),
            ("round(3.7 thou, 0.5 thou)", 3.5),
            ("sqrt(4 in * 1 in)", 2000.0),
            ("2 ^ 3 * 1 thou", 8.0),
            ("2 ^ -1 thou", f64::NAN),
            ("5 % * 100 thou", 5.0),
            ("10 lbf / 20 lbf/in", 500.0),
        ] {
            match thou(text) {
                Ok(got) => assert!((got - wanted).abs() < 1e-9, "{text}: {got}"),
                Err(_) => assert!(wanted.is_nan(), "{text}: {:?}", thou(text)),
            }
        }
        let kelvin = value("(180 °F + 220 °F) / 2", Kind::by_id("temperature"), &Bore).unwrap();
        assert!((kelvin - 366.483_333_333).abs() < 1e-6);
        assert_eq!(value("3 * 2", Kind::by_id("count"), &Bore), Ok(6.0));
        // a pound is a mass where one is wanted, and a force elsewhere
        assert_eq!(value("1 lb", Kind::by_id("mass"), &Bore), Ok(0.453_592_37));
        assert_eq!(value("1 lb", Kind::by_id("force"), &Bore), Ok(4.448_221_615_260_5));
    }

    #[test]
    fn what_is_wrong_is_told_in_words() {
        for (text, wanted) in [
            ("3.9", "3.9 has no unit, and a length is wanted: write it like \"3.9 thou\""),
            ("3.9 psi", "this comes to a pressure, and a length is wanted"),
            ("3 thou + 2 psi", "a length and a pressure are not added or compared"),
            ("3 furlongs", "'furlongs' is not a unit that thou knows"),
            ("3 thou 4", "\"4\" is more than the arithmetic has room for"),
            ("(3 thou", "a bracket ( is never closed"),
            ("{bore", "a brace { is never closed"),
            ("bore * 2", "\"bore\" is no number: a fact stands in braces, like {bore.nominal}"),
            ("{stroke}", "there is no stroke"),
            (
                "{bore.diameter}",
                "{bore.diameter} has 3 places: write {bore.diameter[1]} for the first of them, or take the min or the max",
            ),
            ("{bore.diameter[4]}", "{bore.diameter} has 3 places, and 4 is none of them"),
            ("{bore.nominal[0]}", "{bore.nominal[0]}: places are counted from 1"),
            ("1 thou / 0", "this comes to no number"),
            ("most(1 thou)", "there is no most(..): these are min, max, abs, sqrt, floor, ceil, round"),
            ("abs()", "')' stands where a number is wanted"),
            ("", "the arithmetic ends where a number is wanted"),
            ("3 thou *", "the arithmetic ends where a number is wanted"),
            ("(4 in) ^ 0.3", "a length to the power 0.3 is no quantity"),
        ] {
            assert_eq!(thou(text), Err(wanted.to_owned()), "{text}");
        }
        assert!(thou(&format!("{}1{}", "(".repeat(40), ")".repeat(40))).unwrap_err().starts_with("brackets"));
    }
}
