//! Two engines side by side: what differs in their sheets, and what of it moves a verdict, a figure or a life. First the plain
//! data, then the text and the JSON of it.

use super::bench::{Bench, short_title, wrap};
use super::plan_words::{count, meter_name};
use super::words::{self, NamedPack};
use serde_json::{Map, Value, json};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use thou_facts::Figure;
use thou_judge::State;
use thou_plan::Plan;
use thou_sheet::clean;
use thou_sheet::model::Axis;
use thou_verdict::{Item, Verdict};

/// How many lines of fields and of figures a page has unless all are asked for.
const MOST: usize = 15;

/// Decimals beyond the trade's that two figures are told apart by, at the most.
const MOST_DIGITS: usize = 3;

/// An engine with all that is said of it.
#[derive(Clone, Copy)]
pub struct Side<'a> {
    /// What it is called on the page.
    pub name: &'a str,
    /// What its pages are written from.
    pub bench: &'a Bench<'a>,
    /// What its rules say.
    pub verdict: &'a Verdict,
    /// Its plan.
    pub plan: &'a Plan,
}

/// A field or a set of readings that is not the same in both sheets.
struct FieldDiff {
    path: String,
    was: Option<String>,
    now: Option<String>,
}

/// A rule that says another thing of one place or several.
struct VerdictDiff<'a> {
    was: Option<&'a Item>,
    now: Option<&'a Item>,
    places: Vec<Option<(Axis, usize)>>,
}

/// A figure that is not the same.
struct FigureDiff {
    fact: &'static str,
    place: Option<(Axis, usize)>,
    /// How many places of it moved.
    places: usize,
    was: f64,
    now: f64,
    /// Expanded uncertainty (k = 2) of the one that is known less.
    known_to: f64,
}

impl FigureDiff {
    /// Whether it moved by more than what the less known of the two is known to.
    fn told_apart(&self) -> bool {
        (self.now - self.was).abs() > self.known_to
    }
    fn share(&self) -> f64 {
        (self.now - self.was).abs() / self.was.abs().max(f64::MIN_POSITIVE)
    }
}

/// A service whose life is not the same; none where one of the two engines has no such service.
struct LifeDiff {
    rule: String,
    title: String,
    place: Option<(Axis, usize)>,
    meter: String,
    was: Option<f64>,
    now: Option<f64>,
}

impl LifeDiff {
    /// Whether it prints as another number.
    fn moved(&self) -> bool {
        let printed = |si: Option<f64>| si.map(|si| count(&self.meter, si, thou_contract::System::Inch));
        printed(self.was) != printed(self.now)
    }
    /// What is left of it; a service that only one of the two has comes first.
    fn left(&self) -> f64 {
        self.was.zip(self.now).map_or(0.0, |(was, now)| now / was.max(f64::MIN_POSITIVE))
    }
}

/// All that differs.
pub struct Comparison<'a> {
    a: Side<'a>,
    b: Side<'a>,
    fields: Vec<FieldDiff>,
    verdicts: Vec<VerdictDiff<'a>>,
    figures: Vec<FigureDiff>,
    lives: Vec<LifeDiff>,
}

impl<'a> Comparison<'a> {
    /// Sets the second beside the first.
    #[must_use]
    pub fn of(a: Side<'a>, b: Side<'a>) -> Self {
        let mut fields = Vec::new();
        differ(&a.bench.sheet.root, &b.bench.sheet.root, "", &mut fields);
        Self {
            a,
            b,
            fields,
            verdicts: verdicts(a.verdict, b.verdict),
            figures: figures(a, b),
            lives: lives(a.plan, b.plan),
        }
    }

    /// What got worse, and what did not.
    fn by_turn(&self) -> [(&'static str, Vec<&VerdictDiff<'a>>); 4] {
        let of = |turn: Turn| self.verdicts.iter().filter(|v| v.turn() == turn).collect();
        [
            ("WORSE", of(Turn::Worse)),
            ("BETTER", of(Turn::Better)),
            ("ASKED ONLY OF THE SECOND", of(Turn::Added)),
            ("NO LONGER ASKED", of(Turn::Gone)),
        ]
    }

