//! The check: what was measured, held against what it should be. Full text for a no-go, one line for a set of goes.

use super::bench::{Bench, capital, short_title, wrap};
use super::sets::sets;
use super::words::NamedPack;
use super::{cautions, go, like, open, replaced, table, words};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use thou_facts::Figure;
use thou_sheet::model::Axis;
use thou_verdict::{Hold, Item, Limits, State, Unjudged, Verdict, remedy};

/// Where text starts under a verdict's word.
const INDENT: &str = "         ";

/// The page: what must not run first, what is not in its window, what nobody has measured, and then the goes. With
/// `names`, what nothing judges by name.
#[must_use]
pub fn text(bench: &Bench<'_>, verdict: &Verdict, packs: &[NamedPack], names: bool) -> String {
    let mut out = String::new();
    words::header(bench, "CHECK", &mut out);
    out.push_str(&summary(verdict));
    out.push_str(&unjudged(&verdict.unjudged, names));
    words::accepted(bench, verdict, &mut out);
    for lost in &verdict.lost {
        let _ = writeln!(out, "\n{lost}");
    }
    not_go(bench, verdict, &mut out);
    like::print(bench, &mut out);
    open::print(bench, verdict, &mut out);
    go::print(bench, verdict, &mut out);
    does_not_apply(verdict, &mut out);
    replaced::rules(bench, verdict, &mut out);
    let work = verdict.items.iter().filter(|i| i.advice.is_some() && i.accepted.is_none());
    let work = work.filter(|i| matches!(i.state, State::NoGo | State::Unproven | State::Look | State::Stale));
    cautions::of_work(bench, &work.map(|i| i.operation.as_str()).collect(), &mut out);
    words::taken(bench, verdict, &mut out);
    words::assumed_gauges(bench, verdict, &mut out);
    let _ = write!(out, "\n{}", words::packs_line(packs));
    out.push_str(&words::foot());
    out
}

/// The lines of the page that are about single rules, without head and foot: for the cases of a pack.
#[must_use]
pub fn lines(bench: &Bench<'_>, verdict: &Verdict) -> String {
    let mut out = String::new();
    not_go(bench, verdict, &mut out);
    open::print(bench, verdict, &mut out);
    go::print(bench, verdict, &mut out);
    for item in verdict.items.iter().filter(|i| i.state == State::DoesNotApply) {
        let _ = write!(out, "\n{}", wrap(&format!("{} does not apply: {}", item.rule, item.words), "", "  "));
    }
    out.trim_start_matches('\n').to_owned()
}

/// What is not a go, the worst first.
fn not_go(bench: &Bench<'_>, verdict: &Verdict, out: &mut String) {
    let mut printed = BTreeSet::new();
    for state in [State::NoGo, State::Unproven, State::Look, State::Stale, State::Note] {
        let of_state = verdict.items.iter().filter(|i| i.state == state);
        let bare = words::bare_bounds(of_state.clone());
        let mut items: Vec<&Item> = words::without_bare_bounds(of_state).collect();
        // a reading that may be a slip of the pen is settled before anything else is done about it
        items.sort_by_key(|i| (!i.rule.starts_with("host/"), i.rule != "host/odd-one-out"));
        let alike = |a: &Item, b: &Item| together(a, b) && beside(&bare, a).len() == beside(&bare, b).len();
        for group in sets(bench, items.iter().copied(), alike) {
            out.push('\n');
            let also = group.first().map_or(&[][..], |first| beside(&bare, first));
            print_group(bench, &group, also, &mut printed, out);
        }
    }
}

/// The summary, which counts what nobody has measured before anything else.
#[must_use]
pub fn summary(verdict: &Verdict) -> String {
    let counts = verdict.counts();
    let count = |state| counts.of(state);
    let accepted = verdict.items.iter().filter(|i| i.accepted.is_some()).count();
    let let_go = verdict.replaced.iter().any(|r| r.hold != Hold::Kept && r.signed.is_some());
    let mut parts = vec![format!("{} not measured", count(State::Open))];
    let others = [
        (count(State::Stale), "stale"),
        (count(State::NoGo), "no-go"),
        (count(State::Unproven), "unproven"),
        (count(State::Look), "look"),
        (count(State::CannotSay), "cannot say"),
        (count(State::Note), if count(State::Note) == 1 { "note" } else { "notes" }),
        (accepted, "accepted"),
        (count(State::Go), "go"),
    ];
    for (n, word) in others {
        if n > 0 || matches!(word, "no-go" | "go") {
            parts.push(format!("{n} {word}"));
        }
    }
    let unfinished = count(State::Open) + count(State::Stale) + count(State::Unproven) + count(State::CannotSay) > 0;
    let verdict_line = if !verdict.lost.is_empty() {
        "A rule pack failed: what it would have said is not here."
    } else if count(State::NoGo) > 0 {
        "Do not run it like this."
    } else if unfinished {
        "Not a checked engine yet."
    } else if count(State::Look) > 0 {
        "Nothing at hold; what is outside its window comes first below. Not a promise."
    } else if accepted > 0 || let_go {
        "Inside its windows as measured, but for what is signed for. Not a promise."
    } else {
        "Inside its windows as measured. Not a promise."
    };
    wrap(&format!("{}. {verdict_line}", parts.join(", ")), "", "")
}

