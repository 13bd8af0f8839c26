//! The check: what was measured, held against what it should be. Full text for a no-go, one line for a set of goes.

use super::bench::{Bench, list, same, wrap};
use super::words;
use crate::verdict::{Item, Limits, OPERATIONS, State, Verdict};
use std::fmt::Write as _;

/// Where text starts under a verdict's word.
const INDENT: &str = "         ";

/// The page.
#[must_use]
pub fn text(bench: &Bench<'_>, verdict: &Verdict, packs: &[(String, String)]) -> String {
    let mut out = String::new();
    words::header(bench, "CHECK", &mut out);
    out.push_str(&summary(verdict));
    words::accepted(bench, verdict, &mut out);
    for fault in &verdict.faults {
        let _ = writeln!(out, "\n{fault}");
    }
    for operation in OPERATIONS {
        let items: Vec<&Item> =
            verdict.items.iter().filter(|i| i.operation == operation && i.state != State::DoesNotApply).collect();
        if items.is_empty() {
            continue;
        }
        let _ = write!(out, "\n{}\n", words::heading(operation));
        for group in groups(&items) {
            print_group(bench, &group, &mut out);
        }
    }
    does_not_apply(bench, verdict, &mut out);
    words::taken(verdict, &mut out);
    words::assumed_gauges(bench, verdict, &mut out);
    let _ = write!(out, "\n{}", words::packs_line(packs));
    out.push_str(&words::foot());
    out
}

/// The summary, which counts what nobody has measured before anything else.
#[must_use]
pub fn summary(verdict: &Verdict) -> String {
    let count = |s| verdict.count(s);
    let accepted = verdict.items.iter().filter(|i| i.accepted.is_some()).count();
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
    let verdict_line = if !verdict.faults.is_empty() {
        "A rule pack failed: what it would have said is not here."
    } else if count(State::NoGo) > 0 {
        "Do not run it like this."
    } else if unfinished {
        "Not a checked engine yet."
    } else {
        "Inside its windows as measured. Not a promise."
    };
    wrap(&format!("{}. {verdict_line}", parts.join(", ")), "", "")
}

/// Items that say the same of several places.
fn groups<'a>(items: &[&'a Item]) -> Vec<Vec<&'a Item>> {
    let mut groups: Vec<Vec<&Item>> = Vec::new();
    for item in items {
        let fits = |g: &Vec<&Item>| g.first().is_some_and(|first| together(first, item));
        match groups.iter_mut().find(|g| fits(g)) {
            Some(group) => group.push(item),
            None => groups.push(vec![item]),
        }
    }
    groups
}

fn together(a: &Item, b: &Item) -> bool {
    let close = |x: Option<f64>, y: Option<f64>| match (x, y) {
        (Some(x), Some(y)) => same(x, y),
        (None, None) => true,
        _ => false,
    };
    let limits = match (a.limits, b.limits) {
        (Some(x), Some(y)) => {
            close(x.low, y.low)
                && close(x.high, y.high)
                && close(x.never_below, y.never_below)
                && close(x.never_above, y.never_above)
        }
        (None, None) => true,
        _ => false,
    };
    a.state == b.state
        && a.rule == b.rule
        && a.fact == b.fact
        && a.whose == b.whose
        && a.accepted == b.accepted
        && a.stale == b.stale
        && limits
        && a.words == b.words
}

fn print_group(bench: &Bench<'_>, group: &[&Item], out: &mut String) {
    let Some(first) = group.first() else { return };
    match first.state {
        State::Go => goes(bench, group, first, out),
        State::Open | State::CannotSay => open(bench, group, first, out),
        State::Stale => stale(bench, group, first, out),
        State::NoGo | State::Unproven | State::Look | State::Note | State::DoesNotApply => {
            loud(bench, group, first, out);
        }
    }
}