    /// For people.
    #[must_use]
    pub fn text(&self, packs: &[NamedPack], all: bool) -> String {
        let mut out = wrap(&format!("COMPARE   {}   with   {}", self.a.name, self.b.name), "", "  ");
        for side in [self.a, self.b] {
            for lost in &side.verdict.lost {
                let _ = write!(out, "\n{}", wrap(&format!("{}: {lost}", side.name), "", "  "));
            }
        }
        self.fields_text(all, &mut out);
        for (head, list) in self.by_turn() {
            self.verdicts_text(head, &list, all, &mut out);
        }
        if self.verdicts.is_empty() {
            out.push_str("\nNo rule says another thing.\n");
        }
        self.lives_text(&mut out);
        self.figures_text(all, &mut out);
        let _ = write!(out, "\n{}", words::packs_line(packs));
        out.push_str(&words::foot());
        out
    }

    fn fields_text(&self, all: bool, out: &mut String) {
        if self.fields.is_empty() {
            out.push_str("\nThe sheets say the same.\n");
            return;
        }
        out.push_str("\nFIELDS THAT DIFFER\n");
        let most = if all { usize::MAX } else { MOST };
        for field in self.fields.iter().take(most) {
            let shown = |v: &Option<String>| v.as_deref().map_or_else(|| "none".to_owned(), |v| clean(v, 60));
            out.push_str(&wrap(
                &format!("{}: {}, then {}", field.path, shown(&field.was), shown(&field.now)),
                "  ",
                "      ",
            ));
        }
        more(self.fields.len(), most, out);
    }

    fn verdicts_text(&self, head: &str, list: &[&VerdictDiff<'_>], all: bool, out: &mut String) {
        if !list.is_empty() {
            let _ = write!(out, "\n{head}\n");
        }
        let mut goes = 0;
        for diff in list {
            // what one of the two was never asked, and is well in the other
            if !all && diff.only_a_go() {
                goes += 1;
                continue;
            }
            let Some(item) = diff.now.or(diff.was) else { continue };
            let side = if diff.now.is_some() { self.b } else { self.a };
            let state = |i: Option<&Item>| i.map_or("not asked", |i| i.state.word());
            let mut line = short_title(&item.title, item.fact.as_deref());
            let places = side.bench.places(&diff.places);
            if !places.is_empty() {
                let _ = write!(line, ", {places}");
            }
            let _ = write!(line, ": {}, then {}", state(diff.was), state(diff.now));
            if let Some(values) = self.values(diff) {
                let _ = write!(line, "; {values}");
            } else if matches!(diff.turn(), Turn::Worse | Turn::Added) {
                let said = side.bench.plain(&item.words, &item.args, item.place);
                if !said.is_empty() {
                    let _ = write!(line, "; {said}");
                }
            }
            out.push_str(&wrap(&line, "  ", "      "));
        }
        if goes > 0 {
            let which = if goes == list.len() { "" } else { "and " };
            let _ = writeln!(out, "  {which}{goes} that {} a go: --all", if goes == 1 { "is" } else { "are" });
        }
    }

    /// What the figure was and is, where the rule judges one, at the first place.
    fn values(&self, diff: &VerdictDiff<'_>) -> Option<String> {
        let figure = |side: Side<'_>, item: Option<&Item>| {
            let item = item?;
            Some(side.bench.figure(item.fact.as_deref()?).text(item.value?.value))
        };
        match (figure(self.a, diff.was), figure(self.b, diff.now)) {
            (Some(was), Some(now)) if was == now => Some(was),
            (Some(was), Some(now)) => Some(format!("{was}, then {now}")),
            (one, other) => one.or(other),
        }
    }