/// What a go says nothing of: counted, or by name.
fn unjudged(unjudged: &Unjudged, names: bool) -> String {
    let Unjudged { readings, stated } = unjudged;
    let mut parts = Vec::new();
    for (paths, one, more) in
        [(readings, "set of readings", "sets of readings"), (stated, "stated figure", "stated figures")]
    {
        if !paths.is_empty() {
            let words = format!("{} {}", paths.len(), if paths.len() == 1 { one } else { more });
            let short: Vec<&str> = paths.iter().map(|p| p.strip_prefix("readings.").unwrap_or(p)).collect();
            parts.push(if names { format!("{words} ({})", short.join(", ")) } else { words });
        }
    }
    if parts.is_empty() {
        return String::new();
    }
    let which = if names { "" } else { " Which: thou check --all." };
    wrap(&format!("Recorded, judged by nothing: {}.{which}", parts.join("; ")), "", "")
}

/// Whether two items of a rule say the same of two places.
fn together(a: &Item, b: &Item) -> bool {
    a.fact == b.fact
        && a.whose == b.whose
        && a.accepted == b.accepted
        && a.stale.as_ref().map(|s| (&s.did, s.when, s.read)) == b.stale.as_ref().map(|s| (&s.did, s.when, s.read))
        && a.words == b.words
        && a.advice.as_ref().map(|a| &a.words) == b.advice.as_ref().map(|a| &a.words)
}

/// `also` are bounds of the same rule that the reading is outside of, too.
fn print_group<'a>(
    bench: &Bench<'_>,
    group: &[&'a Item],
    also: &[&Item],
    printed: &mut BTreeSet<&'a str>,
    out: &mut String,
) {
    let Some(first) = group.first() else { return };
    match first.state {
        State::Stale => stale(bench, group, first, out),
        _ => loud(bench, group, first, also, printed, out),
    }
}

/// "all 8", "rod 5", "cylinder 1 3 6".
fn places(bench: &Bench<'_>, group: &[&Item]) -> String {
    let places: Vec<Option<(Axis, usize)>> = group.iter().map(|i| i.place).collect();
    let text = bench.places(&places);
    match (group.first().and_then(|i| i.place), text.as_str()) {
        (None, _) | (_, "") => String::new(),
        (Some(_), all) if all.starts_with("all ") || matches!(all, "both" | "inlets" | "exhausts") => text,
        (Some((axis, _)), _) => format!("{} {text}", super::bench::noun(axis)),
    }
}

/// Read before the metal was changed: what it was, and what it should be now.
fn stale(bench: &Bench<'_>, group: &[&Item], first: &Item, out: &mut String) {
    let Some(stale) = &first.stale else { return };
    let mut line = format!("{} {}", bench.word(State::Stale), short_title(&first.title, first.fact.as_deref()));
    let places = places(bench, group);
    if !places.is_empty() {
        let _ = write!(line, "  {places}");
    }
    let _ = write!(line, "  read {}, {} {}", stale.read, stale.did, stale.when);
    out.push_str(&wrap(&line, "", INDENT));
    let about = first.fact.as_deref().and_then(|fact| {
        let figure = bench.figure(fact);
        let values = |pick: fn(&Item) -> Option<f64>| -> Option<String> {
            let all: Vec<f64> = group.iter().filter_map(|i| pick(i)).collect();
            let (least, most) = (all.iter().copied().reduce(f64::min)?, all.iter().copied().reduce(f64::max)?);
            let (low, high) = (figure.number(least), figure.number(most));
            let range = if low == high { low } else { format!("{low} to {high}") };
            Some(format!("{range} {}", figure.unit()).trim_end().to_owned())
        };
        Some((values(|i| Some(i.value?.value))?, values(|i| i.stale.as_ref()?.now_about)?))
    });
    let words = match about {
        Some((was, now)) => format!("Was {was}, is now about {now}: read again."),
        None => "Read again.".to_owned(),
    };
    out.push_str(&wrap(&words, INDENT, INDENT));
}

