//! The plan's stops: what is done together and before which event, and what it means to run that event first.

use super::bench::{Bench, wrap};
use super::plan_say::waiting;
use super::plan_words::{count, meter_name, named};
use std::fmt::Write as _;
use thou_plan::{Due, Further, LifeBasis, Plan, ServiceLine, Stop, Wait};

/// Rows of what waits that are printed for one stop.
const MOST_ROWS: usize = 6;

/// All stops, those that are due already first.
pub(super) fn text(bench: &Bench<'_>, plan: &Plan, figures: bool, out: &mut String) {
    between_rounds(bench, plan, out);
    if plan.stops.is_empty() {
        return;
    }
    out.push_str("\nSTOPS: WHAT TO DO TOGETHER\n");
    let mut stops: Vec<&Stop> = plan.stops.iter().collect();
    stops.sort_by_key(|s| !s.now);
    for stop in &stops {
        one(bench, plan, stop, figures, out);
    }
    if stops.iter().any(|s| s.further.is_some()) {
        out.push_str(&wrap(
            "A chance is that of a part that has come so far, by its life and the spread that practice gives its kind. \
             Waiting costs that chance times what a failure costs more, less what the further use is worth at the \
             cheapest age to change (Barlow and Hunter 1960): the average of many engines, and yours is one. Planning \
             figures; whatever waiting saves, it goes no further than the most. Every service counts once: done, it starts again, so print a new plan.",
            "  ",
            "  ",
        ));
    }
}

/// What comes round within an event.
fn between_rounds(bench: &Bench<'_>, plan: &Plan, out: &mut String) {
    let within = |l: &&ServiceLine| l.when.as_ref().is_some_and(|w| w[1].within);
    let list: Vec<String> = plan
        .lines
        .iter()
        .filter(within)
        .map(|l| {
            let s = &l.service;
            let every = count(&s.meter, s.nominal, bench.system);
            if every == "1" {
                format!("{}, every pass", named(s))
            } else {
                format!("{}, every {every} passes", named(s))
            }
        })
        .collect();
    if !list.is_empty() {
        out.push_str("\nBETWEEN THE ROUNDS OF AN EVENT\n");
        out.push_str(&wrap(&list.join("; "), "  ", "    "));
    }
}

fn one(bench: &Bench<'_>, plan: &Plan, stop: &Stop, figures: bool, out: &mut String) {
    let head = format!("{}: {}, {} h of work", when(bench, stop), apart(&stop.opens), hours(stop.hours));
    out.push_str(&wrap(&head, "  ", "    "));
    let lines: Vec<&ServiceLine> = stop.lines.iter().filter_map(|i| plan.lines.get(*i)).collect();
    let list = |wanted: fn(Due) -> bool| -> Vec<String> {
        lines.iter().filter(|l| wanted(l.due)).map(|l| named(&l.service) + &on_the_shelf(plan, l)).collect()
    };
    for (word, list) in [("overdue: ", list(|d| d == Due::Past)), ("", list(|d| d != Due::Past))] {
        if !list.is_empty() {
            out.push_str(&wrap(&format!("{word}{}", list.join("; ")), "    ", "      "));
        }
    }
    if let Some(words) = tight(stop) {
        out.push_str(&wrap(&words, "    ", "      "));
    }
    // what happened, or was read, moved it: without that nobody sees why it is due
    for line in lines.iter().filter(|l| matches!(l.basis, LifeBasis::Condition | LifeBasis::Event)) {
        if let Some(why) = line.why.last().filter(|_| !figures) {
            out.push_str(&wrap(&format!("{}: {why}", named(&line.service)), "    ", "      "));
        }
    }
    if let Some(further) = &stop.further {
        waits(bench, plan, further, figures, out);
    }
}