/// One line a set.
fn goes(bench: &Bench<'_>, group: &[&Item], first: &Item, out: &mut String) {
    let head = format!("{} {}", bench.word(State::Go), first.title.to_lowercase());
    let mut line = head;
    if let Some(fact) = &first.fact
        && let Some(values) = range(bench, group, fact)
    {
        let stated = group.iter().any(|i| i.value.is_some_and(|v| !v.measured));
        let _ = write!(line, "  {}{values}{}", places(bench, group), if stated { ", as the sheet states" } else { "" });
    }
    if let (Some(fact), Some(limits)) = (&first.fact, &first.limits) {
        let _ = write!(line, "  wants {}", wants(bench, first, fact, limits, 0));
    }
    out.push_str(&wrap(&line, "", INDENT));
    let near = group.iter().filter(|i| i.near_edge && i.value.is_some_and(|v| v.measured)).count();
    if near > 0 {
        let many = format!("{near} of {} nearer to the edge than this gauge can tell", group.len());
        out.push_str(&wrap(&many, INDENT, INDENT));
    }
}

/// "5.3 to 5.7 thou".
fn range(bench: &Bench<'_>, group: &[&Item], fact: &str) -> Option<String> {
    let kind = bench.kind(fact);
    let values: Vec<f64> = group.iter().filter_map(|i| i.value).map(|v| v.value).collect();
    let least = values.iter().copied().reduce(f64::min)?;
    let most = values.iter().copied().reduce(f64::max)?;
    let (low, high) = (kind.number(least, bench.system), kind.number(most, bench.system));
    let unit = kind.print(bench.system).unit;
    let text = if low == high { format!("{low} {unit}") } else { format!("{low} to {high} {unit}") };
    Some(text.trim_end().to_owned())
}

/// "cylinder 1 3 6: " or "all 8: ".
fn places(bench: &Bench<'_>, group: &[&Item]) -> String {
    let Some((axis, _)) = group.first().and_then(|i| i.place) else { return String::new() };
    let labels: Vec<&str> = group.iter().map(|i| bench.label(i.place)).collect();
    let all = bench.sheet.places.count(axis);
    let list = list(&labels, all);
    if labels.len() == all && all > 2 { format!("{list}: ") } else { format!("{} {list}: ", super::bench::noun(axis)) }
}

fn open(bench: &Bench<'_>, group: &[&Item], first: &Item, out: &mut String) {
    let mut line = format!("{} {}", bench.word(first.state), first.title.to_lowercase());
    let whole_series = first.place.is_none();
    if !whole_series {
        let _ = write!(line, "  {}", places(bench, group).trim_end_matches([':', ' ']));
    }
    if let (Some(fact), Some(limits)) = (&first.fact, &first.limits) {
        let _ = write!(line, "  wants {}", wants(bench, first, fact, limits, 0));
    }
    out.push_str(&wrap(&line, "", INDENT));
    if first.state == State::CannotSay || !first.words.is_empty() && first.wants.is_empty() {
        out.push_str(&wrap(&bench.words(first, &first.words), INDENT, INDENT));
    }
    let mut wants: Vec<&str> = group.iter().flat_map(|i| &i.wants).map(String::as_str).collect();
    wants.sort_unstable();
    wants.dedup();
    if !wants.is_empty() {
        let more = wants.len().saturating_sub(4);
        wants.truncate(4);
        let more = if more > 0 { format!(" and {more} more") } else { String::new() };
        out.push_str(&wrap(&format!("to write: {}{more}", wants.join(", ")), INDENT, INDENT));
    }
}

fn stale(bench: &Bench<'_>, group: &[&Item], first: &Item, out: &mut String) {
    let Some(stale) = &first.stale else { return };
    let mut line = format!("{} {}  {}", bench.word(State::Stale), first.title.to_lowercase(), places(bench, group));
    let _ = write!(line, "read {}, {} {}", stale.read, stale.did, stale.when);
    out.push_str(&wrap(&line, "", INDENT));
    if let (Some(fact), Some(now), Some(value)) = (&first.fact, stale.now_about, first.value) {
        let kind = bench.kind(fact);
        let about = format!(
            "{} was {}, is now about {}: read again",
            bench.place(first.place),
            kind.text(value.value, bench.system),
            kind.text(now, bench.system)
        );
        out.push_str(&wrap(&about, INDENT, INDENT));
    } else {
        out.push_str(&wrap("read again", INDENT, INDENT));
    }
}

