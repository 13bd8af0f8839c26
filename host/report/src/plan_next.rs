//! The plan for one event: what must be done before it, looks first, then services, then orders; and what may wait, with
//! what that costs.

use super::bench::{Bench, capital, wrap};
use super::plan_orders::{event_words, order_words};
use super::plan_stops::{apart, hours, on_the_shelf, past, percent, signed};
use super::plan_words::{count, meter_name, named};
use super::words::NamedPack;
use super::{cautions as standing, plan_log as log, words};
use std::collections::BTreeSet;
use std::fmt::Write as _;
use thou_plan::{Due, Further, Order, Plan, ServiceLine, Stop, Wait, When};
use thou_verdict::Verdict;

/// The plan's lines as they stand to one event.
pub(super) struct Before<'a> {
    /// What must be done before it.
    pub(super) must: Vec<&'a ServiceLine>,
    /// What a careful shop would have apart by then, and may wait.
    pub(super) may: Vec<(usize, &'a ServiceLine)>,
    /// What has to be ordered or sent out until its first day.
    pub(super) orders: Vec<&'a Order>,
}

/// Sorts the lines by an event: the index of one of the plan's events.
pub(super) fn before(plan: &Plan, event: usize) -> Option<Before<'_>> {
    let the = plan.events.get(event)?;
    let index = |when: &When| plan.events.iter().position(|e| Some(&e.name) == when.before.as_ref());
    let comes = |line: &ServiceLine, which: usize| {
        line.when.as_ref().and_then(|w| w.get(which)).and_then(index).is_some_and(|i| i <= event)
    };
    let must = plan.lines.iter().filter(|l| comes(l, 1) || l.when.is_none() && l.due <= Due::Now).collect();
    let may = plan.lines.iter().enumerate().filter(|(_, l)| comes(l, 0) && !comes(l, 1)).collect();
    let orders = plan.orders.iter().filter(|o| o.by.is_some_and(|by| by <= the.first)).collect();
    Some(Before { must, may, orders })
}

/// The page for an event.
#[must_use]
pub fn text(bench: &Bench<'_>, verdict: &Verdict, plan: &Plan, event: usize, packs: &[NamedPack]) -> String {
    let mut out = String::new();
    words::header(bench, "PLAN", &mut out);
    let (Some(the), Some(before)) = (plan.events.get(event), before(plan, event)) else { return out };
    let run: f64 = plan.events.iter().take(event).map(|e| e.most).sum();
    let day = plan.as_of.map(|d| format!("As of {d}. ")).unwrap_or_default();
    let more = match event {
        0 => String::new(),
        1 => format!("; 1 event is run before it, {run} passes with every round won"),
        n => format!("; {n} events are run before it, {run} passes with every round won"),
    };
    out.push_str(&wrap(&format!("{day}Before {}{more}.", event_words(the)), "", "  "));
    words::accepted(bench, verdict, &mut out);
    for lost in &verdict.lost {
        let _ = writeln!(out, "\n{lost}");
    }
    log::findings(plan, &mut out);
    let (looks, services): (Vec<&ServiceLine>, Vec<&ServiceLine>) = before.must.iter().partition(|l| l.looks());
    list(bench, plan, &format!("LOOK AND MEASURE BEFORE {}", the.name), &looks, &mut out);
    list(bench, plan, &format!("DO BEFORE {}", the.name), &services, &mut out);
    work(plan, event, &mut out);
    dated(bench, the.last, &mut out);
    out.push_str("\nORDER AND SEND OUT UNTIL THEN\n");
    if before.orders.is_empty() {
        out.push_str("  nothing that the sheet has days for\n");
    }
    for order in &before.orders {
        out.push_str(&wrap(&order_words(plan, order), "  ", "    "));
    }
    may_wait(bench, plan, event, &before, &mut out);
    cautions(bench, &before.must, &mut out);
    super::replaced::services(bench, verdict, &mut out);
    let _ = write!(out, "\n{}", words::packs_line(packs));
    out.push_str(&words::foot());
    out
}

