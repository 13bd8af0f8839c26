//! The plan's events and orders: what is raced when, what has to be ordered or sent out by which day, what is on the
//! shelf, what the next big stop waits for.

use super::bench::{Bench, capital, wrap};
use super::plan_stops::apart;
use super::plan_words::{count, meter_name};
use std::fmt::Write as _;
use thou_plan::{Ahead, Away, Chain, Order, Plan, Supply};

/// The events ahead.
pub(super) fn events(bench: &Bench<'_>, plan: &Plan, out: &mut String) {
    if plan.events.is_empty() {
        if let Some(words) = pace(bench, plan) {
            let _ = write!(out, "\n{}", wrap(&words, "", "  "));
        }
        return;
    }
    out.push_str("\nEVENTS AHEAD\n");
    for event in &plan.events {
        out.push_str(&wrap(&event_words(event), "  ", "    "));
    }
    if let Some(words) = pace(bench, plan) {
        out.push_str(&wrap(&words, "  ", "    "));
    }
}

/// How it goes on after the events: when nothing is run, and at which rate the count goes on.
fn pace(bench: &Bench<'_>, plan: &Plan) -> Option<String> {
    let pace = plan.pace.as_ref()?;
    let mut parts = Vec::new();
    if let Some(rest) = pace.rest.zip(plan.as_of).map(|(rest, day)| rest.coming(day)) {
        parts.push(format!(
            "From {} to {} nothing is taken to be run, by the season so far; once the next one's events are in the calendar, \
             they count",
            rest.after, rest.until
        ));
    }
    for (meter, rate) in [("passes", pace.passes), ("miles", pace.miles)] {
        let counted = plan.lines.iter().any(|l| l.service.meter == meter);
        let Some(logged) = rate.logged.filter(|_| counted) else { continue };
        let name = meter_name(meter, bench.system);
        let number = |si: f64| count(meter, si, bench.system);
        let intent = rate.intent.map_or_else(
            || "the intent says nothing of it".to_owned(),
            |intent| format!("the intent says {}", number(intent)),
        );
        parts.push(format!(
            "Counted on at {} {name} a {}, as logged from {} to {}; {intent}",
            number(logged.run),
            if meter == "passes" { "season" } else { "year" },
            logged.first,
            logged.last
        ));
    }
    (!parts.is_empty()).then(|| format!("{}.", parts.join(". ")))
}

/// One event with its days and passes.
pub(super) fn event_words(event: &Ahead) -> String {
    let days =
        if event.last == event.first { event.first.to_string() } else { format!("{} to {}", event.first, event.last) };
    let passes = match (event.fewest, event.most) {
        (_, 0.0) => "how many passes is not said".to_owned(),
        (fewest, most) if fewest == most => format!("{most} passes"),
        (fewest, most) => format!("{fewest} to {most} passes"),
    };
    let guess = if event.known || event.most == 0.0 { "" } else { ", not said: as the others on the mean" };
    let at = event.at.as_ref().map(|a| format!(", {a}")).unwrap_or_default();
    format!("{}: {days}, {passes}{guess}{at}", event.name)
}

/// What to order and to send out, the first first.
pub(super) fn text(bench: &Bench<'_>, plan: &Plan, out: &mut String) {
    let told = !(bench.sheet.lead_times.is_empty() && bench.sheet.spares.is_empty() && plan.events.is_empty());
    if plan.orders.is_empty() || !told {
        return;
    }
    out.push_str("\nORDER AND SEND OUT\n");
    for order in plan.orders.iter().filter(|o| o.by.is_some()) {
        out.push_str(&wrap(&order_words(plan, order), "  ", "    "));
    }
    let shelf: Vec<String> = plan.shelf.iter().map(|(part, numbers)| on_the_shelf(part, numbers)).collect();
    if !shelf.is_empty() {
        out.push_str(&wrap(&format!("On the shelf: {}.", shelf.join("; ")), "  ", "    "));
    }
    let unknown: Vec<&str> = unknown(plan).collect();
    if !unknown.is_empty() {
        let words = format!("Ask how long these take to come, for a day to order by: {}.", unknown.join(", "));
        out.push_str(&wrap(&words, "  ", "    "));
    }
    if let Some(words) = plan.chain.as_ref().and_then(|c| chain(plan, c)) {
        out.push_str(&wrap(&words, "  ", "    "));
    }
}

