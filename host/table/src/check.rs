//! From CEL's tree to ours: every fact exists, every word is one of its choice, every sum is of things that can be
//! summed, and what runs over places runs over the same ones.

use crate::beside::{Beside, LookUp};
use crate::catalogue::{AskedFacts, FactValue, TableFact};
use crate::scan::{ExpressionSlip, FUNCTIONS, Item, Scan};
use crate::tree::{BoolExpr, Cmp, Fold, NumExpr, Op, Reason, Side};
use cel::IdedExpr;
use cel::common::ast::{CallExpr, Expr, LiteralValue, SourceInfo, operators as sign};
use std::collections::{BTreeMap, BTreeSet};
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
    /// Those that run over places, but for what stands in a figure of all places.
    pub(crate) runs: BTreeSet<u32>,
}

/// Why a number has none, beside what every rule may say.
#[derive(Debug)]
pub(crate) struct Reasons<'c> {
    /// The words of each.
    pub(crate) words: &'c mut Vec<String>,
    /// The number of the first.
    pub(crate) first: u32,
    /// What is told where there are too many of them.
    pub(crate) else_: Reason,
    /// The expression as the table has it, and the line it starts in.
    pub(crate) text: &'c str,
    pub(crate) line: usize,
}

/// Most reasons that one rule has of its own; a manifest has room for a hundred.
const MOST_REASONS: usize = 80;

impl Reasons<'_> {
    fn of(&mut self, words: String) -> Reason {
        let words = words.replace(['{', '}'], "");
        let at = self.words.iter().position(|w| *w == words).or_else(|| {
            let room = self.words.len() < MOST_REASONS;
            room.then(|| {
                self.words.push(words);
                self.words.len() - 1
            })
        });
        at.and_then(|at| u32::try_from(at).ok()).map_or(self.else_, |at| self.first + at)
    }
}

/// Checks one expression.
pub(crate) struct Checker<'c, 'a> {
    pub(crate) asked: &'c mut AskedFacts<'a>,
    pub(crate) found: Found,
    /// What the window's own limits measure, as far as they may be used.
    pub(crate) own: BTreeMap<Side, Measure>,
    scan: &'c Scan,
    source: &'c SourceInfo,
    beside: &'c Beside,
    reasons: Reasons<'c>,
    /// Whether this stands in a figure of all places, so that its facts run over them there and nowhere else.
    inside: bool,
}

type Checked<T> = Result<T, ExpressionSlip>;

fn slip<T>(message: impl Into<String>, help: Option<String>, at: Range<usize>) -> Checked<T> {
    Err(ExpressionSlip { message: message.into(), help, at })
}

impl<'c, 'a> Checker<'c, 'a> {
    pub(crate) fn new(
        asked: &'c mut AskedFacts<'a>,
        scan: &'c Scan,
        source: &'c SourceInfo,
        beside: &'c Beside,
        reasons: Reasons<'c>,
    ) -> Self {
        Self { asked, found: Found::default(), own: BTreeMap::new(), scan, source, beside, reasons, inside: false }
    }

    /// An expression as the table has it.
    fn written(&self, expr: &IdedExpr) -> String {
        clip(self.reasons.text.get(self.span(expr)).unwrap_or("this"), 120)
    }

    /// A reason of this rule, with the line of the table.
    fn reason(&mut self, words: &str) -> Reason {
        let line = self.reasons.line;
        self.reasons.of(format!("{words} (line {line} of the table)"))
    }