fn wants(bench: &Bench<'_>, item: &Item, fact: &str, limits: &Limits, more: usize) -> String {
    bench.limits(fact, limits, (&item.whose, &item.hold_whose), more)
}

/// The bounds of the same rule that a reading is outside of, too.
fn beside<'a>(bare: &'a BTreeMap<words::Reading<'a>, Vec<&'a Item>>, item: &'a Item) -> &'a [&'a Item] {
    if words::is_bare(item) { &[] } else { bare.get(&words::reading(item)).map_or(&[], Vec::as_slice) }
}

/// The same in words.
fn and_beside(bench: &Bench<'_>, also: &[&Item], more: usize) -> String {
    let limits = |i: &&Item| Some(format!("; {}", wants(bench, i, i.fact.as_deref()?, i.limits.as_ref()?, more)));
    also.iter().filter_map(limits).collect()
}

/// No-go, unproven, look and note: the reading, its window, what to do, why, and the line of the sheet.
fn loud<'a>(
    bench: &Bench<'_>,
    group: &[&'a Item],
    first: &'a Item,
    also: &[&Item],
    said: &mut BTreeSet<&'a str>,
    out: &mut String,
) {
    let more = digits(bench, group);
    let also = and_beside(bench, also, more);
    if let [item] = group {
        headline(bench, item, &also, more, out);
        wrong(bench, item, out);
        for line in words::advice(bench, item) {
            out.push_str(&wrap(&line, INDENT, INDENT));
        }
    } else {
        many(bench, group, first, &also, more, out);
    }
    if let Some(accepted) = &first.accepted {
        let until = accepted.until.map_or("the next freshen".to_owned(), |d| d.to_string());
        let words = format!("Accepted by {} until {until}: {}", accepted.by, accepted.reason);
        out.push_str(&wrap(&words, INDENT, INDENT));
    }
    // a rule says once why it matters
    if !first.why.is_empty() && (first.rule.starts_with("host/") || said.insert(&first.rule)) {
        out.push_str(&wrap(&format!("Why: {}", first.why), INDENT, INDENT));
    }
    let loudest = group.iter().find(|i| matches!(i.state, State::NoGo | State::Unproven | State::Look));
    if let Some(pointer) = loudest.and_then(|i| i.pointer.as_deref()) {
        out.push_str(&words::caret(bench, pointer, INDENT));
    }
    match whose(first) {
        Some(whose) => out.push_str(&wrap(&format!("{} ({whose})", first.rule), INDENT, INDENT)),
        None => {
            let _ = writeln!(out, "{INDENT}{}", first.rule);
        }
    }
}

/// Whose a finding of another pack is; a window says it beside its limits.
fn whose(item: &Item) -> Option<&str> {
    let of_ours = item.basis.is_none_or(|b| b.word() == item.whose);
    (item.limits.is_none() && !of_ours && !item.whose.is_empty()).then_some(item.whose.as_str())
}

/// What is wrong in words, and what to do where the gauge cannot tell.
fn wrong(bench: &Bench<'_>, item: &Item, out: &mut String) {
    if !item.words.is_empty() && (item.limits.is_none() || !item.args.is_empty()) {
        out.push_str(&wrap(&sentence(&bench.words(item, &item.words)), INDENT, INDENT));
    }
    if item.state == State::Unproven {
        let words = "It may be inside: read it with a finer gauge, or move away from the limit.";
        out.push_str(&wrap(words, INDENT, INDENT));
    }
}

/// A sentence starts with a capital and ends with a stop.
fn sentence(words: &str) -> String {
    let text = capital(words);
    if text.ends_with(['.', '?', '!']) || text.is_empty() { text } else { format!("{text}.") }
}

/// Places that are written out before the rest are only named.
const WRITTEN_OUT: usize = 4;