fn wants(bench: &Bench<'_>, item: &Item, fact: &str, limits: &Limits, more: usize) -> String {
    bench.limits(fact, limits, (&item.whose, &item.hold_whose), more)
}

/// No-go, unproven, look and note: the reading, its window, what to do, why, and the line of the sheet.
fn loud(bench: &Bench<'_>, group: &[&Item], first: &Item, out: &mut String) {
    let more = digits(bench, group);
    if let [item] = group {
        out.push_str(&wrap(&headline(bench, item, more), "", INDENT));
        told(bench, item, out);
        for line in words::advice(bench, item) {
            out.push_str(&wrap(&line, INDENT, INDENT));
        }
    } else {
        many(bench, group, first, more, out);
    }
    if let Some(accepted) = &first.accepted {
        let until = accepted.until.map_or("the next freshen".to_owned(), |d| d.to_string());
        let words = format!("accepted by {} until {until}: {}", accepted.by, accepted.reason);
        out.push_str(&wrap(&words, INDENT, INDENT));
    }
    if !first.why.is_empty() {
        out.push_str(&wrap(&format!("Why: {}", first.why), INDENT, INDENT));
    }
    let loudest = group.iter().find(|i| matches!(i.state, State::NoGo | State::Unproven | State::Look));
    if let Some(pointer) = loudest.and_then(|i| i.pointer.as_deref()) {
        out.push_str(&words::caret(bench, pointer, INDENT));
    }
    let _ = writeln!(out, "{INDENT}{}", first.rule);
}

/// What is wrong in words, and what to do where the gauge cannot tell.
fn told(bench: &Bench<'_>, item: &Item, out: &mut String) {
    if !item.words.is_empty() && (item.limits.is_none() || !item.args.is_empty()) {
        out.push_str(&wrap(&bench.words(item, &item.words), INDENT, INDENT));
    }
    if item.state == State::Unproven {
        let words = "It may be inside: read it with a finer gauge, or move away from the limit.";
        out.push_str(&wrap(words, INDENT, INDENT));
    }
}

/// Several places of one window: the window once, a line a place, what to do once.
fn many(bench: &Bench<'_>, group: &[&Item], first: &Item, more: usize, out: &mut String) {
    let mut line = format!("{} {}", bench.word(first.state), first.title.to_lowercase());
    if let (Some(fact), Some(limits)) = (&first.fact, &first.limits) {
        let _ = write!(line, "  wants {}", wants(bench, first, fact, limits, more));
    }
    out.push_str(&wrap(&line, "", INDENT));
    let own_sizes =
        group.iter().any(|i| i.advice.as_ref().and_then(|a| a.solved.as_ref()).is_some_and(|s| s.place.is_some()));
    let in_words = first.limits.is_none() || !first.args.is_empty();
    if own_sizes || in_words {
        for item in group {
            let mut line = format!("{:<12}", bench.place(item.place));
            if let Some(reading) = reading(bench, item, more) {
                let _ = write!(line, "  {reading}");
            }
            if in_words && !item.words.is_empty() {
                let _ = write!(line, "  {}", bench.words(item, &item.words));
            }
            if let Some(solved) = item.advice.as_ref().and_then(|a| a.solved.as_ref()) {
                let _ = write!(line, "   to {}", bench.size(solved));
            }
            out.push_str(&wrap(&line, INDENT, "             "));
        }
    } else {
        out.push_str(&wrap(&readings(bench, group, first, more), INDENT, INDENT));
    }
    if first.state == State::Unproven {
        told(bench, &Item { args: std::collections::BTreeMap::new(), ..first.clone() }, out);
    }
    for line in words::advice_for_all(bench, group) {
        out.push_str(&wrap(&line, INDENT, INDENT));
    }
}

