//! Lines that several pages share: the head, the foot, the advice, the caret.

use super::bench::{Bench, wrap};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use thou_facts::Figure;
use thou_sheet::model::Axis;
use thou_sheet::{Sheet, clean};
use thou_verdict::{ArgValue, Item, Solved, Verdict, moves};

/// The engine, the page, the intent and the day.
pub(super) fn header(bench: &Bench<'_>, page: &str, out: &mut String) {
    let text = |path: &str| bench.sheet.stated(path).and_then(|(v, _)| v.as_str()).map(str::to_owned);
    let mut parts = Vec::new();
    parts.extend(text("engine.name"));
    parts.push(page.to_owned());
    parts.extend(text("intent.use"));
    if let (Some(power), Some(speed)) = (text("intent.power"), text("intent.power-speed")) {
        parts.push(format!("{power} at {speed}"));
    }
    parts.extend(text("intent.fuel").map(|f| fuel(&f)));
    parts.extend(text("engine.date"));
    out.push_str(&wrap(&parts.join("   "), "", "  "));
    out.push_str(&what_if(bench.sheet));
}

/// That the page is of a sheet with fields otherwise than the file has them, and which; empty where none is.
#[must_use]
pub fn what_if(sheet: &Sheet) -> String {
    let mut out = String::new();
    if !sheet.changes.is_empty() {
        out.push_str("\nWHAT IF, for this page alone; the sheet stays as it is\n");
    }
    for change in &sheet.changes {
        let was = match change.was.as_deref() {
            Some(was) => format!("the sheet has {}", clean(was, 60)),
            None => "the sheet has none".to_owned(),
        };
        let line = format!("{}: {}; {was}", change.path, clean(&change.now, 60));
        out.push_str(&wrap(&line, "  ", "      "));
    }
    out
}

/// A fuel's name as it is said.
fn fuel(word: &str) -> String {
    match word {
        "petrol-race" => "race petrol".to_owned(),
        "petrol-pump" => "pump petrol".to_owned(),
        other => other.replace('-', " "),
    }
}

/// The head of an operation's part of a page.
pub(super) fn heading(operation: &str) -> String {
    match operation {
        "combination" => "COMBINATION AND INTENT".to_owned(),
        other => other.replace('-', " ").to_uppercase(),
    }
}

/// What is signed for stands at the top of every page, and what another pack would loosen.
pub(super) fn accepted(bench: &Bench<'_>, verdict: &Verdict, out: &mut String) {
    super::replaced::on_top(bench, verdict, out);
    let mut groups: Vec<Vec<&Item>> = Vec::new();
    for item in verdict.items.iter().filter(|i| i.accepted.is_some()) {
        let same = |f: &&Item| f.rule == item.rule && f.state == item.state && f.accepted == item.accepted;
        match groups.iter_mut().find(|g| g.first().is_some_and(same)) {
            Some(group) => group.push(item),
            None => groups.push(vec![item]),
        }
    }
    for group in groups {
        let Some((first, a)) = group.first().and_then(|f| Some((f, f.accepted.as_ref()?))) else { continue };
        let until = a.until.map_or("the next freshen".to_owned(), |d| d.to_string());
        let places: Vec<_> = group.iter().map(|i| i.place).collect();
        let mut places = bench.places(&places);
        if !places.is_empty() {
            places.insert(0, ' ');
        }
        let words = format!(
            "Accepted by {} until {until}: {}{places} ({}), {}",
            a.by,
            first.rule,
            first.state.word(),
            a.reason
        );
        out.push_str(&wrap(&words, "", "  "));
    }
}

/// Without the windows that have a never-limit alone, such as where metal meets metal, beside another of the same rule at
/// the same place that has what to work to: where both say the same of a reading, once is enough.
pub(super) fn without_bare_bounds<'a>(items: impl Iterator<Item = &'a Item>) -> impl Iterator<Item = &'a Item> {
    let all: Vec<&Item> = items.collect();
    let folded: Vec<bool> = {
        let working: BTreeSet<_> =
            all.iter().filter(|i| i.limits.is_some() && !is_bare(i)).map(|i| reading(i)).collect();
        all.iter().map(|i| is_bare(i) && working.contains(&reading(i))).collect()
    };
    all.into_iter().zip(folded).filter(|(_, folded)| !folded).map(|(item, _)| item)
}

/// What [`without_bare_bounds`] leaves out, by the reading that it is of.
pub(super) fn bare_bounds<'a>(items: impl Iterator<Item = &'a Item>) -> BTreeMap<Reading<'a>, Vec<&'a Item>> {
    items.filter(|i| is_bare(i)).fold(BTreeMap::new(), |mut all, item| {
        all.entry(reading(item)).or_default().push(item);
        all
    })
}

/// A window that has a never-limit alone.
pub(super) fn is_bare(item: &Item) -> bool {
    item.limits.is_some_and(|l| l.low.is_none() && l.high.is_none())
}

