//! The plan as one card for the tool box: black and white, 80 columns and 60 lines at most, blanks to tick and to write on.

use super::bench::{Bench, WIDTH, wrap};
use super::plan_stops::shorten;
use super::plan_words::{count, meter_name, named, run};
use super::{plan_log, replaced, words};
use std::fmt::Write as _;
use thou_plan::{Due, Plan, ServiceLine};
use thou_verdict::Verdict;

/// Lines of the card.
const LINES: usize = 60;

/// Days ahead that the card looks.
const DAYS: i64 = 400;

/// Lines for what the log asks to look at.
const FINDINGS: usize = 14;

/// Rows of events to write passes into.
const EVENTS: usize = 6;

/// The card.
#[must_use]
pub fn text(bench: &Bench<'_>, verdict: &Verdict, plan: &Plan) -> String {
    let mut head = String::new();
    words::header(bench, "CARD", &mut head);
    let day = plan.as_of.map(|d| d.to_string()).unwrap_or_default();
    let _ = writeln!(head, "As of {day}: {}.", run(&bench.sheet.meters, bench.system));
    if !verdict.lost.is_empty() {
        head.push_str("A rule pack failed: this card is not whole. See thou plan.\n");
    }
    let accepted = verdict.items.iter().filter(|i| i.accepted.is_some()).count();
    if accepted > 0 {
        let _ = writeln!(head, "Accepted deviations: {accepted}. Read them in the plan.");
    }
    replaced::in_short(verdict, &mut head);
    head.push_str(&plan_log::to_tick(plan, FINDINGS));
    let foot = foot(bench, plan);
    let events = events(plan);
    let taken = [&head, &events, &foot].iter().map(|t| t.lines().count()).sum::<usize>();
    // two lines of heading, and one for what is left off
    let room = LINES.saturating_sub(taken + 4);
    let mut out = head;
    out.push_str(&rows(bench, plan, room));
    out.push_str(&events);
    out.push_str(&foot);
    out
}

/// The services, the most pressing first, with the meter's own reading at which each is due.
fn rows(bench: &Bench<'_>, plan: &Plan, room: usize) -> String {
    let counted: Vec<&ServiceLine> = by_need(plan);
    let mut out = format!("\n    {:<30} {:>10}  {:<10} {:>10} {}\n", "do", "at", "before", "not past", "done at/by");
    let mut left = room;
    let mut shown = 0;
    for line in &counted {
        let text = row(bench, line);
        let lines = text.lines().count();
        if lines > left {
            break;
        }
        left -= lines;
        shown += 1;
        out.push_str(&text);
    }
    if let Some(more) = plan.lines.len().checked_sub(shown).filter(|n| *n > 0) {
        let _ = writeln!(out, "    {more} more, due later or not counted, are in the plan.");
    }
    out
}

/// Lines with a count whose nominal comes within [`DAYS`], or has no day, by when it comes.
fn by_need(plan: &Plan) -> Vec<&ServiceLine> {
    let when = |l: &ServiceLine| l.dates.map(|d| d[1]);
    let end = plan.as_of.and_then(|d| d.checked_add(jiff::Span::new().days(DAYS)).ok());
    let soon = |l: &&ServiceLine| l.used.is_some() && when(l).zip(end).is_none_or(|(day, end)| day <= end);
    let mut lines: Vec<&ServiceLine> = plan.lines.iter().filter(soon).collect();
    lines.sort_by(|a, b| {
        (a.due.min(Due::Soon), when(a).is_none(), when(a), &a.service.rule, &a.service.meter).cmp(&(
            b.due.min(Due::Soon),
            when(b).is_none(),
            when(b),
            &b.service.rule,
            &b.service.meter,
        ))
    });
    lines
}