    fn lives_text(&self, out: &mut String) {
        let hours = |plan: &Plan| plan.stops.iter().map(|s| s.hours).sum::<f64>();
        let (was, now) = (hours(self.a.plan), hours(self.b.plan));
        if self.lives.is_empty() && (was - now).abs() < 0.05 {
            out.push_str("\nNo life moves.\n");
            return;
        }
        out.push_str("\nLIVES, as each is to be planned for\n");
        let system = self.b.bench.system;
        for life in &self.lives {
            let shown = |si: Option<f64>| match si.map(|si| count(&life.meter, si, system)) {
                None => "none".to_owned(),
                Some(n) => {
                    let meter = meter_name(&life.meter, system);
                    let one = if meter == "passes" { "pass" } else { meter.trim_end_matches('s') };
                    format!("{n} {}", if n == "1" { one } else { meter })
                }
            };
            let place = self.b.bench.place(life.place);
            let at = if place.is_empty() { String::new() } else { format!(", {place}") };
            let line = format!("{}{at}: {}, then {}", life.title.to_lowercase(), shown(life.was), shown(life.now));
            out.push_str(&wrap(&line, "  ", "      "));
        }
        if (was - now).abs() >= 0.05 {
            out.push_str(&wrap(&format!("work at the stops of the plan: {was:.1} h, then {now:.1} h"), "  ", "      "));
        }
    }

    fn figures_text(&self, all: bool, out: &mut String) {
        if self.figures.is_empty() {
            out.push_str("\nNo figure moves.\n");
            return;
        }
        let (apart, near): (Vec<&FigureDiff>, Vec<&FigureDiff>) = self.figures.iter().partition(|f| f.told_apart());
        let most = if all { usize::MAX } else { MOST };
        for (head, list) in
            [("FIGURES THAT MOVE, the most first", apart), ("MOVES OF LESS THAN WHAT THE FIGURE IS KNOWN TO", near)]
        {
            if list.is_empty() {
                continue;
            }
            let _ = write!(out, "\n{head}\n");
            for figure in list.iter().take(most) {
                out.push_str(&wrap(&self.figure_line(figure), "  ", "      "));
            }
            more(list.len(), most, out);
        }
    }

    fn figure_line(&self, diff: &FigureDiff) -> String {
        let print: Figure = self.b.bench.figure(diff.fact);
        // as many decimals as tell the two apart
        let told = |n: &usize| print.number_with(diff.was, *n) != print.number_with(diff.now, *n);
        let digits = (0..MOST_DIGITS).find(told).unwrap_or(MOST_DIGITS);
        let (was, now) = (print.number_with(diff.was, digits), print.number_with(diff.now, digits));
        let unit = print.unit();
        let unit = if unit.is_empty() { String::new() } else { format!(" {unit}") };
        let place = self.b.bench.place(diff.place);
        let at = match (place.is_empty(), diff.places) {
            (true, _) => String::new(),
            (false, 1) => format!(", {place}"),
            (false, n) => format!(", most at {place} of {n}"),
        };
        format!("{}{at}: {was}, then {now}{unit}", diff.fact)
    }

    /// For programs.
    #[must_use]
    pub fn json(&self, packs: &[NamedPack]) -> Value {
        let side = |s: Side<'_>| {
            let engine = s.bench.sheet.stated("engine.name").map_or(Value::Null, |(v, _)| v.clone());
            let lost: Vec<String> = s.verdict.lost.iter().map(ToString::to_string).collect();
            json!({ "name": s.name, "engine": engine, "exit-status": s.verdict.exit_code(false), "faults": lost })
        };
        let fields: Vec<Value> =
            self.fields.iter().map(|f| json!({ "field": f.path, "was": f.was, "now": f.now })).collect();
        let word = |i: Option<&Item>| i.map(|i| i.state.word().replace(' ', "-"));
        let verdict = |v: &VerdictDiff<'_>| {
            let item = v.now.or(v.was);
            let side = if v.now.is_some() { self.b } else { self.a };
            let value = |i: Option<&Item>| i.and_then(|i| i.value).map(|v| v.value);
            json!({
                "rule": item.map(|i| &i.rule), "title": item.map(|i| &i.title), "fact": item.and_then(|i| i.fact.as_ref()),
                "turn": v.turn().word(), "places": v.places.iter().map(|p| side.bench.place(*p)).filter(|p| !p.is_empty()).collect::<Vec<_>>(),
                "was": { "verdict": word(v.was), "si": value(v.was) }, "now": { "verdict": word(v.now), "si": value(v.now) },
            })
        };
        let figure = |f: &FigureDiff| {
            json!({
                "fact": f.fact, "kind": self.b.bench.kind(f.fact).id(), "place": self.b.bench.place(f.place), "places": f.places,
                "was": f.was, "now": f.now, "expanded-uncertainty": f.known_to, "told-apart": f.told_apart(),
            })
        };
        let life = |l: &LifeDiff| {
            let number = |si: Option<f64>| {
                si.and_then(|si| count(&l.meter, si, thou_contract::System::Inch).parse::<f64>().ok())
            };
            json!({
                "rule": l.rule, "title": l.title, "place": self.b.bench.place(l.place), "meter": l.meter,
                "was": number(l.was), "now": number(l.now),
            })
        };
        let mut out = Map::new();
        out.insert("format".to_owned(), json!("thou-compare-1"));
        out.insert("thou".to_owned(), json!(env!("CARGO_PKG_VERSION")));
        out.insert("defers".to_owned(), json!(words::DEFERS));
        out.insert(
            "packs".to_owned(),
            json!(
                packs
                    .iter()
                    .map(|p| json!({ "id": p.id, "version": p.version, "sha256": p.sha256 }))
                    .collect::<Vec<_>>()
            ),
        );
        out.insert("first".to_owned(), side(self.a));
        out.insert("second".to_owned(), side(self.b));
        out.insert("fields".to_owned(), json!(fields));
        out.insert("verdicts".to_owned(), self.verdicts.iter().map(verdict).collect());
        out.insert("lives".to_owned(), self.lives.iter().map(life).collect());
        out.insert("figures".to_owned(), self.figures.iter().map(figure).collect());
        Value::Object(out)
    }
}

