//! The spec: every window before anything is measured, by operation in the order of the job, with the sizes to machine
//! to where the fixed parts give them, the stock that is left, and a blank to write in.

use super::bench::{Bench, short_title, short_whose, wrap};
use super::blanks::{self, Blanks};
use super::fact_windows::{FactWindows, judged_at, room, sets, wish};
use super::sets::alike;
use super::words::NamedPack;
use super::{cautions, replaced, sizes, words};
use std::collections::BTreeMap;
use std::fmt::Write as _;
use thou_contract::OPERATIONS;
use thou_sheet::model::Axis;
use thou_verdict::{Limits, State, StepItem, Verdict, WindowItem};

/// Where the one reading of an engine is written.
const BLANK: &str = "   read ________";

/// The page.
#[must_use]
pub fn text(bench: &Bench<'_>, verdict: &Verdict, packs: &[NamedPack]) -> String {
    let mut out = String::new();
    words::header(bench, "SPEC", &mut out);
    words::accepted(bench, verdict, &mut out);
    for lost in &verdict.lost {
        let _ = writeln!(out, "\n{lost}");
    }
    let mut blanks = Blanks::default();
    for operation in OPERATIONS {
        let sets = sets(bench, verdict, operation);
        let steps: Vec<&StepItem> = verdict.steps.iter().filter(|s| s.operation == operation).collect();
        if sets.is_empty() && steps.is_empty() {
            continue;
        }
        let _ = write!(out, "\n{}\n", words::heading(operation));
        for set in &sets {
            print_set(bench, set, &mut blanks, &mut out);
        }
        cautions::of_operation(bench, operation, &mut out);
        let mut title = "";
        for step in steps {
            if step.title != title {
                title = &step.title;
                let _ = writeln!(out, "  {}:", title.to_lowercase());
            }
            let text = bench.plain(&step.words, &step.args, step.place);
            out.push_str(&wrap(&text, "  [ ] ", "      "));
            if let Some(caution) = &step.caution {
                out.push_str(&wrap(&format!("Caution: {caution}"), "      ", "      "));
            }
        }
    }
    needs(verdict, &mut out);
    replaced::rules(bench, verdict, &mut out);
    words::taken(bench, verdict, &mut out);
    let _ = write!(out, "\n{}", words::packs_line(packs));
    out.push_str(&words::foot());
    out
}

fn print_set(bench: &Bench<'_>, set: &FactWindows<'_>, blanks: &mut Blanks, out: &mut String) {
    let mut lines = lines(bench, set);
    let places: Vec<(usize, Option<Limits>)> = (0..bench.sheet.places.count(set.axis))
        .map(|p| (p, room(set, p)))
        .filter(|(p, _)| judged_at(set, *p))
        .collect();
    let solved = wish(set).and_then(|change| sizes::rows(bench, set, change, &places));
    let at_will = only_when_read(bench, set);
    let one = set.axis == Axis::One && solved.is_none() && !at_will && blanks.takes(bench, set.fact);
    let room = super::bench::WIDTH - BLANK.len() - 2;
    let beside = one && lines.last().is_some_and(|l| textwrap::core::display_width(l) < room);
    if let (true, Some(last)) = (beside, lines.last_mut()) {
        last.push_str(BLANK);
    }
    for line in lines {
        out.push_str(&wrap(&line, "  ", "      "));
    }
    if one && !beside {
        let _ = writeln!(out, "      {}", BLANK.trim_start());
    }
    if let Some((place, _)) = places.iter().find(|(_, room)| room.is_none()) {
        no_room(bench, set, *place, out);
    }
    if let Some(rows) = &solved {
        sizes::print(bench, set.fact, set.axis, rows, out);
    }
    if set.axis != Axis::One && !at_will {
        let at: Vec<usize> = places.iter().map(|(p, _)| *p).collect();
        for fact in read_for(bench, set) {
            if blanks.takes(bench, fact) {
                blanks::print(bench, (fact != set.fact).then_some(fact), fact, set.axis, &at, out);
            }
        }
    }
}

/// Whether the sheet is not asked for it, and has it nowhere: it gets its limits and no blank.
fn only_when_read(bench: &Bench<'_>, set: &FactWindows<'_>) -> bool {
    let nothing_read = || bench.facts.cells(set.fact).iter().all(Result::is_err);
    bench.facts.info(set.fact).is_some_and(|i| i.when_read()) && nothing_read()
}