fn row(bench: &Bench<'_>, line: &ServiceLine) -> String {
    let s = &line.service;
    let name = named(s);
    let folded = textwrap::wrap(&name, textwrap::Options::new(30).subsequent_indent("  "));
    let (last, first) = folded.split_last().map_or(("", &[][..]), |(l, f)| (l.as_ref(), f));
    // what the meter shows then, not what the part has run
    let meter = bench.sheet.meters.get(&s.meter).copied().unwrap_or(0.0);
    let on_meter = |which: usize| {
        line.left().and_then(|l| l.get(which).copied()).map(|left| count(&s.meter, meter + left, bench.system))
    };
    let day = |which: usize| line.dates.and_then(|d| d.get(which).copied()).map(|d| d.to_string());
    let dated = s.meter == "months";
    let unit = match meter_name(&s.meter, bench.system) {
        "passes" => "",
        "events" => " ev",
        "hours" => " h",
        "km" => " km",
        _ => " mi",
    };
    let figure = |which: usize| if dated { day(which) } else { on_meter(which).map(|n| n + unit) };
    let within = line.when.as_ref().is_some_and(|w| w[1].within);
    let (at, before) = if line.due > Due::Now && within {
        (figure(1).unwrap_or_default(), "in rounds".to_owned())
    } else if line.due <= Due::Now {
        ("now".to_owned(), "now".to_owned())
    } else {
        let event = line.when.as_ref().and_then(|w| w[1].before.clone()).filter(|e| e.chars().count() <= 10);
        (figure(1).unwrap_or_default(), event.or_else(|| day(1).filter(|_| !dated)).unwrap_or_default())
    };
    let end = if line.due == Due::Past { "PAST".to_owned() } else { figure(2).unwrap_or_default() };
    let mut out = String::new();
    for (index, part) in first.iter().enumerate() {
        let _ = writeln!(out, "{} {part}", if index == 0 { "[ ]" } else { "   " });
    }
    let tick = if first.is_empty() { "[ ]" } else { "   " };
    let _ = writeln!(out, "{tick} {last:<30} {at:>10}  {before:<10} {end:>10} ___________");
    out
}

/// Events with a blank for the passes run.
fn events(plan: &Plan) -> String {
    let mut out = String::from("\nEVENT                 first day    passes to plan    passes run   peak rpm\n");
    for event in plan.events.iter().take(EVENTS) {
        let passes = match (event.fewest, event.most) {
            (_, 0.0) => String::new(),
            (a, b) if a == b => b.to_string(),
            (a, b) => format!("{a} to {b}"),
        };
        let name = shorten(&event.name, 20);
        let first = event.first.to_string();
        let _ = writeln!(out, "{name:<21} {first:<12} {passes:<17} __________   __________");
    }
    if plan.events.is_empty() {
        for _ in 0..3 {
            let _ =
                writeln!(out, "{:<21} {:<12} {:<17} __________   __________", "____________________", "__________", "");
        }
    }
    out
}

fn foot(bench: &Bench<'_>, plan: &Plan) -> String {
    let mut out = String::from("\n");
    let limiter = bench.sheet.stated("intent.limiter").and_then(|(v, _)| v.as_str()).map(str::to_owned);
    let limiter = limiter.map(|l| format!("Limiter {l}. ")).unwrap_or_default();
    out.push_str(&wrap(
        &format!(
            "{limiter}Over-rev, oil pressure gone, too hot, detonation, a broken driveline: no more passes before the \
             plan's list for it is done."
        ),
        "",
        "  ",
    ));
    out.push_str(&wrap(
        "A spring under load flies: glasses, the face never over it. Headers, water and oil burn skin. Fuel: no spark, \
         no flame, extinguisher at hand. Bar off the nut before it cranks. A rod or a bolt past the most that it is good for does not start.",
        "",
        "  ",
    ));
    for late in plan.orders.iter().filter(|o| o.late > 0 || o.by.is_some() && o.by == plan.as_of).take(3) {
        out.push_str(&wrap(&super::plan_orders::order_words(plan, late), "", "  "));
    }
    out.push_str(&wrap("Readings and plugs come before any count. Notes:", "", ""));
    for _ in 0..2 {
        let _ = writeln!(out, "{}", "_".repeat(WIDTH));
    }
    out.push_str(&words::foot());
    out
}
