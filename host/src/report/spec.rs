//! The spec: every window before anything is measured, by operation in the order of the job, with the sizes to machine
//! to where the fixed parts give them, the stock that is left, and a blank to write in.

use super::bench::{Bench, noun, wrap};
use super::words;
use crate::sheet::model::Axis;
use crate::verdict::view::View;
use crate::verdict::{Limits, OPERATIONS, Solved, State, StepItem, Verdict, WindowItem, remedy};
use std::fmt::Write as _;

/// A blank to write a reading in.
const BLANK: &str = "________";

/// The page.
#[must_use]
pub fn text(bench: &Bench<'_>, verdict: &Verdict, packs: &[(String, String)]) -> String {
    let mut out = String::new();
    words::header(bench, "SPEC", &mut out);
    words::accepted(bench, verdict, &mut out);
    for fault in &verdict.faults {
        let _ = writeln!(out, "\n{fault}");
    }
    for operation in OPERATIONS {
        let sets = sets(bench, verdict, operation);
        let steps: Vec<&StepItem> = verdict.steps.iter().filter(|s| s.operation == operation).collect();
        if sets.is_empty() && steps.is_empty() {
            continue;
        }
        let _ = write!(out, "\n{}\n", words::heading(operation));
        for set in &sets {
            print_set(bench, set, &mut out);
        }
        for step in steps {
            let text = bench.plain(&step.words, &step.args, step.place);
            out.push_str(&wrap(&text, "  [ ] ", "      "));
            if let Some(caution) = &step.caution {
                out.push_str(&wrap(&format!("Caution: {caution}"), "      ", "      "));
            }
        }
    }
    needs(verdict, &mut out);
    words::taken(verdict, &mut out);
    let _ = write!(out, "\n{}", words::packs_line(packs));
    out.push_str(&words::foot());
    out
}

/// All the windows on one fact.
pub(super) struct Set<'a> {
    pub(super) fact: &'a str,
    pub(super) axis: Axis,
    pub(super) windows: Vec<&'a WindowItem>,
}

/// The windows of an operation by fact, wear limits of used parts in place of build limits where the part is used.
pub(super) fn sets<'a>(bench: &Bench<'_>, verdict: &'a Verdict, operation: &str) -> Vec<Set<'a>> {
    let mut sets: Vec<Set<'a>> = Vec::new();
    for window in &verdict.windows {
        let first = verdict.windows.iter().find(|w| w.fact == window.fact);
        if first.is_none_or(|f| f.operation != operation) || !counts(bench, verdict, window) {
            continue;
        }
        match sets.iter_mut().find(|s| s.fact == window.fact) {
            Some(set) => set.windows.push(window),
            None => {
                let axis = bench.facts.info(&window.fact).map_or(Axis::One, |i| i.axis);
                sets.push(Set { fact: &window.fact, axis, windows: vec![window] });
            }
        }
    }
    sets
}

fn counts(bench: &Bench<'_>, verdict: &Verdict, window: &WindowItem) -> bool {
    crate::verdict::counts(bench.sheet, bench.facts, window, &verdict.windows)
}

fn print_set(bench: &Bench<'_>, set: &Set<'_>, out: &mut String) {
    let mut told: Vec<(&str, String)> = Vec::new();
    for window in &set.windows {
        let at = window.place.filter(|_| set.axis != Axis::One).map(|p| (set.axis, p));
        let line = limits(bench, set, window);
        match told.iter_mut().find(|(title, text)| *title == window.title && text.starts_with(&line)) {
            Some((_, text)) => {
                let _ = write!(text, " {}", bench.label(at));
            }
            None => {
                let place = if at.is_some() { format!(" {}", bench.place(at)) } else { String::new() };
                told.push((&window.title, format!("{line}{place}")));
            }
        }
    }
    for (title, text) in told {
        out.push_str(&wrap(&format!("{}:  {text}", title.to_lowercase()), "  ", "      "));
    }
    let places: Vec<(usize, Option<Limits>)> = (0..bench.sheet.places.count(set.axis))
        .map(|p| (p, room(set, p)))
        .filter(|(p, _)| judged_at(set, *p))
        .collect();
    for (place, room) in &places {
        if room.is_none() {
            no_room(bench, set, *place, out);
            break;
        }
    }
    match wish(set) {
        Some((change, may)) => sizes(bench, set, change, may, &places, out),
        None => blanks(bench, set, &places, out),
    }
}

fn limits(bench: &Bench<'_>, set: &Set<'_>, window: &WindowItem) -> String {
    bench.limits(set.fact, &window.limits, (&window.text.whose, &window.hold_whose), 0)
}

fn judged_at(set: &Set<'_>, place: usize) -> bool {
    set.windows.iter().any(|w| w.place.is_none_or(|p| p == place))
}

/// What all the windows leave at a place.
fn room(set: &Set<'_>, place: usize) -> Option<Limits> {
    let limits: Vec<Limits> =
        set.windows.iter().filter(|w| w.place.is_none_or(|p| p == place)).map(|w| w.limits).collect();
    remedy::intersect(&limits)
}

fn no_room(bench: &Bench<'_>, set: &Set<'_>, place: usize, out: &mut String) {
    let both: Vec<String> = set
        .windows
        .iter()
        .filter(|w| w.place.is_none_or(|p| p == place))
        .map(|w| format!("{} wants {}", w.rule, limits(bench, set, w)))
        .collect();
    let words =
        format!("No room is left between them: {}. Settle whose number counts before you cut.", both.join("; "));
    out.push_str(&wrap(&words, "      ", "      "));
}