/// A rule, the fact and place that it judges, and whether somebody signed for what it says.
pub(super) type Reading<'a> = (&'a str, Option<&'a str>, Option<(Axis, usize)>, bool);

pub(super) fn reading(item: &Item) -> Reading<'_> {
    (&item.rule, item.fact.as_deref(), item.place, item.accepted.is_some())
}

/// Values that the sheet did not have.
pub(super) fn taken(bench: &Bench<'_>, verdict: &Verdict, out: &mut String) {
    if verdict.taken.is_empty() {
        return;
    }
    out.push_str("\nTaken because the sheet does not say:\n");
    let defaults = bench.facts.defaults_taken();
    for t in &verdict.taken {
        let own = defaults.iter().find(|d| d.fact == t.what).and_then(|d| {
            let figure = Figure::of(d.fact, d.value.kind()?, bench.system);
            let range = format!(" ({} to {})", figure.number(d.low), figure.number(d.high));
            Some(figure.text(d.taken) + if d.low == d.high { "" } else { &range })
        });
        let value = own.as_ref().unwrap_or(&t.value);
        out.push_str(&wrap(&format!("{}: {value}; {}", t.what, t.source), "  ", "    "));
    }
}

/// Readings whose gauge nobody named.
pub(super) fn assumed_gauges(bench: &Bench<'_>, verdict: &Verdict, out: &mut String) {
    let mut assumed: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for fact in verdict.items.iter().filter_map(|i| i.fact.as_deref()) {
        for num in bench.facts.cells(fact).iter().filter_map(|c| c.as_ref().ok()) {
            for root in bench.facts.roots(num) {
                if let (true, Some(gauge), Some(key)) = (root.assumed_gauge, &root.gauge, &root.reading) {
                    assumed.entry(gauge.clone()).or_default().insert(key.clone());
                }
            }
        }
    }
    if assumed.is_empty() {
        return;
    }
    out.push_str("\nNo gauge is named for these; the usual one was taken:\n");
    for (gauge, keys) in assumed {
        let keys: Vec<String> = keys.into_iter().collect();
        out.push_str(&wrap(&format!("{}: {}", gauge.replace('-', " "), keys.join(", ")), "  ", "    "));
    }
}

/// What to do about an item, a line a paragraph.
pub(super) fn advice(bench: &Bench<'_>, item: &Item) -> Vec<String> {
    let Some(advice) = &item.advice else { return Vec::new() };
    let words = bench.words(item, &advice.words);
    match &advice.solved {
        Some(solved) => with_care(bench, words, solved),
        None => vec![words],
    }
}

/// What to do about several places that miss one window alike. A part that they share, as a gasket, gets the one size
/// that suits them all; else each has its own size on its own line.
pub(super) fn advice_for_all(bench: &Bench<'_>, group: &[&Item], one_size: bool) -> Vec<String> {
    let Some(first) = group.first() else { return Vec::new() };
    let Some(advice) = &first.advice else { return Vec::new() };
    let solved: Vec<&Solved> = group.iter().filter_map(|i| i.advice.as_ref()?.solved.as_ref()).collect();
    if let Some(shared) = shared(&solved) {
        let words = advice.words.replace("{solve}", &bench.size(&shared)).replace("{place}", "each");
        return with_care(bench, bench.words(first, &words), &shared);
    }
    if let (true, Some(one)) = (one_size, solved.first()) {
        let now =
            group.iter().all(|i| i.advice.as_ref().and_then(|a| a.solved.as_ref()).map(|s| s.now) == Some(one.now));
        let size = bench.size(&Solved { now: one.now.filter(|_| now), ..(*one).clone() });
        let words = advice.words.replace("{solve}", &size).replace("{place}", "each");
        return with_care(bench, bench.words(first, &words), one);
    }
    let words = advice.words.replace("{solve}", "the size beside it").replace("{place}", "each");
    let words = bench.words(first, &words);
    match solved.first() {
        Some(solved) => with_care(bench, words, solved),
        None => vec![words],
    }
}

/// The one size of a part that all these places share.
fn shared(solved: &[&Solved]) -> Option<Solved> {
    let first = solved.first().filter(|s| s.place.is_none())?;
    let from = solved.iter().filter_map(|s| s.from).reduce(f64::max);
    let to = solved.iter().filter_map(|s| s.to).reduce(f64::min);
    if from.zip(to).is_some_and(|(f, t)| f > t) {
        return None;
    }
    let aim = first.aim.filter(|a| from.is_none_or(|f| *a >= f) && to.is_none_or(|t| *a <= t));
    Some(Solved { from, to, aim, ..(*first).clone() })
}