/// Several places of one window: the window once, a line a place, what to do once.
fn many(bench: &Bench<'_>, group: &[&Item], first: &Item, also: &str, more: usize, out: &mut String) {
    let mut line = format!("{} {}", bench.word(first.state), short_title(&first.title, first.fact.as_deref()));
    // the windows differ by a last digit at most: what suits one and all is what they share
    let limits: Vec<Limits> = group.iter().filter_map(|i| i.limits).collect();
    let limits = remedy::intersect(&limits).or(first.limits);
    let limits = limits.map(|l| Limits { aim: first.limits.and_then(|f| f.aim), ..l });
    if let (Some(fact), Some(limits), Some(own)) = (&first.fact, &limits, &first.limits) {
        // what two windows share never gains a working limit that neither has
        let limits = Limits { low: own.low.and(limits.low), high: own.high.and(limits.high), ..*limits };
        let _ = write!(line, "  wants {}{also}", wants(bench, first, fact, &limits, more));
    } else {
        let _ = write!(line, "  {}", places(bench, group));
    }
    out.push_str(&wrap(&line, "", INDENT));
    let size = |i: &Item| {
        let solved = i.advice.as_ref().and_then(|a| a.solved.as_ref())?;
        Some(bench.size(&thou_verdict::Solved { now: None, ..solved.clone() }))
    };
    let one_size = group.iter().all(|i| size(i) == size(first));
    let own_sizes = !one_size
        && group.iter().any(|i| i.advice.as_ref().and_then(|a| a.solved.as_ref()).is_some_and(|s| s.place.is_some()));
    let in_words = first.limits.is_none() || !first.args.is_empty();
    if in_words {
        for item in group.iter().take(WRITTEN_OUT) {
            let line = format!("{}: {}", bench.place(item.place), bench.words(item, &item.words));
            out.push_str(&wrap(&line, INDENT, "             "));
        }
        let rest: Vec<&str> = group.iter().skip(WRITTEN_OUT).map(|i| bench.label(i.place)).collect();
        if !rest.is_empty() {
            out.push_str(&wrap(&format!("and so at {}", rest.join(" ")), INDENT, "             "));
        }
    } else if own_sizes {
        own(bench, group, more, out);
    } else {
        out.push_str(&wrap(&readings(bench, group, first, more), INDENT, INDENT));
    }
    if first.state == State::Unproven {
        wrong(bench, &Item { args: std::collections::BTreeMap::new(), ..first.clone() }, out);
    }
    for line in words::advice_for_all(bench, group, one_size) {
        out.push_str(&wrap(&line, INDENT, INDENT));
    }
}

/// A row a place: the reading, what is there, and the size to go to.
fn own(bench: &Bench<'_>, group: &[&Item], more: usize, out: &mut String) {
    const COLUMNS: [table::Column; 4] =
        [(table::Set::Right, 18, 2), (table::Set::Left, 12, 3), (table::Set::Left, 26, 2), (table::Set::Left, 12, 2)];
    let noun = group.first().and_then(|i| i.place).map_or("", |p| super::bench::noun(p.0));
    let fact = group.iter().find_map(|i| i.advice.as_ref()?.solved.as_ref()).map(|s| s.fact.as_str());
    let figure = bench.figure(fact.unwrap_or_default());
    let head = [noun, "read", "now", &format!("to, {}", figure.unit()), "aim"].map(str::to_owned).to_vec();
    let rows = group.iter().map(|item| {
        let solved = item.advice.as_ref().and_then(|a| a.solved.as_ref());
        let (from, to) = solved.map_or((None, None), |s| bench.ends(s));
        let range = match (from, to) {
            (Some(from), Some(to)) => format!("{from} .. {to}"),
            (Some(from), None) => format!("{from} or more"),
            (None, Some(to)) => format!("{to} or less"),
            (None, None) => "no size does it".to_owned(),
        };
        let number = |si: Option<f64>| si.map(|x| figure.number(x)).unwrap_or_default();
        vec![
            bench.label(item.place).to_owned(),
            reading(bench, item, more).unwrap_or_default(),
            number(solved.and_then(|s| s.now)),
            range,
            number(solved.and_then(|s| s.aim)),
        ]
    });
    let rows: Vec<Vec<String>> = std::iter::once(head).chain(rows).collect();
    let widths = table::widths(&rows, &COLUMNS);
    let mut text = String::new();
    for cells in &rows {
        table::row(cells, &COLUMNS, &widths, &mut text);
    }
    // numbers of many digits take the indent's room
    let widest = text.lines().map(|l| l.chars().count()).max().unwrap_or(0);
    let indent = " ".repeat(INDENT.len().min(super::bench::WIDTH.saturating_sub(widest)));
    for line in text.lines() {
        let _ = writeln!(out, "{indent}{line}");
    }
}

