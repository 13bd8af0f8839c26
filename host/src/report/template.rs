//! Filling the templates of packs and of the host's own rules.

use super::bench::Bench;
use crate::facts::ValueKind;
use crate::sheet::model::Axis;
use crate::verdict::view::View;
use crate::verdict::{Arg, Item, Solved};
use std::collections::BTreeMap;
use thou_contract::Kind;

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
    }
    out.push_str(rest);
    out
}

impl Bench<'_> {
    /// An argument in the reader's units.
    fn arg(&self, args: &BTreeMap<String, Arg>, name: &str) -> Option<String> {
        match args.get(name)? {
            Arg::Word(word) => Some(word.clone()),
            Arg::Quantity(kind, value) => {
                Some(Kind::by_id(kind).map_or_else(|| value.to_string(), |k| k.text(*value, self.system)))
            }
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
            ValueKind::Quantity(kind) => Some(kind.text(value, self.system)),
            ValueKind::Flag => Some(if value > 0.5 { "yes" } else { "no" }.to_owned()),
            ValueKind::Choice(_) => None,
        }
    }

    /// Words that stand alone, with arguments and facts.
    pub(super) fn plain(&self, template: &str, args: &BTreeMap<String, Arg>, place: Option<(Axis, usize)>) -> String {
        fill(template, |name| self.common(name, args, place))
    }

    fn common(&self, name: &str, args: &BTreeMap<String, Arg>, place: Option<(Axis, usize)>) -> Option<String> {
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
            let kind = item.fact.as_deref().map(|f| self.kind(f));
            let limit = |pick: fn(&crate::verdict::Limits) -> Option<f64>| {
                Some(kind?.text(item.limits.as_ref().and_then(pick)?, self.system))
            };
            match name {
                "low" => limit(|l| l.low.or(l.never_below)),
                "high" => limit(|l| l.high.or(l.never_above)),
                "aim" => limit(|l| l.aim),
                "never-below" => limit(|l| l.never_below),
                "never-above" => limit(|l| l.never_above),
                "miss" => Some(kind?.text(item.miss?.1, self.system)),
                "value" => Some(kind?.text(item.value?.value, self.system)),
                "solve" => Some(match item.advice.as_ref().and_then(|a| a.solved.as_ref()) {
                    Some(solved) => self.size(solved),
                    None => "size".to_owned(),
                }),
                _ => self.common(name, &item.args, item.place),
            }
        })
    }

    /// "4.1556 .. 4.1571 in (now 4.1550)": ends rounded inward, so that no printed size is outside its window.
    pub(super) fn size(&self, solved: &Solved) -> String {
        let (from, to) = self.ends(solved);
        let kind = self.kind(&solved.fact);
        let unit = kind.print(self.system).unit;
        let range = match (from, to) {
            (Some(from), Some(to)) if from == to => format!("{from} {unit}"),
            (Some(from), Some(to)) => format!("{from} .. {to} {unit}"),
            (Some(from), None) => format!("{from} {unit} or more"),
            (None, Some(to)) => format!("{to} {unit} or less"),
            (None, None) => "size".to_owned(),
        };
        match solved.now {
            Some(now) => format!("{range} (now {})", kind.number(now, self.system)),
            None => range,
        }
    }

    /// Both ends of a size as they print, rounded inward.
    pub(super) fn ends(&self, solved: &Solved) -> (Option<String>, Option<String>) {
        let kind = self.kind(&solved.fact);
        let round = |si: f64, up: bool, more: usize| {
            let scale = 10f64.powi(i32::try_from(kind.print(self.system).decimals + more).unwrap_or(0));
            let x = kind.in_unit(si, self.system) * scale;
            // what is a whole step but for floating point is that step
            let whole = x.round();
            let x = if (x - whole).abs() < 1e-6 {
                whole
            } else if up {
                x.ceil()
            } else {
                x.floor()
            };
            x / scale
        };
        let print = |x: f64, more: usize| {
            let decimals = kind.print(self.system).decimals + more;
            format!("{x:.decimals$}")
        };
        // a range narrower than one printed step takes one more decimal
        let crossed =
            |more: usize| solved.from.zip(solved.to).is_some_and(|(f, t)| round(f, true, more) > round(t, false, more));
        let more = usize::from(crossed(0)) + usize::from(crossed(0) && crossed(1));
        (solved.from.map(|f| print(round(f, true, more), more)), solved.to.map(|t| print(round(t, false, more), more)))
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
