//! From CEL's tree to ours: every fact exists, every word is one of its choice, every sum is of things that can be
//! summed, and what runs over places runs over the same ones.

use crate::catalogue::{Asked, Fact, Value};
use crate::scan::{Item, Scan, Slip};
use crate::tree::{Bool, Cmp, Num, Op, Side};
use cel::IdedExpr;
use cel::common::ast::{CallExpr, Expr, LiteralValue, SourceInfo, operators as sign};
use std::collections::BTreeMap;
use std::ops::Range;
use thou_contract::{KINDS, Kind, KindSpec, Measure, Unit};
use thou_text::clean::clip;
use thou_text::{list, nearest};

/// What an expression was found to use.
#[derive(Debug, Default)]
pub(crate) struct Found {
    /// The axis that it runs over, if any, and where that is said.
    pub(crate) axis: Option<(String, Range<usize>)>,
    /// Facts, each with whether it is asked for by `has`, and where it first stands.
    pub(crate) facts: BTreeMap<u32, (bool, Range<usize>)>,
}

/// Checks one expression.
pub(crate) struct Checker<'c, 'a> {
    pub(crate) asked: &'c mut Asked<'a>,
    pub(crate) found: Found,
    /// What the window's own limits measure, as far as they may be used.
    pub(crate) own: BTreeMap<Side, Measure>,
    scan: &'c Scan,
    source: &'c SourceInfo,
}

type Checked<T> = Result<T, Slip>;

fn slip<T>(message: impl Into<String>, help: Option<String>, at: Range<usize>) -> Checked<T> {
    Err(Slip { message: message.into(), help, at })
}

impl<'c, 'a> Checker<'c, 'a> {
    pub(crate) fn new(asked: &'c mut Asked<'a>, scan: &'c Scan, source: &'c SourceInfo) -> Self {
        Self { asked, found: Found::default(), own: BTreeMap::new(), scan, source }
    }

    /// A number of this measure; `what` is a name for what wants it, `kind` its kind.
    pub(crate) fn limit(&mut self, expr: &IdedExpr, what: &str, kind: Kind) -> Checked<Num> {
        let wanted = Measure::of(kind);
        let (num, measure) = self.num(expr, Some(wanted))?;
        let at = self.span(expr);
        if measure.same(wanted) || measure.bare && !wanted.share && measure.dim == wanted.dim {
            return Ok(num);
        }
        let example = kind.spec().inch.unit;
        if measure.bare {
            let number = num.constant().map_or("1".to_owned(), |v| format!("{v}"));
            let message = format!("{} has no unit: {what} is {}", self.text(&at), kind.noun());
            return slip(message, Some(format!("write it like {number} {example}")), at);
        }
        slip(format!("this comes to {}, and {what} is {}", measure.name(), kind.noun()), None, at)
    }

    fn text(&self, at: &Range<usize>) -> String {
        // the scan keeps the length, not the words: what is a number stands in the items
        match self.scan.items.get(&at.start) {
            Some((end, Item::Number(value, None))) if *end == at.end => format!("{value}"),
            _ => "this".to_owned(),
        }
    }

    fn place(&self, expr: &IdedExpr) -> Range<usize> {
        let (start, stop) = self.source.offset_for(expr.id).unwrap_or_default();
        let mut start = start as usize;
        let end = self.scan.items.get(&start).map_or(stop as usize + 1, |(end, _)| *end);
        // the parser has a call at its bracket; its name stands before that
        if let Expr::Call(call) = &expr.expr
            && ["min", "max", "abs", "hAs"].contains(&call.func_name.as_str())
        {
            start = start.saturating_sub(call.func_name.len());
        }
        start..end.max(start + 1)
    }

    /// From the first word of an expression to its last.
    pub(crate) fn span(&self, expr: &IdedExpr) -> Range<usize> {
        let mut span = self.place(expr);
        if let Expr::Call(call) = &expr.expr {
            for part in call.args.iter().chain(call.target.as_deref()) {
                let inner = self.span(part);
                span = span.start.min(inner.start)..span.end.max(inner.end);
            }
        }
        span
    }