/// "cylinder 1 45.0, 3 45.0, 5 44.5 thou, each ± 0.2".
fn readings(bench: &Bench<'_>, group: &[&Item], first: &Item, more: usize) -> String {
    let kind = first.fact.as_deref().map_or_else(super::bench::ratio, |f| bench.kind(f));
    let number = |si: f64| kind.number_with(si, bench.system, more);
    let list: Vec<String> = group
        .iter()
        .map(|i| format!("{} {}", bench.label(i.place), i.value.map(|v| number(v.value)).unwrap_or_default()))
        .collect();
    let most = group.iter().filter_map(|i| i.value).map(|v| 2.0 * v.u).fold(0.0, f64::max);
    let noun = first.place.map_or("", |p| super::bench::noun(p.0));
    let mut text = format!("{noun} {} {}", list.join(", "), kind.print(bench.system).unit);
    if most > 0.0 {
        let _ = write!(text, ", each ± {}", number(most));
    }
    text
}

/// The decimals that a reading takes beyond the trade's: one that would print on its limit and be outside it gets one
/// more, and one whose uncertainty would print as nothing.
fn digits(bench: &Bench<'_>, group: &[&Item]) -> usize {
    let needed = |item: &&Item| {
        let (Some(fact), Some(limits), Some(value)) = (&item.fact, &item.limits, item.value) else { return 0 };
        let kind = bench.kind(fact);
        let edges = || [limits.low, limits.high, limits.never_below, limits.never_above].into_iter().flatten();
        let print = |si: f64, more| kind.number_with(si, bench.system, more);
        let on_edge = |more| item.miss.is_some() && edges().any(|e| print(e, more) == print(value.value, more));
        let nothing = |more| value.u > 0.0 && print(2.0 * value.u, more).parse() == Ok(0.0);
        (0..2).find(|more| !on_edge(*more) && !nothing(*more)).unwrap_or(2)
    };
    group.iter().map(needed).max().unwrap_or(0)
}

/// "4.4 ± 0.1 thou".
fn reading(bench: &Bench<'_>, item: &Item, more: usize) -> Option<String> {
    let (fact, value) = (item.fact.as_ref()?, item.value?);
    let kind = bench.kind(fact);
    let mut text = kind.number_with(value.value, bench.system, more);
    if value.u > 0.0 {
        let _ = write!(text, " ± {}", kind.number_with(2.0 * value.u, bench.system, more));
    }
    let unit = kind.print(bench.system).unit;
    if !unit.is_empty() {
        let _ = write!(text, " {unit}");
    }
    Some(text)
}

/// The place, the reading and its window in one line.
fn headline(bench: &Bench<'_>, item: &Item, more: usize) -> String {
    let mut line = format!("{} {}", bench.word(item.state), item.title.to_lowercase());
    if item.place.is_some() {
        let _ = write!(line, "  {}", bench.place(item.place));
    }
    if let Some(reading) = reading(bench, item, more) {
        let _ = write!(line, "  {reading}");
    }
    if let (Some(fact), Some(limits)) = (&item.fact, &item.limits) {
        let _ = write!(line, "  wants {}", wants(bench, item, fact, limits, more));
    }
    line
}

fn does_not_apply(bench: &Bench<'_>, verdict: &Verdict, out: &mut String) {
    let titles: Vec<String> = verdict
        .items
        .iter()
        .filter(|i| i.state == State::DoesNotApply)
        .map(|i| format!("{} ({})", i.title.to_lowercase(), bench.words(i, &i.words)))
        .collect();
    if !titles.is_empty() {
        out.push('\n');
        out.push_str(&wrap(&format!("Does not apply: {}.", titles.join("; ")), "", "  "));
    }
}