fn more(have: usize, most: usize, out: &mut String) {
    if have > most {
        let _ = writeln!(out, "  and {} more: --all", have - most);
    }
}

/// Which way a verdict went.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Turn {
    Worse,
    Better,
    Added,
    Gone,
}

impl Turn {
    fn word(self) -> &'static str {
        match self {
            Self::Worse => "worse",
            Self::Better => "better",
            Self::Added => "added",
            Self::Gone => "gone",
        }
    }
}

impl VerdictDiff<'_> {
    /// The states stand worst first.
    fn turn(&self) -> Turn {
        match (self.was, self.now) {
            (Some(was), Some(now)) if now.state < was.state => Turn::Worse,
            (Some(_), Some(_)) => Turn::Better,
            (None, _) => Turn::Added,
            (Some(_), None) => Turn::Gone,
        }
    }
}

impl VerdictDiff<'_> {
    /// Whether one of the two is not asked and the other a go.
    fn only_a_go(&self) -> bool {
        match (self.was, self.now) {
            (Some(item), None) | (None, Some(item)) => item.state == State::Go,
            _ => false,
        }
    }
}

/// What a rule is asked of.
type Asked<'a> = (&'a str, Option<&'a str>, Option<(Axis, usize)>);

/// The worst that each rule says of each place.
fn said(verdict: &Verdict) -> BTreeMap<Asked<'_>, &Item> {
    let mut said: BTreeMap<Asked<'_>, &Item> = BTreeMap::new();
    // what does not apply says nothing
    for item in verdict.items.iter().filter(|i| i.state != State::DoesNotApply) {
        let key = (item.rule.as_str(), item.fact.as_deref(), item.place);
        said.entry(key)
            .and_modify(|worst| {
                if item.state < worst.state {
                    *worst = item
                }
            })
            .or_insert(item);
    }
    said
}

/// Every rule that says another thing, the worst first; places of a rule that go one way are told together.
fn verdicts<'a>(a: &'a Verdict, b: &'a Verdict) -> Vec<VerdictDiff<'a>> {
    let (was, now) = (said(a), said(b));
    let asked: BTreeSet<Asked<'_>> = was.keys().chain(now.keys()).copied().collect();
    let mut out: Vec<VerdictDiff<'_>> = Vec::new();
    for key in asked {
        let (was, now) = (was.get(&key).copied(), now.get(&key).copied());
        let state = |i: Option<&Item>| i.map(|i| i.state);
        if state(was) == state(now) {
            continue;
        }
        let alike = |d: &&mut VerdictDiff<'_>| {
            let same = |i: Option<&Item>| i.is_some_and(|i| (i.rule.as_str(), i.fact.as_deref()) == (key.0, key.1));
            same(d.now.or(d.was)) && state(d.was) == state(was) && state(d.now) == state(now)
        };
        match out.iter_mut().find(alike) {
            Some(diff) => diff.places.push(key.2),
            None => out.push(VerdictDiff { was, now, places: vec![key.2] }),
        }
    }
    out.sort_by_key(|d| (d.turn(), d.now.map(|i| i.state), d.was.map(|i| i.state)));
    out
}