/// What a gauge reads for a fact: of one that is machined to size, the parts that it is made of; else itself.
fn read_for<'a>(bench: &'a Bench<'_>, set: &FactWindows<'a>) -> Vec<&'a str> {
    let parts: Vec<&str> = match (wish(set), bench.facts.info(set.fact)) {
        (Some(_), Some(info)) => {
            let read =
                |n: &&&str| blanks::is_read(bench, n) && bench.facts.info(n).is_some_and(|i| i.axis != Axis::One);
            info.needs.iter().filter(read).copied().collect()
        }
        _ => Vec::new(),
    };
    match (parts.is_empty(), wish(set)) {
        (false, _) => parts,
        (true, Some(change)) if !blanks::is_read(bench, set.fact) => vec![change],
        _ => vec![set.fact],
    }
}

/// Whether it has working limits, and not its never-limits alone.
fn has_working_limits(limits: &Limits) -> bool {
    limits.low.is_some() || limits.high.is_some()
}

/// Where a window counts; none for the engine.
type Place = Option<(Axis, usize)>;

/// The windows of a set in words: one line for each that says something of its own.
fn lines(bench: &Bench<'_>, set: &FactWindows<'_>) -> Vec<String> {
    let mut told: Vec<(&WindowItem, Vec<Place>)> = Vec::new();
    for window in &set.windows {
        let at = window.place.filter(|_| set.axis != Axis::One).map(|p| (set.axis, p));
        let same = |w: &WindowItem| {
            w.rule == window.rule
                && w.text.whose == window.text.whose
                && alike(bench, set.fact, &w.limits, &window.limits)
        };
        match told.iter_mut().find(|(w, _)| same(w)) {
            Some((_, places)) => places.push(at),
            None => told.push((window, vec![at])),
        }
    }
    // a window that holds another inside it is told on the line of the tighter one
    let inside: Vec<Option<usize>> = told
        .iter()
        .map(|(wide, at)| {
            told.iter().position(|(tight, others)| {
                tight.rule != wide.rule && at == others && holds(&wide.limits, &tight.limits)
            })
        })
        .collect();
    let mut lines = Vec::new();
    for (index, (window, places)) in told.iter().enumerate() {
        if inside.get(index).copied().flatten().is_some() {
            continue;
        }
        let places = bench.places(places);
        let all = places.is_empty() || places.strip_prefix("all ").is_some_and(|n| n.parse::<usize>().is_ok());
        let place = if all { String::new() } else { format!(", {places}") };
        let title = short_title(&window.title, Some(set.fact));
        let at_will = if only_when_read(bench, set) { ", where it is read" } else { "" };
        let mut line = format!("{title}{place}{at_will}:  {}", limits(bench, set, window));
        for (wide, _) in told.iter().zip(&inside).filter(|(_, i)| **i == Some(index)).map(|(t, _)| t) {
            let _ = write!(
                line,
                "; inside {} ({}, {})",
                bench.window(set.fact, &wide.limits, false),
                wide.title.split(": ").next().unwrap_or(&wide.title).to_lowercase(),
                short_whose(if has_working_limits(&wide.limits) { &wide.text.whose } else { &wide.hold_whose })
            );
        }
        lines.push(line);
    }
    lines
}

/// Whether everything inside `tight` is inside `wide` too, and `wide` has no limit that it must never pass.
fn holds(wide: &Limits, tight: &Limits) -> bool {
    let low = wide.low.is_none_or(|w| tight.low.is_some_and(|t| t >= w));
    let high = wide.high.is_none_or(|w| tight.high.is_some_and(|t| t <= w));
    let never_below = wide.never_below.is_none_or(|w| tight.low.or(tight.never_below).is_some_and(|t| t >= w));
    let never_above = wide.never_above.is_none_or(|w| tight.high.or(tight.never_above).is_some_and(|t| t <= w));
    low && high && never_below && never_above && wide.aim.is_none()
}

fn limits(bench: &Bench<'_>, set: &FactWindows<'_>, window: &WindowItem) -> String {
    bench.limits(set.fact, &window.limits, (&window.text.whose, &window.hold_whose), 0)
}

fn no_room(bench: &Bench<'_>, set: &FactWindows<'_>, place: usize, out: &mut String) {
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

/// Rules that cannot give a window yet, by the fields that would let them.
fn needs(verdict: &Verdict, out: &mut String) {
    let mut fields: BTreeMap<String, Vec<String>> = BTreeMap::new();
    for item in verdict.items.iter().filter(|i| i.state == State::Open && i.limits.is_none() && !i.wants.is_empty()) {
        let titles = fields.entry(item.wants.join(", ")).or_default();
        let title = item.title.to_lowercase();
        if !titles.contains(&title) {
            titles.push(title);
        }
    }
    if fields.is_empty() {
        return;
    }
    out.push_str("\nNO WINDOW YET, FOR WANT OF A FIELD\n");
    for (wants, titles) in fields {
        out.push_str(&wrap(&format!("{wants}: {}", titles.join(", ")), "  ", "      "));
    }
}