/// A second reading before metal comes off, and what else moves.
fn with_care(bench: &Bench<'_>, words: String, solved: &Solved) -> Vec<String> {
    let words = if solved.cuts_metal && !solved.read_twice && solved.now.is_some() {
        let mut chars = words.chars();
        let first: String = chars.next().map(|c| c.to_lowercase().collect()).unwrap_or_default();
        format!("Read it again first, metal cannot be put back. If it stands, {first}{}", chars.as_str())
    } else {
        words
    };
    let mut lines = vec![words];
    lines.extend(knock_on(bench, solved));
    lines.extend(compression(bench, solved));
    lines
}

/// What the remedy disturbs, with the amount of the least change that does it well.
fn knock_on(bench: &Bench<'_>, solved: &Solved) -> Option<String> {
    let words = moves::knock_on(&solved.fact)?;
    let target = solved.aim.or(solved.from).or(solved.to)?;
    let by = (target - solved.now?).abs();
    let mut args = BTreeMap::new();
    args.insert("by".to_owned(), ArgValue::Quantity("clearance".to_owned(), by));
    args.insert("pi-by".to_owned(), ArgValue::Quantity("clearance".to_owned(), by * std::f64::consts::PI));
    Some(bench.plain(words, &args, None))
}

/// What becomes of the compression, where the size moves it.
fn compression(bench: &Bench<'_>, solved: &Solved) -> Option<String> {
    let at = solved.place.map_or(0, |p| p.1);
    let now = bench.facts.one("compression.mean")?.value;
    let with = |x: f64| {
        let fork = bench.facts.values_with(&[(&solved.fact, at, x)]);
        fork.one("compression.mean").map(|n| n.value)
    };
    let mut ends: Vec<f64> = [solved.from, solved.to].into_iter().flatten().filter_map(with).collect();
    ends.sort_by(f64::total_cmp);
    let (low, high) = (*ends.first()?, *ends.last()?);
    if (low - now).abs() < 0.005 && (high - now).abs() < 0.005 {
        return None;
    }
    let text = if high - low < 0.005 { format!("{low:.2}") } else { format!("{high:.2} to {low:.2}") };
    Some(format!("The compression, now {now:.2}, is then {text}."))
}

/// The line of the sheet with a caret under the value.
pub(super) fn caret(bench: &Bench<'_>, pointer: &str, indent: &str) -> String {
    let source = &bench.sheet.source;
    let span = source.span(pointer);
    if source.text.is_empty() || span.is_empty() {
        return String::new();
    }
    let (line, column) = source.position(span.start);
    let text = thou_text::clean::visible(source.text.lines().nth(line - 1).unwrap_or(""));
    let number = line.to_string();
    let pad = " ".repeat(number.len());
    // a long row is shown around the value
    let room = 80usize.saturating_sub(indent.len() + number.len() + 4);
    let chars: Vec<char> = text.chars().collect();
    let end = source.text.get(span.clone()).map_or(1, |s| s.lines().next().unwrap_or("").chars().count().max(1));
    let from = if column - 1 + end > room { (column - 1).saturating_sub(room / 3) } else { 0 };
    let shown: String = chars.iter().skip(from).take(room).collect();
    let under = " ".repeat(column - 1 - from) + &"^".repeat(end.min(room.saturating_sub(column - 1 - from)).max(1));
    let mut out = String::new();
    let _ = writeln!(out, "{indent}{pad}--> {}:{line}:{column}", source.name);
    let _ = writeln!(out, "{indent}{number} | {}", shown.trim_end());
    let _ = writeln!(out, "{indent}{pad} | {under}");
    out
}

/// What a page says of a pack.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NamedPack {
    /// Its name.
    pub id: String,
    /// Its version.
    pub version: String,
    /// Whether every thou has it.
    pub built_in: bool,
    /// SHA-256 of its file, in hex.
    pub sha256: String,
    /// The public key that its signature was held to, where the lock names one.
    pub key: Option<String>,
}

/// Whose rules these were; of a pack from elsewhere which file it was, and who signed it.
pub(super) fn packs_line(packs: &[NamedPack]) -> String {
    let list: Vec<String> = packs.iter().map(|p| format!("{} {}", p.id, p.version)).collect();
    let mut out = wrap(&format!("Rules: {}. Why and whose: thou explain PACK/RULE", list.join(", ")), "", "  ");
    for pack in packs.iter().filter(|p| !p.built_in) {
        let signed = pack.key.as_ref().map_or("not held to a signature".to_owned(), |key| format!("signed with {key}"));
        out.push_str(&wrap(&format!("{} {}, {signed}, sha256", pack.id, pack.version), "  ", "    "));
        let _ = writeln!(out, "    {}", pack.sha256);
    }
    out
}

/// The foot of every page.
pub(super) fn foot() -> String {
    wrap(DEFERS, "", "")
}

/// To whom everything here defers, for the lines of a log.
pub const DEFERS_SHORT: &str = "Makers, sanctioning body, local codes and licensed practice come first.";

/// To whom everything here defers; it stands on every page and in every format.
pub const DEFERS: &str = "Planning and checking figures. The parts' makers, the sanctioning body's rules, local codes and \
                          licensed practice come first. The builder signs.";