/// What stands before any event, for a plan that has not the one asked for; none where nothing does.
#[must_use]
pub fn standing_now(bench: &Bench<'_>, plan: &Plan) -> Option<String> {
    let mut open = String::new();
    log::findings(plan, &mut open);
    super::plan::first(bench, plan, &mut open);
    if open.is_empty() {
        return None;
    }
    let mut out = String::new();
    words::header(bench, "PLAN", &mut out);
    out.push_str(&open);
    out.push('\n');
    out.push_str(&words::foot());
    Some(out)
}

fn list(bench: &Bench<'_>, plan: &Plan, head: &str, lines: &[&ServiceLine], out: &mut String) {
    let _ = writeln!(out, "\n{head}");
    if lines.is_empty() {
        out.push_str("  nothing by the count\n");
    }
    for line in lines {
        out.push_str(&wrap(&capital(&line_words(bench, plan, line)), "  ", "    "));
    }
}

/// A line with its count, and the last event that it may see.
fn line_words(bench: &Bench<'_>, plan: &Plan, line: &ServiceLine) -> String {
    let s = &line.service;
    if let Some(why) = log::ended(line) {
        return format!("{}{}. {why}.", named(s), on_the_shelf(plan, line));
    }
    let number = |si: f64| count(&s.meter, si, bench.system);
    let used = line.used.map(|u| format!("{} of ", number(u))).unwrap_or_default();
    let shelf = on_the_shelf(plan, line);
    let end = match line.when.as_ref().map(|w| &w[2]) {
        _ if line.due == Due::Past => " Past high: it does not run before this is done.".to_owned(),
        _ if line.when.as_ref().is_some_and(|w| w[1].within) => " Between the rounds.".to_owned(),
        Some(When { through: Some(event), before: Some(_), .. }) => format!(" Not past {event}."),
        Some(When { before: Some(event), .. }) => format!(" Not into {event} without it."),
        _ => String::new(),
    };
    let meter = meter_name(&s.meter, bench.system);
    format!("{}{shelf}: {used}{} {meter}, high {}.{end}", named(s), number(s.nominal), number(s.high))
}

/// The stops up to the event, with their hours.
fn work(plan: &Plan, event: usize, out: &mut String) {
    let names: BTreeSet<&str> = plan.events.iter().take(event + 1).map(|e| e.name.as_str()).collect();
    let stops: Vec<&Stop> =
        plan.stops.iter().filter(|s| s.before.as_ref().is_some_and(|b| names.contains(b.as_str()))).collect();
    if stops.is_empty() {
        return;
    }
    let list: Vec<String> = stops
        .iter()
        .map(|s| format!("before {} {}, {} h", s.before.as_deref().unwrap_or(""), apart(&s.opens), hours(s.hours)))
        .collect();
    out.push_str(&wrap(&format!("With what comes apart anyway: {}.", list.join("; ")), "  ", "    "));
}

/// Stamps that end before the event does.
fn dated(bench: &Bench<'_>, last: jiff::civil::Date, out: &mut String) {
    for stamp in bench.sheet.certificates.iter().filter(|c| c.until < last) {
        let words = format!("{}: its stamp ends on {}, before this event does.", capital(&stamp.part), stamp.until);
        out.push_str(&wrap(&words, "  ", "    "));
    }
}