/// The size that this fact is set by, if it is machined to size.
fn wish<'a>(set: &Set<'a>) -> Option<(&'a str, &'a str)> {
    set.windows
        .iter()
        .flat_map(|w| [&w.text.low, &w.text.high])
        .flatten()
        .find_map(|r| r.solve.as_ref())
        .filter(|s| s.fact != set.fact)
        .map(|s| (s.fact.as_str(), s.may.as_str()))
}

/// The size to go to at every place, where the fixed parts give one.
pub(super) fn solved(bench: &Bench<'_>, set: &Set<'_>) -> Vec<Solved> {
    let Some((change, may)) = wish(set) else { return Vec::new() };
    let places = (0..bench.sheet.places.count(set.axis)).filter(|p| judged_at(set, *p));
    places.filter_map(|place| size_at(bench, set, change, may, place, room(set, place)?)).collect()
}

fn size_at(bench: &Bench<'_>, set: &Set<'_>, change: &str, may: &str, place: usize, limits: Limits) -> Option<Solved> {
    let wish = remedy::Wish { judged: set.fact, axis: set.axis, place, limits, change, may };
    remedy::solve(bench.sheet, bench.facts, &wish)
}

/// A line a place: the size to go to, what it is now, what is left to take, a blank.
fn sizes(
    bench: &Bench<'_>,
    set: &Set<'_>,
    change: &str,
    may: &str,
    places: &[(usize, Option<Limits>)],
    out: &mut String,
) {
    let mut rows = Vec::new();
    for (place, room) in places {
        let Some(limits) = *room else { continue };
        rows.push((*place, size_at(bench, set, change, may, *place, limits)));
    }
    if rows.iter().all(|(_, s)| s.is_none()) {
        blanks(bench, set, places, out);
        return;
    }
    let name = change.replace(['.', '-'], " ");
    if let (Axis::One, Some((_, Some(solved)))) = (set.axis, rows.first()) {
        out.push_str(&wrap(&format!("set by {name}: {}", bench.size(solved)), "      ", "      "));
        return;
    }
    let kind = bench.kind(change);
    let unit = kind.print(bench.system).unit;
    let head = format!("{name}, {unit}");
    let _ = writeln!(out, "      {:<9} {head:<22} {:<9} {:<14} read", noun(set.axis), "now", "to take");
    for (place, solved) in rows {
        let label = bench.label(Some((set.axis, place)));
        match solved {
            Some(solved) => {
                let (from, to) = bench.ends(&solved);
                let range = match (from, to) {
                    (Some(from), Some(to)) => format!("{from} .. {to}"),
                    (Some(from), None) => format!("{from} or more"),
                    (None, Some(to)) => format!("{to} or less"),
                    (None, None) => String::new(),
                };
                let now = solved.now.map_or_else(|| "-".to_owned(), |n| kind.number(n, bench.system));
                let _ = writeln!(out, "      {label:<9} {range:<22} {now:<9} {:<14} {BLANK}", take(bench, &solved));
            }
            None => {
                let _ = writeln!(out, "      {label:<9} {:<22} {:<9} {:<14} {BLANK}", "no size does it", "", "");
            }
        }
    }
}

/// "1.7 .. 3.2 thou", or that it is there.
fn take(bench: &Bench<'_>, solved: &Solved) -> String {
    let Some(now) = solved.now else { return String::new() };
    let inside = solved.from.is_none_or(|f| now >= f - 1e-12) && solved.to.is_none_or(|t| now <= t + 1e-12);
    if inside {
        return "is there".to_owned();
    }
    let clearance = thou_contract::Kind::by_id("clearance").unwrap_or_else(super::bench::ratio);
    let by = |end: Option<f64>| end.map(|e| (e - now).abs());
    let (mut least, mut most) = (by(solved.from), by(solved.to));
    if least.zip(most).is_some_and(|(l, m)| l > m) {
        std::mem::swap(&mut least, &mut most);
    }
    let number = |x: f64| clearance.number(x, bench.system);
    let unit = clearance.print(bench.system).unit;
    match (least, most) {
        (Some(l), Some(m)) => format!("{} .. {} {unit}", number(l), number(m)),
        (Some(x), None) | (None, Some(x)) => format!("{} {unit}", number(x)),
        (None, None) => String::new(),
    }
}

/// Places to write a reading in, several on a line.
fn blanks(bench: &Bench<'_>, set: &Set<'_>, places: &[(usize, Option<Limits>)], out: &mut String) {
    if !bench.facts.info(set.fact).is_some_and(|i| i.measured) {
        return;
    }
    if set.axis == Axis::One {
        let _ = writeln!(out, "      read {BLANK}");
        return;
    }
    let mut line = String::from("     ");
    for (place, _) in places {
        let cell = format!(" {:>3} {BLANK}", bench.label(Some((set.axis, *place))));
        if line.len() + cell.len() > super::bench::WIDTH {
            let _ = writeln!(out, "{line}");
            line = String::from("     ");
        }
        line.push_str(&cell);
    }
    if line.trim() != "" {
        let _ = writeln!(out, "{line}");
    }
}

/// Rules that cannot give a window yet, and the fields that would let them.
fn needs(verdict: &Verdict, out: &mut String) {
    let open: Vec<_> =
        verdict.items.iter().filter(|i| i.state == State::Open && i.limits.is_none() && !i.wants.is_empty()).collect();
    if open.is_empty() {
        return;
    }
    out.push_str("\nNo window yet, for want of a field:\n");
    for item in open {
        out.push_str(&wrap(&format!("{}: write {}", item.title.to_lowercase(), item.wants.join(", ")), "  ", "      "));
    }
}
