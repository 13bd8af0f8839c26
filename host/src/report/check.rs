//! The check: what was measured, held against what it should be. Full text for a no-go, one line for a set of goes.

use super::bench::{Bench, list, same, wrap};
use super::words;
use crate::verdict::{Item, OPERATIONS, State, Verdict};
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
        let _ = write!(line, "  wants {} ({})", bench.limits(fact, limits, 0), first.whose);
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
        let _ = write!(line, "  wants {} ({})", bench.limits(fact, limits, 0), first.whose);
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

/// No-go, unproven, look and note: the reading, its window, what to do, why, and the line of the sheet.
fn loud(bench: &Bench<'_>, group: &[&Item], first: &Item, out: &mut String) {
    for item in group {
        out.push_str(&wrap(&headline(bench, item), "", INDENT));
        if !item.words.is_empty() && (item.limits.is_none() || !item.args.is_empty()) {
            out.push_str(&wrap(&bench.words(item, &item.words), INDENT, INDENT));
        }
        if item.state == State::Unproven {
            let words = "It may be inside: read it with a finer gauge, or move away from the limit.";
            out.push_str(&wrap(words, INDENT, INDENT));
        }
        for line in words::advice(bench, item) {
            out.push_str(&wrap(&line, INDENT, INDENT));
        }
        if let Some(accepted) = &item.accepted {
            let until = accepted.until.map_or("the next freshen".to_owned(), |d| d.to_string());
            let words = format!("accepted by {} until {until}: {}", accepted.by, accepted.reason);
            out.push_str(&wrap(&words, INDENT, INDENT));
        }
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

/// The place, the reading and its window in one line.
fn headline(bench: &Bench<'_>, item: &Item) -> String {
    let mut line = format!("{} {}", bench.word(item.state), item.title.to_lowercase());
    if let Some((_, _)) = item.place {
        let _ = write!(line, "  {}", bench.place(item.place));
    }
    let (Some(fact), Some(limits)) = (&item.fact, &item.limits) else { return line };
    let kind = bench.kind(fact);
    // a print that would show a value on its limit and outside it gets one more decimal
    let printed = |more| {
        let value = item.value.map(|v| kind.number_with(v.value, bench.system, more));
        let edges = [limits.low, limits.high, limits.never_below, limits.never_above];
        edges.into_iter().flatten().any(|e| Some(kind.number_with(e, bench.system, more)) == value)
    };
    let more = if item.miss.is_some() && printed(0) { if printed(1) { 2 } else { 1 } } else { 0 };
    if let Some(value) = item.value {
        let _ = write!(line, "  {}", kind.number_with(value.value, bench.system, more));
        if value.u > 0.0 {
            let expanded = 2.0 * value.u;
            let digits = if kind.number_with(expanded, bench.system, more).parse() == Ok(0.0) { more + 1 } else { more };
            let _ = write!(line, " ± {}", kind.number_with(expanded, bench.system, digits).trim_start_matches('-'));
        }
        let unit = kind.print(bench.system).unit;
        if !unit.is_empty() {
            let _ = write!(line, " {unit}");
        }
    }
    let _ = write!(line, "  wants {} ({})", bench.limits(fact, limits, more), item.whose);
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

