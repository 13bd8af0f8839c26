//! Filling the templates of packs and of the host's own rules.

use super::bench::Bench;
use std::collections::BTreeMap;
use thou_contract::Kind;
use thou_facts::{Figure, ValueKind};
use thou_sheet::model::Axis;
use thou_verdict::{ArgValue, Item, Solved};

/// Words that placeholders make longer than this are cut, in bytes: a template may hold hundreds of them.
const LONGEST: usize = 8_000;

/// Replaces every `{name}` by what `value` says, or by the name where it says nothing.
fn fill(template: &str, value: impl Fn(&str) -> Option<String>) -> String {
    let mut out = String::with_capacity(template.len());
    let mut rest = template;
    while let Some((before, after)) = rest.split_once('{') {
        out.push_str(before);
        let Some((name, tail)) = after.split_once('}') else {
            out.push('{');
            rest = after;
            continue;
        };
        out.push_str(&value(name).unwrap_or_else(|| name.to_owned()));
        rest = tail;
        if out.len() > LONGEST {
            out.push('…');
            return out;
        }
    }
    out.push_str(rest);
    out
}

impl Bench<'_> {
    /// An argument in the reader's units.
    fn arg(&self, args: &BTreeMap<String, ArgValue>, name: &str) -> Option<String> {
        self.arg_like(args, name, None)
    }

    /// An argument that prints like the fact that its item is about, where both are of one kind.
    fn arg_like(&self, args: &BTreeMap<String, ArgValue>, name: &str, fact: Option<&str>) -> Option<String> {
        match args.get(name)? {
            ArgValue::Word(word) => Some(word.clone()),
            ArgValue::Quantity(kind, value) => Some(Kind::by_id(kind).map_or_else(
                || value.to_string(),
                |k| match fact.filter(|f| self.kind(f) == k) {
                    Some(fact) => self.figure(fact).text(*value),
                    None => Figure::of_kind(k, self.system).text(*value),
                },
            )),
        }
    }

    /// A fact at a place, in the reader's units.
    fn fact(&self, id: &str, place: Option<(Axis, usize)>) -> Option<String> {
        let info = self.facts.info(id)?;
        if let Some(word) = self.facts.choice(id) {
            return Some(word.to_owned());
        }
        let at = match place {
            Some((axis, at)) => self.sheet.places.project(info.axis, axis, at)?,
            None => 0,
        };
        let value = self.facts.cells(id).get(at)?.as_ref().ok()?.value;
        match info.value {
            ValueKind::Quantity(kind) => Some(Figure::of(id, kind, self.system).text(value)),
            ValueKind::Flag => Some(if value > 0.5 { "yes" } else { "no" }.to_owned()),
            ValueKind::Choice(_) => None,
        }
    }

    /// Words that stand alone, with arguments and facts.
    pub(super) fn plain(
        &self,
        template: &str,
        args: &BTreeMap<String, ArgValue>,
        place: Option<(Axis, usize)>,
    ) -> String {
        fill(template, |name| self.common(name, args, place))
    }

    fn common(&self, name: &str, args: &BTreeMap<String, ArgValue>, place: Option<(Axis, usize)>) -> Option<String> {
        if name == "place" {
            return Some(self.place(place));
        }
        match name.split_once(':') {
            Some(("arg", name)) => self.arg(args, name),
            Some(("fact", id)) => self.fact(id, place).or_else(|| Some("(not in the sheet)".to_owned())),
            _ => self.arg(args, name),
        }
    }

    /// The words of an item.
    pub(super) fn words(&self, item: &Item, template: &str) -> String {
        fill(template, |name| {
            let figure = item.fact.as_deref().map(|f| self.figure(f));
            let limit = |pick: fn(&thou_verdict::Limits) -> Option<f64>| {
                Some(figure?.text(item.limits.as_ref().and_then(pick)?))
            };
            match name {
                "low" => limit(|l| l.low.or(l.never_below)),
                "high" => limit(|l| l.high.or(l.never_above)),
                "aim" => limit(|l| l.aim),
                "never-below" => limit(|l| l.never_below),
                "never-above" => limit(|l| l.never_above),
                "miss" => Some(figure?.text(item.miss?.1)),
                "value" => Some(self.value_text(item, 0)?),
                "solve" => Some(match item.advice.as_ref().and_then(|a| a.solved.as_ref()) {
                    Some(solved) => self.size(solved),
                    None => "size".to_owned(),
                }),
                _ => {
                    let own = name.strip_prefix("arg:").unwrap_or(name);
                    self.arg_like(&item.args, own, item.fact.as_deref())
                        .or_else(|| self.common(name, &item.args, item.place))
                }
            }
        })
    }

    /// The value of an item without its uncertainty: "4.4 thou", "8 or more short".
    pub(super) fn value_text(&self, item: &Item, more: usize) -> Option<String> {
        let (fact, value) = (item.fact.as_deref()?, item.value?);
        let figure = self.figure(fact);
        Some(match value.bound {
            Some(bound) => figure.bounded(fact, value.value, bound, more),
            None => figure.text(value.value),
        })
    }

    /// "4.1556 .. 4.1571 in, aim 4.1560 (now 4.1550)": ends rounded inward, so that no printed size is outside its window.
    pub(super) fn size(&self, solved: &Solved) -> String {
        let (from, to) = self.ends(solved);
        let figure = self.figure(&solved.fact);
        let unit = figure.unit();
        let mut text = match (from, to) {
            (Some(from), Some(to)) if from == to => format!("{from} {unit}"),
            (Some(from), Some(to)) => format!("{from} .. {to} {unit}"),
            (Some(from), None) => format!("{from} {unit} or more"),
            (None, Some(to)) => format!("{to} {unit} or less"),
            (None, None) => "size".to_owned(),
        };
        if let (Some(aim), Some(_), Some(_)) = (solved.aim, solved.from, solved.to) {
            text.push_str(&format!(", aim {}", figure.number(aim)));
        }
        match solved.now {
            Some(now) => format!("{text} (now {})", figure.number(now)),
            None => text,
        }
    }

    /// Both ends of a size as they print, rounded inward.
    pub(super) fn ends(&self, solved: &Solved) -> (Option<String>, Option<String>) {
        let figure = self.figure(&solved.fact);
        // a range narrower than one printed step takes one more decimal
        let crossed = |more: usize| {
            let ends = solved.from.zip(solved.to);
            ends.is_some_and(|(f, t)| figure.inward(f, true, more) > figure.inward(t, false, more))
        };
        let more = usize::from(crossed(0)) + usize::from(crossed(0) && crossed(1));
        let print = |end: Option<f64>, low: bool| end.map(|e| figure.show(figure.inward(e, low, more), more));
        (print(solved.from, true), print(solved.to, false))
    }
}

#[cfg(test)]
mod tests {
    use super::fill;

    #[test]
    fn placeholders_are_filled_and_stray_braces_stay() {
        let value = |name: &str| (name == "place").then(|| "cylinder 6".to_owned());
        assert_eq!(fill("Hone {place} now", value), "Hone cylinder 6 now");
        assert_eq!(fill("an {unknown} and a {", value), "an unknown and a {");
    }
}