/// When a stop is, in words.
pub(super) fn when(bench: &Bench<'_>, stop: &Stop) -> String {
    let date = stop.date.map(|d| d.to_string());
    match (&stop.before, &date) {
        (Some(event), Some(date)) if stop.now => format!("now, before {event} ({date})"),
        (Some(event), Some(date)) => format!("before {event} ({date})"),
        _ if stop.now => "now".to_owned(),
        _ if stop.meter == "months" => date.map_or_else(|| "by the calendar".to_owned(), |d| format!("about {d}")),
        _ => {
            let at = count(&stop.meter, stop.at, bench.system);
            let date = date.map(|d| format!(", about {d}")).unwrap_or_default();
            format!("at {at} {}{date}", meter_name(&stop.meter, bench.system))
        }
    }
}

/// What comes apart, in words.
pub(super) fn apart(opens: &str) -> String {
    match opens {
        "nothing" => "nothing apart".to_owned(),
        "plugs" => "plugs out".to_owned(),
        "engine-out" => "engine out".to_owned(),
        other => format!("{} off", other.replace('-', " ")),
    }
}

/// Hours to the half.
pub(super) fn hours(hours: f64) -> f64 {
    (hours * 2.0).round() / 2.0
}

/// A stop that does not fit between its events.
pub(super) fn tight(stop: &Stop) -> Option<String> {
    let (free, event) = stop.free.zip(stop.before.as_ref())?;
    let days = stop.days();
    (days > free).then(|| {
        format!(
            "{days} days of work at 8 h, and {free} free before {event}: {}, or miss {event}",
            if stop.now { "more hands" } else { "part of it a break earlier, more hands" }
        )
    })
}

/// What it means to run the event first.
fn waits(bench: &Bench<'_>, plan: &Plan, further: &Further, figures: bool, out: &mut String) {
    let words = format!("If {} is run first, {} passes with every round won:", further.event, further.passes);
    out.push_str(&wrap(&words, "    ", "    "));
    let most = if figures { usize::MAX } else { MOST_ROWS };
    for wait in further.waits.iter().take(most) {
        if let Some(words) = waiting(bench, plan, wait, &further.event, figures) {
            out.push_str(&wrap(&words, "      ", "        "));
        }
    }
    if let Some(more) = further.waits.len().checked_sub(most).filter(|n| *n > 0) {
        let _ = writeln!(out, "      and {more} more: --figures");
    }
    if let Some(words) = past(plan, &further.waits, &further.event) {
        out.push_str(&wrap(&words, "    ", "      "));
    }
}

/// The numbered part of a line that lies on the shelf.
pub(super) fn on_the_shelf(plan: &Plan, line: &ServiceLine) -> String {
    let numbers = plan.shelf.get(&line.service.service.part).filter(|_| !line.looks());
    let first = numbers.and_then(|n| n.iter().find(|n| !n.is_empty()));
    first.map(|n| format!(" ({n} is on the shelf)")).unwrap_or_default()
}

/// Text that fits its column: cut at a word.
pub(super) fn shorten(text: &str, width: usize) -> String {
    if text.chars().count() <= width {
        return text.to_owned();
    }
    let mut out = String::new();
    for word in text.split(' ') {
        if out.chars().count() + 1 + word.chars().count() > width.saturating_sub(3) {
            break;
        }
        if !out.is_empty() {
            out.push(' ');
        }
        out.push_str(word);
    }
    format!("{} ..", out.trim_end_matches([',', ':', ';']))
}

/// What would go past its high figure in the event.
pub(super) fn past(plan: &Plan, waits: &[Wait], event: &str) -> Option<String> {
    let mut names: Vec<String> = Vec::new();
    for line in waits.iter().filter(|w| w.left[2] < 0.0).filter_map(|w| plan.lines.get(w.line)) {
        let name = named(&line.service);
        if !line.when.as_ref().is_some_and(|w| w[1].within) && !names.contains(&name) {
            names.push(name);
        }
    }
    (!names.is_empty()).then(|| {
        format!("Do before {event}, whatever waiting saves, for the most is passed in it: {}.", names.join("; "))
    })
}