/// Parts that a stop before an event, or the next stop, asks for, and whose days nobody has given.
pub(super) fn unknown(plan: &Plan) -> impl Iterator<Item = &str> {
    let soon = |o: &&Order| {
        let in_stop = |s: &thou_plan::Stop| plan.lines.get(o.line).is_some_and(|l| s.does(&plan.lines, l));
        plan.stops.iter().enumerate().any(|(i, s)| in_stop(s) && (i == 0 || s.before.is_some() || s.now))
            || o.wanted.as_ref().is_some_and(|w| w.before.is_some())
    };
    plan.orders
        .iter()
        .filter(|o| o.supply == Supply::Unknown && o.shelf.is_empty())
        .filter(soon)
        .map(|o| o.part.as_str())
}

fn on_the_shelf(part: &str, numbers: &[String]) -> String {
    let numbers: Vec<&str> = numbers.iter().map(String::as_str).filter(|s| !s.is_empty()).collect();
    if numbers.is_empty() { part.to_owned() } else { format!("{part} {}", numbers.join(", ")) }
}

/// One order in words: by which day, how long, what for.
pub(super) fn order_words(plan: &Plan, order: &Order) -> String {
    let by = order.by.map(|d| d.to_string()).unwrap_or_default();
    let wanted = order.wanted.as_ref().map(|w| format!(", wanted {}", w.words())).unwrap_or_default();
    let late = match order.late {
        0 => String::new(),
        1 => ", 1 day late".to_owned(),
        n => format!(", {n} days late"),
    };
    let today = order.late > 0 || plan.as_of == order.by;
    let verb = if matches!(order.supply, Supply::Sent(_)) { "send out" } else { "order" };
    let mut words = if today { capital(&format!("{verb} today")) } else { capital(&format!("{verb} by {by}")) };
    let _ = write!(words, ": {}", order.part);
    match &order.supply {
        Supply::Ordered(1) => words.push_str(", 1 day to come"),
        Supply::Ordered(days) => {
            let _ = write!(words, ", {days} days to come");
        }
        Supply::Sent(away) => {
            let _ = write!(words, ", away {} days", away.days);
        }
        Supply::Unknown => {}
    }
    match order.work {
        0 => {}
        1 => words.push_str(", then 1 day of work"),
        days => {
            let _ = write!(words, ", then {days} days of work");
        }
    }
    let _ = write!(words, "{wanted}{late}");
    if let Some((who, day)) = &order.said {
        let _ = write!(words, " ({who}{})", day.map(|d| format!(", {d}")).unwrap_or_default());
    }
    words.push('.');
    if let Supply::Sent(away) = &order.supply {
        words.push_str(&away_words(away));
    }
    words
}

/// Whether send-out work fits between the events.
fn away_words(away: &Away) -> String {
    let Some(free) = away.free else { return String::new() };
    let Some(missed) = &away.misses else { return format!(" {free} days are free before it.") };
    let instead = match &away.instead {
        Some((Some(after), before)) => format!("; or send it between {after} and {before}"),
        Some((None, before)) => format!("; or send it now, before {before}"),
        None => String::new(),
    };
    format!(" Only {free} days are free before {missed}: a spare set, or miss {missed}{instead}.")
}

/// What the next big stop waits for.
pub(super) fn chain(plan: &Plan, chain: &Chain) -> Option<String> {
    let stop = plan.stops.get(chain.stop)?;
    let when = match (&stop.before, stop.date) {
        (Some(event), _) => format!("before {event}"),
        (None, Some(date)) => format!("about {date}"),
        (None, None) => "the next".to_owned(),
    };
    let work = if chain.work == 1 { "1 day".to_owned() } else { format!("{} days", chain.work) };
    let waits = match chain.lead {
        0 => format!("has its parts on the shelf as far as the sheet says: {work} of work at 8 h"),
        lead => format!("waits for the {}: {lead} days to the bench, then {work} of work at 8 h", chain.part),
    };
    let begin = match (chain.ready, chain.begin) {
        (Some(ready), _) if chain.misses.is_empty() => format!(". Begun today it is ready on {ready}"),
        (Some(ready), _) => format!(". Begun today it is ready on {ready}: too late for {}", chain.misses.join(", ")),
        (None, Some(begin)) if chain.lead == 0 => format!(". Begin by {begin}"),
        (None, Some(begin)) => format!(". Set out by {begin}"),
        (None, None) => String::new(),
    };
    let unknown = if chain.unknown.is_empty() {
        String::new()
    } else {
        format!(", if these take no longer, which nobody has said: {}", chain.unknown.join(", "))
    };
    Some(format!("The next big stop, {when} ({}), {waits}{begin}{unknown}.", apart(&stop.opens)))
}
