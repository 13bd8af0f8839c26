//! The plan for one event: what must be done before it, looks first, then services, then orders; and what may wait, with
//! what that costs.

use super::bench::{Bench, capital, wrap};
use super::plan_orders::{event_words, order_words};
use super::plan_stops::{apart, hours, on_the_shelf, past};
use super::plan_words::{count, named};
use super::words::NamedPack;
use super::{cautions as standing, plan_log as log, plan_say as say, words};
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
        out.push_str("  nothing is due\n");
    }
    for line in lines {
        out.push_str(&wrap(&capital(&line_words(bench, plan, line)), "  ", "    "));
    }
}

/// A line with what has run on it, and how far it is good.
fn line_words(bench: &Bench<'_>, plan: &Plan, line: &ServiceLine) -> String {
    let s = &line.service;
    if let Some(why) = log::ended(line) {
        return format!("{}{}. {why}.", named(s), on_the_shelf(plan, line));
    }
    let shelf = on_the_shelf(plan, line);
    let end = match line.when.as_ref().map(|w| &w[2]) {
        _ if line.due == Due::Past => " It does not run before this is done.".to_owned(),
        _ if line.when.as_ref().is_some_and(|w| w[1].within) => " Between the rounds.".to_owned(),
        Some(When { through: Some(event), before: Some(_), .. }) => format!(" Good through {event} at the most."),
        Some(When { before: Some(event), .. }) => format!(" It is not good for {event}."),
        _ => String::new(),
    };
    let plan_for = thou_text::thousands(&count(&s.meter, s.nominal, bench.system));
    let most = thou_text::thousands(&count(&s.meter, s.high, bench.system));
    format!("{}{shelf}: {}; plan for {plan_for}, {most} at the most.{end}", named(s), say::on_it(bench, line))
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
        let wait = thou_plan::waits(bench.sheet, plan, *at, index);
        let risk = wait.filter(|w| w.chance.is_some()).and_then(|w| say::waiting(bench, plan, &w, event, false));
        let words = format!("{}: a careful shop has it apart by then; plan for it {nominal}.", capital(&named(s)));
        out.push_str(&wrap(&words, "  ", "    "));
        if let Some(risk) = risk {
            out.push_str(&wrap(&risk, "    ", "      "));
        }
    }
    let further = plan.stops.iter().filter_map(|s| s.further.as_ref()).find(|f| f.event == event);
    if before.may.is_empty() && further.is_none() {
        out.push_str("  nothing that a careful shop would have apart by then\n");
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
    let mut out = match (chances, waits.iter().any(|w| w.cost.is_some())) {
        (_, true) => "Chances and money are planning figures, as thou plan explains them. ".to_owned(),
        (true, false) => "Chances are planning figures, as thou plan explains them. ".to_owned(),
        (false, false) => String::new(),
    };
    if waits.iter().filter_map(|w| w.cost).any(|c| c < 0.0) {
        out.push_str("What waiting saves is the average of many engines; yours is one. ");
    }
    out + "Whatever waiting saves, it goes no further than the most."
}

/// What is due before the event, and what it would be to leave it until after.
fn left_until_after(bench: &Bench<'_>, plan: &Plan, event: &str, further: &Further, out: &mut String) {
    out.push_str(&wrap(&format!("If {event} is run first, and what is due is done after it:"), "  ", "    "));
    for wait in &further.waits {
        if let Some(words) = say::waiting(bench, plan, wait, event, false) {
            out.push_str(&wrap(&words, "  ", "    "));
        }
    }
    if let Some(words) = past(plan, &further.waits, event) {
        out.push_str(&wrap(&words, "  ", "    "));
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