    /// A number of this measure; `what` is a name for what wants it, `kind` its kind.
    pub(crate) fn limit(&mut self, expr: &IdedExpr, what: &str, kind: Kind) -> Checked<NumExpr> {
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
            && FUNCTIONS.contains(&call.func_name.as_str())
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
    fn fact(&mut self, expr: &IdedExpr, by_has: bool) -> Checked<Option<(&'a TableFact, u32, FactValue)>> {
        let Some(Item::Fact(id)) = self.item(expr) else { return Ok(None) };
        let at = self.place(expr);
        let Some(fact) = self.asked.fact(id) else {
            let help = match self.asked.near(id) {
                Some(near) => format!("did you mean {{{near}}}?"),
                None => "`thou facts` lists them".to_owned(),
            };
            return slip(format!("there is no fact \"{}\"", clip(id, 60)), Some(help), at);
        };
        let Some(value) = AskedFacts::value(fact) else {
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
        if fact.axis != "one" && !self.inside {
            self.found.runs.insert(index);
        }
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
    fn num(&mut self, expr: &IdedExpr, wanted: Option<Measure>) -> Checked<(NumExpr, Measure)> {
        if let Some((side, measure)) = self.own_limit(expr) {
            let Some(measure) = measure else {
                let help = "never-below, aim and never-above can be made of {low} and {high}, and high of {low}";
                return slip(
                    "this window has no such limit to make this one of",
                    Some(help.to_owned()),
                    self.place(expr),
                );
            };
            return Ok((NumExpr::Own(side), measure));
        }
        if let Some((fact, index, value)) = self.fact(expr, false)? {
            return match value {
                FactValue::Quantity(kind) => Ok((NumExpr::Fact(index), Measure::of(kind))),
                FactValue::Choice => slip(
                    format!("{} is a word, and a number is wanted here", fact.id),
                    Some(format!("ask it: {{{}}} == \"{}\"", fact.id, fact.choices.first().map_or("", String::as_str))),
                    self.place(expr),
                ),
                FactValue::Flag => {
                    slip(format!("{} is yes or no, and a number is wanted here", fact.id), None, self.place(expr))
                }
            };
        }
        match self.item(expr) {
            Some(Item::Number(value, unit)) => return self.literal(*value, *unit, wanted, self.place(expr)),
            Some(Item::Day(si)) => return Ok((NumExpr::Const(*si), Measure { bare: false, ..self.day() })),
            Some(Item::List(name)) => {
                let help = format!("a list stands after in: {{cam.part}} in {name}");
                return slip("this is a list, and a number is wanted here", Some(help), self.place(expr));
            }
            Some(Item::Map(name)) => {
                let help = format!("look it up: lookup({name}, {{bore.nominal}})");
                return slip("this is a map, and a number is wanted here", Some(help), self.place(expr));
            }
            _ => {}
        }
        let Expr::Call(call) = &expr.expr else {
            return self.unsupported(expr, "a number");
        };
        match (call.func_name.as_str(), call.args.as_slice()) {
            (sign::NEGATE, [of]) => {
                let (num, measure) = self.num(of, wanted)?;
                if measure.point {
                    return slip(format!("{} has no opposite", measure.name()), None, self.span(expr));
                }
                Ok((NumExpr::Neg(Box::new(num)), measure))
            }
            ("abs", [of]) => {
                let (num, measure) = self.num(of, wanted)?;
                Ok((NumExpr::Abs(Box::new(num)), measure))
            }
            (sign::ADD, [a, b]) => self.sum(Op::Add, a, b, wanted),
            (sign::SUBSTRACT, [a, b]) => self.sum(Op::Sub, a, b, wanted),
            (sign::MULTIPLY, [a, b]) => self.product(Op::Mul, a, b),
            (sign::DIVIDE, [a, b]) => self.quotient(a, b, expr),
            ("sqrt", [of]) => {
                let (num, measure) = self.num(of, None)?;
                self.power(num, measure, 1, of, expr)
            }
            ("pow", [of, to]) => {
                let (num, measure) = self.num(of, None)?;
                let halves =
                    self.num(to, None)?.0.constant().map(|to| to * 2.0).filter(|h| h.fract() == 0.0 && h.abs() <= 12.0);
                match halves {
                    Some(halves) => self.power(num, measure, halves as i32, of, expr),
                    None => slip("a power is a number from -6 to 6 in halves: 2, 1.5, -0.5", None, self.span(to)),
                }
            }
            (name @ ("worst" | "least" | "sum" | "mean"), [of]) => {
                let fold = match name {
                    "worst" => Fold::Most,
                    "least" => Fold::Least,
                    "sum" => Fold::Sum,
                    _ => Fold::Mean,
                };
                let ((num, measure), facts) = self.over_places(name, expr, |c| c.num(of, wanted))?;
                if measure.point && fold == Fold::Sum {
                    return slip(format!("{} and another cannot be added", measure.name()), None, self.span(of));
                }
                Ok((NumExpr::Fold(fold, Box::new(num), facts), measure))
            }
            ("count", [of]) => {
                let (of, facts) = self.over_places("count", expr, |c| c.bool(of))?;
                Ok((NumExpr::Count(Box::new(of), facts), Measure::BARE))
            }
            ("lookup", [map, of]) => self.look_up(map, of, wanted),
            (name @ ("sqrt" | "worst" | "least" | "sum" | "mean" | "count"), _) => {
                slip(format!("{name}(..) takes one of them"), None, self.span(expr))
            }
            ("pow", _) => slip("pow(..) takes a number and its power: pow({bore.nominal}, 2)", None, self.span(expr)),
            ("lookup", _) => {
                slip("lookup(..) takes a map of this table and what it is looked up by", None, self.span(expr))
            }
            (sign::CONDITIONAL, [when, a, b]) => {
                let when = self.bool(when)?;
                let ((a, measure), (b, _)) =
                    self.alike(a, b, wanted, |a, b| format!("one branch is {a} and the other {b}"))?;
                Ok((NumExpr::If(Box::new(when), Box::new(a), Box::new(b)), measure))
            }
            (name @ ("min" | "max"), [first, rest @ ..]) if !rest.is_empty() => {
                let op = if name == "min" { Op::Min } else { Op::Max };
                let wanted = wanted.or_else(|| call.args.iter().find_map(|a| self.guess(a)));
                let (mut all, measure) = self.num(first, wanted)?;
                for next in rest {
                    let (num, other) = self.num(next, wanted.or(Some(measure)))?;
                    self.agree(measure, other, next, |a, b| format!("{name} of {a} and {b} says nothing"))?;
                    all = NumExpr::Of(op, Box::new(all), Box::new(num));
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

    /// Seconds on the calendar.
    fn day(&self) -> Measure {
        Kind::by_id("day").map(Measure::of).unwrap_or_default()
    }

    fn power(
        &mut self,
        num: NumExpr,
        measure: Measure,
        halves: i32,
        of: &IdedExpr,
        whole: &IdedExpr,
    ) -> Checked<(NumExpr, Measure)> {
        self.no_point(measure, of)?;
        let Some(dim) = measure.dim.power(f64::from(halves) / 2.0) else {
            let message = format!("{} has no root that is a quantity", measure.name());
            return slip(
                message,
                Some("a root wants an even power: an area has one, a length has none".to_owned()),
                self.span(whole),
            );
        };
        let of = self.written(of);
        let reason = match halves {
            1 => self.reason(&format!("{of} is under zero here, and has no square root")),
            _ => self.reason(&format!("{of} to the power of {} has no value here", f64::from(halves) / 2.0)),
        };
        let measure = Measure { dim, share: false, ..measure };
        let num = Box::new(num);
        Ok((if halves == 1 { NumExpr::Sqrt(num, reason) } else { NumExpr::Halves(num, halves, reason) }, measure))
    }

    fn no_point(&self, measure: Measure, of: &IdedExpr) -> Checked<()> {
        if !measure.point {
            return Ok(());
        }
        let (what, help) = if measure.same(self.day()) {
            ("a day cannot be multiplied or divided", "take the time between two days")
        } else {
            (
                "a temperature cannot be multiplied or divided: its zero is where the scale puts it",
                "take a difference of two temperatures",
            )
        };
        slip(what, Some(help.to_owned()), self.span(of))
    }

    /// What stands in a figure of all places, and the facts that run over them there.
    fn over_places<T>(
        &mut self,
        name: &str,
        whole: &IdedExpr,
        of: impl FnOnce(&mut Self) -> Checked<T>,
    ) -> Checked<(T, Vec<u32>)> {
        if self.inside {
            return slip(format!("{name}(..) stands in another figure of all places"), None, self.span(whole));
        }
        let (outer, before) = (self.found.axis.take(), std::mem::take(&mut self.found.facts));
        self.inside = true;
        let made = of(self);
        self.inside = false;
        let over = std::mem::replace(&mut self.found.axis, outer);
        let facts: Vec<u32> = self.found.facts.keys().copied().filter(|f| self.asked.axis(*f) != "one").collect();
        for (fact, (by_has, at)) in before {
            self.found.facts.entry(fact).and_modify(|e| e.0 |= by_has).or_insert((by_has, at));
        }
        let made = made?;
        if over.is_none() {
            let help = "it is for what has a value a cylinder, a valve and so on; `thou facts` says which";
            return slip(format!("nothing in {name}(..) runs over places"), Some(help.to_owned()), self.span(whole));
        }
        Ok((made, facts))
    }

    /// A map's value by a number, or by a word.
    fn look_up(&mut self, map: &IdedExpr, of: &IdedExpr, wanted: Option<Measure>) -> Checked<(NumExpr, Measure)> {
        let Some(Item::Map(name)) = self.item(map) else {
            let help = self.beside.maps.keys().next().map(|name| format!("write lookup({name}, ..)"));
            return slip("the first of lookup(..) is the name of a map of this table", help, self.span(map));
        };
        let beside = self.beside;
        let Some(table) = beside.maps.get(name) else { return slip("there is no such map", None, self.span(map)) };
        let at = self.place(map);
        match table {
            LookUp::Points(points) => {
                let (mut all, mut by, mut gives) = (Vec::new(), None, None);
                for ((x, x_unit), (y, y_unit)) in points {
                    let (x, of_x) = self.literal(*x, *x_unit, by.or_else(|| self.guess(of)), at.clone())?;
                    let (y, of_y) = self.literal(*y, *y_unit, gives.or(wanted), at.clone())?;
                    by = Some(of_x);
                    gives = Some(of_y);
                    all.extend(x.constant().zip(y.constant()));
                }
                let (by, gives) = (by.unwrap_or_default(), gives.unwrap_or_default());
                let (num, measure) = self.num(of, Some(by))?;
                self.agree(by, measure, of, |a, b| format!("{name} is by {a}, and this is {b}"))?;
                let reason = self.reason(&format!("{} is beyond the ends of {name}", self.written(of)));
                Ok((NumExpr::Line(Box::new(num), all, reason), gives))
            }
            LookUp::Words(words) => {
                let Some((fact, index)) = self.choice(of)? else {
                    let message = format!("{name} is by a word, and this is none");
                    return slip(message, Some(format!("write lookup({name}, {{use}})")), self.span(of));
                };
                let (mut all, mut gives) = (Vec::new(), None);
                for (word, (value, unit)) in words {
                    let index = self.index_of(fact, word, at.clone())?;
                    let (value, measure) = self.literal(*value, *unit, gives.or(wanted), at.clone())?;
                    gives = Some(measure);
                    all.extend(value.constant().map(|value| (index, value)));
                }
                let reason = self.reason(&format!("{name} says nothing for this {}", fact.id.replace(['.', '-'], " ")));
                Ok((NumExpr::ByWord(index, all, reason), gives.unwrap_or_default()))
            }
        }
    }

    fn literal(
        &self,
        value: f64,
        unit: Option<&'static str>,
        wanted: Option<Measure>,
        at: Range<usize>,
    ) -> Checked<(NumExpr, Measure)> {
        if value.abs() > MOST {
            return slip(format!("no engine has {value:e} of anything"), None, at);
        }
        let Some(unit) = unit else { return Ok((NumExpr::Const(value), Measure::BARE)) };
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
                Ok((NumExpr::Const((value + unit.offset) * unit.factor), measure))
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
                let Some(FactValue::Quantity(kind)) = self.asked.fact(id).and_then(AskedFacts::value) else {
                    return None;
                };
                return Some(Measure::of(kind));
            }
            Some(Item::Number(_, unit)) => {
                let meanings = meanings((*unit)?);
                return meanings.first().copied().filter(|_| meanings.len() == 1);
            }
            Some(Item::Day(_)) => return Some(self.day()),
            Some(Item::List(_) | Item::Map(_)) => return None,
            None => {}
        }
        let Expr::Call(CallExpr { func_name, args, .. }) = &expr.expr else { return None };
        match (func_name.as_str(), args.as_slice()) {
            (sign::NEGATE | "abs" | "worst" | "least" | "sum" | "mean", [of]) => self.guess(of),
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
    ) -> Checked<((NumExpr, Measure), (NumExpr, Measure))> {
        let wanted = wanted.or_else(|| self.guess(a)).or_else(|| self.guess(b));
        let left = self.num(a, wanted)?;
        let right = self.num(b, wanted)?;
        self.agree(left.1, right.1, b, say)?;
        // a number beside a quantity without dimension is one
        let measure = if left.1.bare { right.1 } else { left.1 };
        Ok(((left.0, measure), right))
    }

    fn sum(&mut self, op: Op, a: &IdedExpr, b: &IdedExpr, wanted: Option<Measure>) -> Checked<(NumExpr, Measure)> {
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
        Ok((NumExpr::Of(op, Box::new(left), Box::new(right)), measure))
    }

    fn product(&mut self, op: Op, a: &IdedExpr, b: &IdedExpr) -> Checked<(NumExpr, Measure)> {
        let (left, mine) = self.num(a, None)?;
        let (right, its) = self.num(b, None)?;
        self.no_point(mine, a)?;
        self.no_point(its, b)?;
        let share = |m: Measure, other: Measure| m.share && other.bare;
        let mut measure = mine.times(its, 1);
        measure.share = share(mine, its) || share(its, mine);
        Ok((NumExpr::Of(op, Box::new(left), Box::new(right)), measure))
    }

    fn quotient(&mut self, a: &IdedExpr, b: &IdedExpr, whole: &IdedExpr) -> Checked<(NumExpr, Measure)> {
        let (left, mine) = self.num(a, None)?;
        let (right, its) = self.num(b, None)?;
        self.no_point(mine, a)?;
        self.no_point(its, b)?;
        if right.constant() == Some(0.0) {
            return slip("this divides by zero", None, self.span(whole));
        }
        let mut measure = mine.times(its, -1);
        measure.share = mine.share && its.bare;
        let reason = self.reason(&format!("it divides by {}, which comes to nothing here", self.written(b)));
        Ok((NumExpr::Div(Box::new(left), Box::new(right), reason), measure))
    }

    /// Yes or no.
    pub(crate) fn bool(&mut self, expr: &IdedExpr) -> Checked<BoolExpr> {
        if let Some((fact, index, value)) = self.fact(expr, false)? {
            return match value {
                FactValue::Flag => Ok(BoolExpr::Flag(index)),
                FactValue::Choice => slip(
                    format!("{} is a word, and yes or no is wanted here", fact.id),
                    Some(format!("ask it: {{{}}} == \"{}\"", fact.id, fact.choices.first().map_or("", String::as_str))),
                    self.place(expr),
                ),
                FactValue::Quantity(_) => slip(
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
            return Ok(BoolExpr::Const(*b.inner()));
        }
        let Expr::Call(call) = &expr.expr else {
            return self.unsupported(expr, "yes or no");
        };
        match (call.func_name.as_str(), call.args.as_slice()) {
            (sign::LOGICAL_NOT, [of]) => Ok(BoolExpr::Not(Box::new(self.bool(of)?))),
            (sign::LOGICAL_AND, [a, b]) => Ok(BoolExpr::And(Box::new(self.bool(a)?), Box::new(self.bool(b)?))),
            (sign::LOGICAL_OR, [a, b]) => Ok(BoolExpr::Or(Box::new(self.bool(a)?), Box::new(self.bool(b)?))),
            (name @ ("any" | "all"), [of]) => {
                let (of, facts) = self.over_places(name, expr, |c| c.bool(of))?;
                let of = Box::new(of);
                Ok(if name == "any" { BoolExpr::Any(of, facts) } else { BoolExpr::Every(of, facts) })
            }
            (name @ ("any" | "all"), _) => slip(
                format!("{name}(..) takes one question"),
                Some("write any({spring.open-load} > 900 lbf)".to_owned()),
                self.span(expr),
            ),
            (sign::CONDITIONAL, [when, a, b]) => {
                let when = self.bool(when)?;
                Ok(BoolExpr::If(Box::new(when), Box::new(self.bool(a)?), Box::new(self.bool(b)?)))
            }
            ("hAs", [of]) => match self.fact(of, true)? {
                Some((_, index, _)) => Ok(BoolExpr::Has(index)),
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
                Ok(BoolExpr::Cmp(cmp, a, b))
            }
            _ => slip("this is a number, and yes or no is wanted here", Some("compare it".to_owned()), self.span(expr)),
        }
    }

    fn equal(&mut self, a: &IdedExpr, b: &IdedExpr, not: bool) -> Checked<BoolExpr> {
        let maybe_not = |b: BoolExpr| if not { BoolExpr::Not(Box::new(b)) } else { b };
        for (fact, word) in [(a, b), (b, a)] {
            if let Some(found) = self.choice(fact)? {
                let words = vec![self.word(found.0, word)?];
                return Ok(maybe_not(BoolExpr::Is(found.1, words)));
            }
        }
        if self.is_bool(a) || self.is_bool(b) {
            return Ok(maybe_not(BoolExpr::Same(Box::new(self.bool(a)?), Box::new(self.bool(b)?))));
        }
        let ((a, _), (b, _)) = self.alike(a, b, None, |a, b| format!("{a} cannot be compared with {b}"))?;
        Ok(BoolExpr::Cmp(if not { Cmp::Other } else { Cmp::Same }, a, b))
    }

    fn choice(&mut self, expr: &IdedExpr) -> Checked<Option<(&'a TableFact, u32)>> {
        Ok(self
            .fact(expr, false)?
            .filter(|(_, _, value)| *value == FactValue::Choice)
            .map(|(fact, index, _)| (fact, index)))
    }

    fn is_bool(&self, expr: &IdedExpr) -> bool {
        match self.item(expr) {
            Some(Item::Fact(id)) => self.asked.fact(id).and_then(AskedFacts::value) == Some(FactValue::Flag),
            Some(_) => false,
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
                        | "abs"
                        | "sqrt"
                        | "pow"
                        | "worst"
                        | "least"
                        | "sum"
                        | "mean"
                        | "count"
                        | "lookup",
                        _,
                    ) => false,
                    _ => true,
                },
                _ => false,
            },
        }
    }

    /// The number of a choice's word.
    fn word(&mut self, fact: &TableFact, expr: &IdedExpr) -> Checked<u32> {
        let Expr::Literal(LiteralValue::String(word)) = &expr.expr else {
            return slip(format!("{} is a word: compare it with one, in quotes", fact.id), None, self.span(expr));
        };
        self.index_of(fact, word.inner(), self.place(expr))
    }

    fn index_of(&mut self, fact: &TableFact, word: &str, at: Range<usize>) -> Checked<u32> {
        if fact.is_open() {
            return Ok(self.asked.word(fact, word));
        }
        let words = self.asked.words(fact);
        if let Some(index) = words.iter().position(|w| w == word) {
            return Ok(u32::try_from(index).unwrap_or(u32::MAX));
        }
        let near = nearest(word, words.iter().map(String::as_str)).map(|n| format!("did you mean \"{n}\"? "));
        let all: Vec<&str> = words.iter().map(String::as_str).collect();
        let mut help = format!("{}{} is {}", near.unwrap_or_default(), fact.id, list(&all));
        if fact.id == "use" {
            help.push_str("; a table can add a use with \"uses\"");
        }
        slip(format!("no {} is called \"{}\"", fact.id, clip(word, 40)), Some(help), at)
    }

    fn one_of(&mut self, of: &IdedExpr, list: &IdedExpr) -> Checked<BoolExpr> {
        if let Some(Item::List(name)) = self.item(list) {
            return self.in_list(of, name, list);
        }
        let Expr::List(items) = &list.expr else {
            return slip("after in stands a list: in [\"street\", \"bracket\"]", None, self.span(list));
        };
        if items.elements.is_empty() {
            return slip("this list is empty, so nothing is in it", None, self.place(list));
        }
        if let Some((fact, index)) = self.choice(of)? {
            let words = items.elements.iter().map(|w| self.word(fact, w)).collect::<Checked<_>>()?;
            return Ok(BoolExpr::Is(index, words));
        }
        let wanted = self.guess(of).or_else(|| items.elements.iter().find_map(|i| self.guess(i)));
        let (num, measure) = self.num(of, wanted)?;
        let mut others = Vec::new();
        for item in &items.elements {
            let (other, its) = self.num(item, wanted)?;
            self.agree(measure, its, item, |a, b| format!("{a} cannot be compared with {b}"))?;
            others.push(other);
        }
        Ok(BoolExpr::OneOf(num, others))
    }

    /// Whether it is in a list beside the rules.
    fn in_list(&mut self, of: &IdedExpr, name: &str, list: &IdedExpr) -> Checked<BoolExpr> {
        let beside = self.beside;
        let entries = beside.lists.get(name).map_or(&[][..], Vec::as_slice);
        let at = self.place(list);
        if let Some((fact, index)) = self.choice(of)? {
            let words = entries.iter().map(|e| self.index_of(fact, e, at.clone())).collect::<Checked<_>>()?;
            return Ok(BoolExpr::Is(index, words));
        }
        let (num, measure) = self.num(of, None)?;
        let mut others = Vec::new();
        for entry in entries {
            let Some((value, unit)) = crate::beside::number(entry) else {
                let message =
                    format!("{name} has the word \"{}\", and {} is asked for", clip(entry, 40), measure.name());
                return slip(message, None, at);
            };
            let (other, its) = self.literal(value, unit, Some(measure), at.clone())?;
            self.agree(measure, its, list, |a, b| format!("{a} cannot be compared with {b}"))?;
            others.push(other);
        }
        Ok(BoolExpr::OneOf(num, others))
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

/// No number of a table is larger: none that an engine has comes near, and a page has room for no more digits.
const MOST: f64 = 1e12;

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