    fn item(&self, expr: &IdedExpr) -> Option<&'c Item> {
        let (start, _) = self.source.offset_for(expr.id)?;
        matches!(expr.expr, Expr::Ident(_)).then(|| self.scan.items.get(&(start as usize)).map(|(_, item)| item))?
    }

    /// The fact that stands here, if it is one.
    fn fact(&mut self, expr: &IdedExpr, by_has: bool) -> Checked<Option<(&'a Fact, u32, Value)>> {
        let Some(Item::Fact(id)) = self.item(expr) else { return Ok(None) };
        let at = self.place(expr);
        let Some(fact) = self.asked.fact(id) else {
            let help = match self.asked.near(id) {
                Some(near) => format!("did you mean {{{near}}}?"),
                None => "`thou facts` lists them".to_owned(),
            };
            return slip(format!("there is no fact \"{}\"", clip(id, 60)), Some(help), at);
        };
        let Some(value) = Asked::value(fact) else {
            return slip(format!("{id} is of a kind that no table can use"), None, at);
        };
        if fact.axis != "one" {
            match &self.found.axis {
                Some((axis, _)) if *axis != fact.axis => {
                    let message = format!("{id} has a value a {}, and what stands before it one a {axis}", fact.axis);
                    let help = format!("take one figure of it, {{{id}.min}} or {{{id}.max}}");
                    return slip(message, Some(help), at);
                }
                Some(_) => {}
                None => self.found.axis = Some((fact.axis.clone(), at.clone())),
            }
        }
        let index = self.asked.ask(fact);
        let entry = self.found.facts.entry(index).or_insert((by_has, at));
        entry.0 |= by_has;
        Ok(Some((fact, index, value)))
    }

    /// One of the window's own limits, if that is what stands here.
    fn own_limit(&self, expr: &IdedExpr) -> Option<(Side, Option<Measure>)> {
        let side = match self.item(expr)? {
            Item::Fact(id) if id == "low" => Side::Low,
            Item::Fact(id) if id == "high" => Side::High,
            _ => return None,
        };
        Some((side, self.own.get(&side).copied()))
    }

    /// A number and what it measures; `wanted` settles what a word such as °F leaves open.
    fn num(&mut self, expr: &IdedExpr, wanted: Option<Measure>) -> Checked<(Num, Measure)> {
        if let Some((side, measure)) = self.own_limit(expr) {
            let Some(measure) = measure else {
                let help = "never-below, aim and never-above can be made of {low} and {high}, and high of {low}";
                return slip(
                    "this window has no such limit to make this one of",
                    Some(help.to_owned()),
                    self.place(expr),
                );
            };
            return Ok((Num::Own(side), measure));
        }
        if let Some((fact, index, value)) = self.fact(expr, false)? {
            return match value {
                Value::Quantity(kind) => Ok((Num::Fact(index), Measure::of(kind))),
                Value::Choice => slip(
                    format!("{} is a word, and a number is wanted here", fact.id),
                    Some(format!("ask it: {{{}}} == \"{}\"", fact.id, fact.choices.first().map_or("", String::as_str))),
                    self.place(expr),
                ),
                Value::Flag => {
                    slip(format!("{} is yes or no, and a number is wanted here", fact.id), None, self.place(expr))
                }
            };
        }
        if let Some(Item::Number(value, unit)) = self.item(expr) {
            return self.literal(*value, *unit, wanted, self.place(expr));
        }
        let Expr::Call(call) = &expr.expr else {
            return self.unsupported(expr, "a number");
        };
        match (call.func_name.as_str(), call.args.as_slice()) {
            (sign::NEGATE, [of]) => {
                let (num, measure) = self.num(of, wanted)?;
                if measure.point {
                    return slip("a temperature has no opposite", None, self.span(expr));
                }
                Ok((Num::Neg(Box::new(num)), measure))
            }
            ("abs", [of]) => {
                let (num, measure) = self.num(of, wanted)?;
                Ok((Num::Abs(Box::new(num)), measure))
            }
            (sign::ADD, [a, b]) => self.sum(Op::Add, a, b, wanted),
            (sign::SUBSTRACT, [a, b]) => self.sum(Op::Sub, a, b, wanted),
            (sign::MULTIPLY, [a, b]) => self.product(Op::Mul, a, b, expr),
            (sign::DIVIDE, [a, b]) => self.product(Op::Div, a, b, expr),
            (sign::CONDITIONAL, [when, a, b]) => {
                let when = self.bool(when)?;
                let ((a, measure), (b, _)) =
                    self.alike(a, b, wanted, |a, b| format!("one branch is {a} and the other {b}"))?;
                Ok((Num::If(Box::new(when), Box::new(a), Box::new(b)), measure))
            }
            (name @ ("min" | "max"), [first, rest @ ..]) if !rest.is_empty() => {
                let op = if name == "min" { Op::Min } else { Op::Max };
                let wanted = wanted.or_else(|| call.args.iter().find_map(|a| self.guess(a)));
                let (mut all, measure) = self.num(first, wanted)?;
                for next in rest {
                    let (num, other) = self.num(next, wanted.or(Some(measure)))?;
                    self.agree(measure, other, next, |a, b| format!("{name} of {a} and {b} says nothing"))?;
                    all = Num::Of(op, Box::new(all), Box::new(num));
                }
                Ok((all, measure))
            }
            ("min" | "max" | "abs", _) => slip(
                format!(
                    "{}(..) takes {}",
                    call.func_name,
                    if call.func_name == "abs" { "one number" } else { "two numbers or more" }
                ),
                None,
                self.span(expr),
            ),
            _ => slip("this is yes or no, and a number is wanted here", None, self.span(expr)),
        }
    }

    fn literal(
        &self,
        value: f64,
        unit: Option<&'static str>,
        wanted: Option<Measure>,
        at: Range<usize>,
    ) -> Checked<(Num, Measure)> {
        let Some(unit) = unit else { return Ok((Num::Const(value), Measure::BARE)) };
        let mut kinds = units(unit).into_iter();
        let fits = |(kind, _): &(&KindSpec, &Unit)| {
            wanted.is_some_and(|w| Kind::by_id(kind.id).is_some_and(|k| Measure::of(k).same(w)))
        };
        let meanings = meanings(unit);
        let chosen =
            units(unit).into_iter().find(fits).or_else(|| if meanings.len() == 1 { kinds.next() } else { None });
        match chosen {
            Some((kind, unit)) => {
                let measure = Kind::by_id(kind.id).map(Measure::of).unwrap_or_default();
                Ok((Num::Const((value + unit.offset) * unit.factor), measure))
            }
            None => {
                let names: Vec<String> = meanings.iter().map(|m| m.name()).collect();
                let names: Vec<&str> = names.iter().map(String::as_str).collect();
                let help = match unit {
                    "lb" => "write lbf for a force, and kg, g or oz for a mass".to_owned(),
                    _ => "compare it with a fact, or add it to one, so that it is plain which".to_owned(),
                };
                slip(format!("{value} {unit} can be {}", list(&names)), Some(help), at)
            }
        }
    }

    /// What an expression measures, if a look at its words can tell.
    fn guess(&self, expr: &IdedExpr) -> Option<Measure> {
        if let Some((_, measure)) = self.own_limit(expr) {
            return measure;
        }
        match self.item(expr) {
            Some(Item::Fact(id)) => {
                let Some(Value::Quantity(kind)) = self.asked.fact(id).and_then(Asked::value) else { return None };
                return Some(Measure::of(kind));
            }
            Some(Item::Number(_, unit)) => {
                let meanings = meanings((*unit)?);
                return meanings.first().copied().filter(|_| meanings.len() == 1);
            }
            None => {}
        }
        let Expr::Call(CallExpr { func_name, args, .. }) = &expr.expr else { return None };
        match (func_name.as_str(), args.as_slice()) {
            (sign::NEGATE | "abs", [of]) => self.guess(of),
            (sign::CONDITIONAL, [_, a, b]) => self.guess(a).or_else(|| self.guess(b)),
            ("min" | "max", all) => all.iter().find_map(|a| self.guess(a)),
            (sign::ADD, [a, b]) => match (self.guess(a), self.guess(b)) {
                (Some(a), Some(b)) => Some(Measure { point: a.point || b.point, ..a }),
                (a, b) => a.or(b),
            },
            (sign::SUBSTRACT, [a, b]) => match (self.guess(a), self.guess(b)) {
                (Some(a), Some(b)) => Some(Measure { point: a.point && !b.point, ..a }),
                (a, _) => a,
            },
            (sign::MULTIPLY, [a, b]) => {
                Some(self.guess(a).unwrap_or(Measure::BARE).times(self.guess(b).unwrap_or(Measure::BARE), 1))
            }
            (sign::DIVIDE, [a, b]) => {
                Some(self.guess(a).unwrap_or(Measure::BARE).times(self.guess(b).unwrap_or(Measure::BARE), -1))
            }
            _ => None,
        }
    }

    fn agree(&self, a: Measure, b: Measure, at: &IdedExpr, say: impl Fn(&str, &str) -> String) -> Checked<()> {
        if a.same(b) {
            return Ok(());
        }
        let help = (a.bare || b.bare).then(|| {
            let other = if a.bare { b } else { a };
            let like = |k: &&KindSpec| {
                Kind::by_id(k.id).map(Measure::of).is_some_and(|m| m == Measure { bare: false, ..other })
            };
            KINDS.iter().find(like).map(|k| format!("write the number with its unit, such as {}", k.inch.unit))
        });
        slip(say(&a.name(), &b.name()), help.flatten(), self.span(at))
    }

    fn alike(
        &mut self,
        a: &IdedExpr,
        b: &IdedExpr,
        wanted: Option<Measure>,
        say: impl Fn(&str, &str) -> String,
    ) -> Checked<((Num, Measure), (Num, Measure))> {
        let wanted = wanted.or_else(|| self.guess(a)).or_else(|| self.guess(b));
        let left = self.num(a, wanted)?;
        let right = self.num(b, wanted)?;
        self.agree(left.1, right.1, b, say)?;
        // a number beside a quantity without dimension is one
        let measure = if left.1.bare { right.1 } else { left.1 };
        Ok(((left.0, measure), right))
    }

    fn sum(&mut self, op: Op, a: &IdedExpr, b: &IdedExpr, wanted: Option<Measure>) -> Checked<(Num, Measure)> {
        let step = |m: Measure| Measure { point: false, ..m };
        let first = self.guess(a).or_else(|| if self.guess(b).is_some_and(|m| m.point) { None } else { wanted });
        let second = self.guess(b).or(wanted).map(step);
        let (left, mine) = self.num(a, first.or(second))?;
        let (right, its) = self.num(b, self.guess(b).or(Some(step(mine))))?;
        let (verb, joint) = if op == Op::Add { ("added", "and") } else { ("subtracted", "from") };
        let (one, two) = if op == Op::Add { (mine, its) } else { (its, mine) };
        let points = (mine.point, its.point);
        let no = match points {
            (true, true) => op == Op::Add,
            (false, true) => op == Op::Sub,
            _ => false,
        };
        if no || !step(mine).same(step(its)) {
            let message = if op == Op::Add {
                format!("{} {joint} {} cannot be {verb}", one.name(), two.name())
            } else {
                format!("{} cannot be {verb} {joint} {}", one.name(), two.name())
            };
            self.agree(step(mine), step(its), b, |_, _| message.clone())?;
            return slip(message, None, self.span(b));
        }
        let measure = Measure {
            point: points.0 != points.1,
            share: mine.share || its.share,
            bare: mine.bare && its.bare,
            ..mine
        };
        Ok((Num::Of(op, Box::new(left), Box::new(right)), measure))
    }

    fn product(&mut self, op: Op, a: &IdedExpr, b: &IdedExpr, whole: &IdedExpr) -> Checked<(Num, Measure)> {
        let (left, mine) = self.num(a, None)?;
        let (right, its) = self.num(b, None)?;
        for (measure, part) in [(mine, a), (its, b)] {
            if measure.point {
                return slip(
                    "a temperature cannot be multiplied or divided: its zero is where the scale puts it",
                    Some("take a difference of two temperatures".to_owned()),
                    self.span(part),
                );
            }
        }
        if op == Op::Div && right.constant() == Some(0.0) {
            return slip("this divides by zero", None, self.span(whole));
        }
        let share = |m: Measure, other: Measure| m.share && other.bare;
        let mut measure = mine.times(its, if op == Op::Mul { 1 } else { -1 });
        measure.share = share(mine, its) || op == Op::Mul && share(its, mine);
        Ok((Num::Of(op, Box::new(left), Box::new(right)), measure))
    }

    /// Yes or no.
    pub(crate) fn bool(&mut self, expr: &IdedExpr) -> Checked<Bool> {
        if let Some((fact, index, value)) = self.fact(expr, false)? {
            return match value {
                Value::Flag => Ok(Bool::Flag(index)),
                Value::Choice => slip(
                    format!("{} is a word, and yes or no is wanted here", fact.id),
                    Some(format!("ask it: {{{}}} == \"{}\"", fact.id, fact.choices.first().map_or("", String::as_str))),
                    self.place(expr),
                ),
                Value::Quantity(_) => slip(
                    format!("{} is a number, and yes or no is wanted here", fact.id),
                    Some("compare it".to_owned()),
                    self.place(expr),
                ),
            };
        }
        if self.item(expr).is_some() {
            return slip(
                "this is a number, and yes or no is wanted here",
                Some("compare it".to_owned()),
                self.place(expr),
            );
        }
        if let Expr::Literal(LiteralValue::Boolean(b)) = &expr.expr {
            return Ok(Bool::Const(*b.inner()));
        }
        let Expr::Call(call) = &expr.expr else {
            return self.unsupported(expr, "yes or no");
        };
        match (call.func_name.as_str(), call.args.as_slice()) {
            (sign::LOGICAL_NOT, [of]) => Ok(Bool::Not(Box::new(self.bool(of)?))),
            (sign::LOGICAL_AND, [a, b]) => Ok(Bool::And(Box::new(self.bool(a)?), Box::new(self.bool(b)?))),
            (sign::LOGICAL_OR, [a, b]) => Ok(Bool::Or(Box::new(self.bool(a)?), Box::new(self.bool(b)?))),
            (sign::CONDITIONAL, [when, a, b]) => {
                let when = self.bool(when)?;
                Ok(Bool::If(Box::new(when), Box::new(self.bool(a)?), Box::new(self.bool(b)?)))
            }
            ("hAs", [of]) => match self.fact(of, true)? {
                Some((_, index, _)) => Ok(Bool::Has(index)),
                None => slip(
                    "has(..) asks whether the sheet has a fact",
                    Some("write has({bore.diameter})".to_owned()),
                    self.span(of),
                ),
            },
            ("hAs", _) => {
                slip("has(..) takes one fact", Some("write has({bore.diameter})".to_owned()), self.span(expr))
            }
            (op @ (sign::EQUALS | sign::NOT_EQUALS), [a, b]) => self.equal(a, b, op == sign::NOT_EQUALS),
            (sign::IN, [of, words]) => self.one_of(of, words),
            (op, [a, b]) => {
                let cmp = match op {
                    sign::LESS => Cmp::Less,
                    sign::LESS_EQUALS => Cmp::LessOrSame,
                    sign::GREATER => Cmp::More,
                    sign::GREATER_EQUALS => Cmp::MoreOrSame,
                    _ => {
                        return slip(
                            "this is a number, and yes or no is wanted here",
                            Some("compare it".to_owned()),
                            self.span(expr),
                        );
                    }
                };
                let ((a, _), (b, _)) = self.alike(a, b, None, |a, b| format!("{a} cannot be compared with {b}"))?;
                Ok(Bool::Cmp(cmp, a, b))
            }
            _ => slip("this is a number, and yes or no is wanted here", Some("compare it".to_owned()), self.span(expr)),
        }
    }

    fn equal(&mut self, a: &IdedExpr, b: &IdedExpr, not: bool) -> Checked<Bool> {
        let maybe_not = |b: Bool| if not { Bool::Not(Box::new(b)) } else { b };
        for (fact, word) in [(a, b), (b, a)] {
            if let Some(found) = self.choice(fact)? {
                let words = vec![self.word(found.0, word)?];
                return Ok(maybe_not(Bool::Is(found.1, words)));
            }
        }
        if self.is_bool(a) || self.is_bool(b) {
            return Ok(maybe_not(Bool::Same(Box::new(self.bool(a)?), Box::new(self.bool(b)?))));
        }
        let ((a, _), (b, _)) = self.alike(a, b, None, |a, b| format!("{a} cannot be compared with {b}"))?;
        Ok(Bool::Cmp(if not { Cmp::Other } else { Cmp::Same }, a, b))
    }

    fn choice(&mut self, expr: &IdedExpr) -> Checked<Option<(&'a Fact, u32)>> {
        Ok(self
            .fact(expr, false)?
            .filter(|(_, _, value)| *value == Value::Choice)
            .map(|(fact, index, _)| (fact, index)))
    }

    fn is_bool(&self, expr: &IdedExpr) -> bool {
        match self.item(expr) {
            Some(Item::Fact(id)) => self.asked.fact(id).and_then(Asked::value) == Some(Value::Flag),
            Some(Item::Number(..)) => false,
            None => match &expr.expr {
                Expr::Literal(LiteralValue::Boolean(_)) => true,
                Expr::Call(call) => match (call.func_name.as_str(), call.args.as_slice()) {
                    (sign::CONDITIONAL, [_, a, _]) => self.is_bool(a),
                    (
                        sign::ADD
                        | sign::SUBSTRACT
                        | sign::MULTIPLY
                        | sign::DIVIDE
                        | sign::NEGATE
                        | "min"
                        | "max"
                        | "abs",
                        _,
                    ) => false,
                    _ => true,
                },
                _ => false,
            },
        }
    }

    /// The number of a choice's word.
    fn word(&mut self, fact: &Fact, expr: &IdedExpr) -> Checked<u32> {
        let Expr::Literal(LiteralValue::String(word)) = &expr.expr else {
            return slip(format!("{} is a word: compare it with one, in quotes", fact.id), None, self.span(expr));
        };
        let words = self.asked.words(fact);
        let word = word.inner();
        if let Some(index) = words.iter().position(|w| w == word) {
            return Ok(u32::try_from(index).unwrap_or(u32::MAX));
        }
        let near = nearest(word, words.iter().map(String::as_str)).map(|n| format!("did you mean \"{n}\"? "));
        let all: Vec<&str> = words.iter().map(String::as_str).collect();
        let mut help = format!("{}{} is {}", near.unwrap_or_default(), fact.id, list(&all));
        if fact.id == "use" {
            help.push_str("; a table can add a use with \"uses\"");
        }
        slip(format!("no {} is called \"{}\"", fact.id, clip(word, 40)), Some(help), self.place(expr))
    }

    fn one_of(&mut self, of: &IdedExpr, list: &IdedExpr) -> Checked<Bool> {
        let Expr::List(items) = &list.expr else {
            return slip("after in stands a list: in [\"street\", \"bracket\"]", None, self.span(list));
        };
        if items.elements.is_empty() {
            return slip("this list is empty, so nothing is in it", None, self.place(list));
        }
        if let Some((fact, index)) = self.choice(of)? {
            let words = items.elements.iter().map(|w| self.word(fact, w)).collect::<Checked<_>>()?;
            return Ok(Bool::Is(index, words));
        }
        let wanted = self.guess(of).or_else(|| items.elements.iter().find_map(|i| self.guess(i)));
        let (num, measure) = self.num(of, wanted)?;
        let mut others = Vec::new();
        for item in &items.elements {
            let (other, its) = self.num(item, wanted)?;
            self.agree(measure, its, item, |a, b| format!("{a} cannot be compared with {b}"))?;
            others.push(other);
        }
        Ok(Bool::OneOf(num, others))
    }

    fn unsupported<T>(&self, expr: &IdedExpr, wanted: &str) -> Checked<T> {
        let at = self.span(expr);
        match &expr.expr {
            Expr::Literal(LiteralValue::String(_)) => slip(
                format!("this is a word, and {wanted} is wanted here"),
                Some("a word is compared with a choice: {use} == \"bracket\"".to_owned()),
                at,
            ),
            Expr::Literal(LiteralValue::Boolean(_)) => {
                slip(format!("this is yes or no, and {wanted} is wanted here"), None, at)
            }
            Expr::List(_) => slip(
                format!("this is a list, and {wanted} is wanted here"),
                Some("a list stands after in: {use} in [\"street\", \"bracket\"]".to_owned()),
                at,
            ),
            _ => slip(format!("this is nothing that a table can work with; {wanted} is wanted here"), None, at),
        }
    }
}

fn units(name: &str) -> Vec<(&'static KindSpec, &'static Unit)> {
    KINDS.iter().filter_map(|kind| Some((kind, kind.units.iter().find(|u| u.name == name)?))).collect()
}

/// The different things that a unit can be of.
fn meanings(unit: &str) -> Vec<Measure> {
    let mut all: Vec<Measure> = Vec::new();
    for (kind, _) in units(unit) {
        let measure = Kind::by_id(kind.id).map(Measure::of).unwrap_or_default();
        if !all.contains(&measure) {
            all.push(measure);
        }
    }
    all
}