/// "cylinder 1 45.0, 3 45.0, 5 44.5 thou, each ± 0.2"; what reads the same is told together.
fn readings(bench: &Bench<'_>, group: &[&Item], first: &Item, more: usize) -> String {
    let figure = bench.figure(first.fact.as_deref().unwrap_or_default());
    let number = |si: f64| figure.number_with(si, more);
    let most = group.iter().filter_map(|i| i.value).map(|v| 2.0 * v.u).fold(0.0, f64::max);
    let each = if most > 0.0 { format!(", each ± {}", uncertainty(figure, most, more)) } else { String::new() };
    let value = |i: &&Item| i.value.map(|v| number(v.value)).unwrap_or_default();
    let unit = figure.unit();
    if group.len() > 2 && group.iter().all(|i| value(i) == value(&first)) {
        return format!("{}: {} {unit}{each}", places(bench, group), value(&first));
    }
    let list: Vec<String> = group.iter().map(|i| format!("{} {}", bench.label(i.place), value(i))).collect();
    let noun = first.place.map_or("", |p| super::bench::noun(p.0));
    format!("{noun} {} {unit}{each}", list.join(", "))
}

/// The decimals that a reading takes beyond the trade's: one that would print on its limit and be outside it gets more.
fn digits(bench: &Bench<'_>, group: &[&Item]) -> usize {
    let needed = |item: &&Item| {
        let (Some(fact), Some(limits), Some(value)) = (&item.fact, &item.limits, item.value) else { return 0 };
        let figure = bench.figure(fact);
        let edges = || [limits.low, limits.high, limits.never_below, limits.never_above].into_iter().flatten();
        let print = |si: f64, more| figure.number_with(si, more);
        let on_edge = |more| item.miss.is_some() && edges().any(|e| print(e, more) == print(value.value, more));
        (0..2).find(|more| !on_edge(*more)).unwrap_or(2)
    };
    group.iter().map(needed).max().unwrap_or(0)
}

/// An expanded uncertainty, with as many decimals as it takes to be more than nothing.
fn uncertainty(figure: Figure, expanded: f64, more: usize) -> String {
    let digits = (more..more + 3).find(|d| figure.number_with(expanded, *d).parse() != Ok(0.0)).unwrap_or(more);
    figure.number_with(expanded, digits)
}

/// "4.4 ± 0.1 thou".
fn reading(bench: &Bench<'_>, item: &Item, more: usize) -> Option<String> {
    let (fact, value) = (item.fact.as_ref()?, item.value?);
    if value.bound.is_some() {
        return bench.value_text(item, more);
    }
    let figure = bench.figure(fact);
    let mut text = figure.number_with(value.value, more);
    if value.u > 0.0 {
        let _ = write!(text, " ± {}", uncertainty(figure, 2.0 * value.u, more));
    }
    let unit = figure.unit();
    if !unit.is_empty() {
        let _ = write!(text, " {unit}");
    }
    Some(text)
}

/// The place and the reading, and its window beside it or, where there is no room, below.
fn headline(bench: &Bench<'_>, item: &Item, also: &str, more: usize, out: &mut String) {
    let mut line = format!("{} {}", bench.word(item.state), short_title(&item.title, item.fact.as_deref()));
    if item.place.is_some() {
        let _ = write!(line, "  {}", bench.place(item.place));
    }
    if let Some(reading) = reading(bench, item, more) {
        let _ = write!(line, "  {reading}");
    }
    if let (Some(fact), Some(limits)) = (&item.fact, &item.limits) {
        let wants = format!("wants {}{also}", wants(bench, item, fact, limits, more));
        if textwrap::core::display_width(&line) + wants.len() + 2 > super::bench::WIDTH {
            out.push_str(&wrap(&line, "", INDENT));
            out.push_str(&wrap(&wants, INDENT, INDENT));
            return;
        }
        let _ = write!(line, "  {wants}");
    }
    out.push_str(&wrap(&line, "", INDENT));
}

fn does_not_apply(verdict: &Verdict, out: &mut String) {
    let rules: BTreeSet<&str> =
        verdict.items.iter().filter(|i| i.state == State::DoesNotApply).map(|i| i.rule.as_str()).collect();
    if !rules.is_empty() {
        let words =
            format!("{} rules do not apply to this engine; --format json names them and says why.", rules.len());
        let _ = write!(out, "\n{}", wrap(&words, "", "  "));
    }
}