/// Every figure that moved, the most first: at the place where it moved most.
fn figures(a: Side<'_>, b: Side<'_>) -> Vec<FigureDiff> {
    let mut out = Vec::new();
    for info in b.bench.facts.catalogue().all().filter(|i| i.series.is_none() && i.value.kind().is_some()) {
        let (was, now) = (a.bench.facts.cells(info.id), b.bench.facts.cells(info.id));
        let mut most: Option<FigureDiff> = None;
        let mut places = 0;
        for (at, cells) in was.iter().zip(now).enumerate() {
            let (Ok(was), Ok(now)) = cells else { continue };
            // below what two ways of adding up may differ by, or what no page has digits for
            let print = b.bench.figure(info.id);
            let alike = (now.value - was.value).abs() <= 1e-9 * was.value.abs().max(now.value.abs());
            if alike || print.number_with(was.value, MOST_DIGITS) == print.number_with(now.value, MOST_DIGITS) {
                continue;
            }
            places += 1;
            let diff = FigureDiff {
                fact: info.id,
                place: (info.axis != Axis::One).then_some((info.axis, at)),
                places,
                was: was.value,
                now: now.value,
                known_to: 2.0 * was.uncertainty().max(now.uncertainty()),
            };
            if most.as_ref().is_none_or(|m| diff.share() > m.share()) {
                most = Some(diff);
            }
        }
        out.extend(most.map(|m| FigureDiff { places, ..m }));
    }
    out.sort_by(|x, y| y.share().total_cmp(&x.share()).then(x.fact.cmp(y.fact)));
    out
}

/// Every service whose life moved, the one that lost most first.
fn lives(a: &Plan, b: &Plan) -> Vec<LifeDiff> {
    let mut all: BTreeMap<_, LifeDiff> = BTreeMap::new();
    for (plan, second) in [(a, false), (b, true)] {
        for s in plan.lines.iter().map(|l| &l.service) {
            let life = all.entry((&s.rule, &s.meter, s.place)).or_insert_with(|| LifeDiff {
                rule: s.rule.clone(),
                title: s.title.clone(),
                place: s.place,
                meter: s.meter.clone(),
                was: None,
                now: None,
            });
            *(if second { &mut life.now } else { &mut life.was }) = Some(s.nominal);
        }
    }
    let mut out: Vec<LifeDiff> = all.into_values().filter(LifeDiff::moved).collect();
    out.sort_by(|x, y| x.left().total_cmp(&y.left()));
    out
}

/// The fields of two sheets that differ: lists as a whole, readings a set as a whole.
fn differ(a: &Value, b: &Value, path: &str, out: &mut Vec<FieldDiff>) {
    if a == b || path == "notes" {
        return;
    }
    let deep = path.split('.').count();
    match (a, b) {
        (Value::Object(x), Value::Object(y)) if !(path.starts_with("readings.") && deep >= 2) => {
            let keys: Vec<&String> = x.keys().chain(y.keys().filter(|k| !x.contains_key(*k))).collect();
            for key in keys {
                let below = if path.is_empty() { key.clone() } else { format!("{path}.{key}") };
                differ(x.get(key).unwrap_or(&Value::Null), y.get(key).unwrap_or(&Value::Null), &below, out);
            }
        }
        _ => out.push(FieldDiff { path: path.to_owned(), was: shown(a), now: shown(b) }),
    }
}

/// A value in a few words; none where there is nothing.
fn shown(value: &Value) -> Option<String> {
    match value {
        Value::Null => None,
        Value::String(text) => Some(text.clone()),
        Value::Array(list) => Some(format!("a list of {}", list.len())),
        Value::Object(map) => match map.get("at").or_else(|| map.get("value")) {
            Some(Value::Object(at)) => Some(format!("{} read", at.len())),
            Some(Value::Array(list)) => Some(format!("{} read", list.len())),
            Some(one) => shown(one),
            None => Some(format!("{} fields", map.len())),
        },
        other => Some(other.to_string()),
    }
}