fn may_wait(bench: &Bench<'_>, plan: &Plan, index: usize, before: &Before<'_>, out: &mut String) {
    out.push_str("\nMAY WAIT, AND WHAT THAT COSTS\n");
    let event = plan.events.get(index).map_or("", |e| e.name.as_str());
    for (at, line) in &before.may {
        let s = &line.service;
        let nominal = line.when.as_ref().map(|w| w[1].words()).unwrap_or_default();
        let risk = thou_plan::waits(bench.sheet, plan, *at, index).map(|w| risk(bench, line, &w, event));
        let words = format!(
            "{}: its low comes by then, plan for it {nominal}{}.",
            capital(&named(s)),
            risk.unwrap_or_default()
        );
        out.push_str(&wrap(&words, "  ", "    "));
    }
    let further = plan.stops.iter().filter_map(|s| s.further.as_ref()).find(|f| f.event == event);
    if before.may.is_empty() && further.is_none() {
        out.push_str("  nothing stands between its low and its nominal\n");
    }
    if let Some(further) = further {
        left_until_after(bench, plan, event, further, out);
    }
    let waits = further.into_iter().flat_map(|f| f.waits.iter().cloned());
    let may = before.may.iter().filter_map(|(at, _)| thou_plan::waits(bench.sheet, plan, *at, index));
    out.push_str(&wrap(&planning(&waits.chain(may).collect::<Vec<_>>()), "  ", "  "));
}

/// What to make of the chances and the money above, as far as there are any.
fn planning(waits: &[Wait]) -> String {
    let chances = waits.iter().any(|w| w.chance.is_some());
    let costs: Vec<f64> = waits.iter().filter_map(|w| w.cost).collect();
    let mut out = match (chances, costs.is_empty()) {
        (_, false) => "Chances and money are planning figures, as thou plan explains them. ".to_owned(),
        (true, true) => "Chances are planning figures, as thou plan explains them. ".to_owned(),
        (false, true) => String::new(),
    };
    if costs.iter().any(|c| *c < 0.0) {
        out.push_str("A minus: over many engines it is cheaper to run on; yours is one engine. ");
    }
    out + "High stays the end."
}

/// What is due before the event, and what it would be to leave it until after.
fn left_until_after(bench: &Bench<'_>, plan: &Plan, event: &str, further: &Further, out: &mut String) {
    out.push_str(&wrap(&format!("What {event} itself would be run on, were it left until after:"), "  ", "    "));
    for wait in &further.waits {
        if let Some(words) = wait_words(bench, plan, wait, event) {
            out.push_str(&wrap(&words, "  ", "    "));
        }
    }
    if let Some(words) = past(plan, &further.waits, event) {
        out.push_str(&wrap(&words, "  ", "    "));
    }
}

/// What waits, in a sentence.
fn wait_words(bench: &Bench<'_>, plan: &Plan, wait: &Wait, event: &str) -> Option<String> {
    let line = plan.lines.get(wait.line)?;
    let s = &line.service;
    let [low, nominal, high] = wait.left.map(|l| count(&s.meter, l, bench.system));
    let risk = risk(bench, line, wait, event);
    Some(format!(
        "{}: left after it {low}, {nominal} and {high} {} to low, nominal and high{risk}.",
        named(s),
        meter_name(&s.meter, bench.system)
    ))
}

/// The chance and the cost of running an event on it, where they can be told.
fn risk(bench: &Bench<'_>, line: &ServiceLine, wait: &Wait, event: &str) -> String {
    let money = bench.sheet.costs.money.as_deref().unwrap_or("of the shop's money");
    let loses = lost(&line.service.service.loses);
    let chance = wait.chance.map(|c| format!("; {} that it lets go in {event}, and {loses} is lost then", percent(c)));
    let cost = wait.cost.map(|c| format!("; by the count {} {money}", signed(c)));
    chance.unwrap_or_default() + &cost.unwrap_or_default()
}

fn lost(loses: &str) -> &'static str {
    match loses {
        "engine" => "the engine",
        "power" => "power",
        _ => "money",
    }
}

/// What hurts people in the work of this page, each once.
fn cautions(bench: &Bench<'_>, must: &[&ServiceLine], out: &mut String) {
    let mut told: BTreeSet<&str> = BTreeSet::new();
    let standing = standing::at_the_track(bench);
    let own = must.iter().filter_map(|l| l.service.service.caution.as_deref());
    out.push_str("\nCAUTIONS\n");
    for caution in standing.into_iter().chain(own).filter(|c| told.insert(c)) {
        out.push_str(&wrap(caution, "  ", "    "));
    }
}
