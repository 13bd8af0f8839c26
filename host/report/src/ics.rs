//! The plan as a calendar, RFC 5545: events, stops, days to order by, dated parts; all of them whole days. What the
//! engine's log asks to look at is a to-do (VTODO), due on the first day of the next event.
//!
//! **UID** is made of the engine, the rule that sets a stop (or the part, or the event) and what its count starts from, or
//! of the log's entry that shows what to look at; no date is in it. So the next plan's file moves what it finds, and a
//! service that was done gets a new entry.
//!
//! **SEQUENCE** and **DTSTAMP** are the plan's day (days since 1 January 2000, and its midnight). The program keeps no
//! copy of the file it wrote last, so it cannot know what has moved since; with a number that grows with the day, the
//! later file always counts (RFC 5546, section 2.1.5).

use super::bench::{Bench, capital};
use super::plan_orders::{event_words, order_words};
use super::plan_stops::{apart, hours, past, percent, tight};
use super::plan_words::named;
use icalendar::{Calendar, Component, Event, EventLike, Property, Todo, TodoStatus};
use jiff::civil::{Date, date};
use jiff::{Span, Unit};
use std::collections::BTreeMap;
use thou_life::condition::{ReadingAlert, Urgency};
use thou_plan::{Due, Plan, ServiceLine, Stop};
use thou_sheet::clean;

/// The foot of every entry.
fn foot() -> String {
    format!("Planning figures. {}", super::words::DEFERS_SHORT)
}

/// The calendar of one plan.
#[must_use]
pub fn text(bench: &Bench<'_>, plan: &Plan) -> String {
    let mut file = CalendarFile::default();
    file.add(bench, plan);
    file.text()
}

/// One file for the plans of several engines.
#[derive(Debug)]
pub struct CalendarFile(Calendar);

impl Default for CalendarFile {
    fn default() -> Self {
        let mut calendar = Calendar::empty();
        calendar.append_property(("VERSION", "2.0"));
        calendar.append_property(("PRODID", concat!("-//thou//plan ", env!("CARGO_PKG_VERSION"), "//EN")));
        calendar.append_property(("CALSCALE", "GREGORIAN"));
        Self(calendar)
    }
}

impl CalendarFile {
    /// What a plan has; without a day it has no entries.
    pub fn add(&mut self, bench: &Bench<'_>, plan: &Plan) {
        let Some(today) = plan.as_of else { return };
        let calendar = &mut self.0;
        let entry = Entries { bench, plan, today, engine: engine(bench) };
        calendar.extend(entry.events());
        calendar.extend(entry.stops());
        calendar.extend(entry.orders());
        calendar.extend(entry.stamps());
        calendar.extend(entry.findings());
    }

    /// An entry of a whole day that is of no single engine.
    pub(super) fn add_day(&mut self, uid: &[&str], summary: &str, description: &[String], on: Date, today: Date) {
        let mut entry = Event::new();
        let uid: Vec<String> = uid.iter().copied().map(slug).collect();
        entry.uid(&format!("{}@thou.invalid", uid.join(".")));
        entry.add_property("DTSTAMP", format!("{}T000000Z", compact(today)));
        entry.summary(&clean(summary, 200));
        let text: Vec<String> = description.iter().map(|l| clean(l, 2_000)).chain([foot()]).collect();
        entry.description(&text.join("\n"));
        entry.append_property(day("DTSTART", on));
        entry.append_property(day("DTEND", on.checked_add(Span::new().days(1)).unwrap_or(on)));
        entry.categories(["order"]);
        self.0.push(entry);
    }

    /// The file.
    #[must_use]
    pub fn text(&self) -> String {
        self.0.to_string().replace("\r\n ", "").split_terminator("\r\n").map(folded).collect()
    }
}

fn stated(bench: &Bench<'_>, path: &str) -> Option<String> {
    bench.sheet.stated(path).and_then(|(v, _)| v.as_str()).map(str::to_owned)
}

/// What tells this build from any other: the engine's name, and its job where it has one.
fn engine(bench: &Bench<'_>) -> String {
    let parts = [stated(bench, "engine.name"), stated(bench, "engine.job")];
    parts.into_iter().flatten().collect::<Vec<_>>().join("/")
}

struct Entries<'a> {
    bench: &'a Bench<'a>,
    plan: &'a Plan,
    today: Date,
    engine: String,
}

impl Entries<'_> {
    fn entry(&self, uid: &[&str], summary: &str, description: &[String], first: Date, last: Date) -> Event {
        let mut event = self.named(Event::new(), uid, summary, description);
        event.append_property(day("DTSTART", first));
        // the end of whole days is the day after the last (RFC 5545, section 3.6.1)
        event.append_property(day("DTEND", last.checked_add(Span::new().days(1)).unwrap_or(last)));
        event
    }

    /// What an event and a to-do have in common.
    fn named<C: Component>(&self, mut entry: C, uid: &[&str], summary: &str, description: &[String]) -> C {
        let uid: Vec<String> = std::iter::once(self.engine.as_str()).chain(uid.iter().copied()).map(slug).collect();
        entry.uid(&format!("{}@thou.invalid", uid.join(".")));
        entry.add_property("DTSTAMP", format!("{}T000000Z", compact(self.today)));
        let since = date(2000, 1, 1).until((Unit::Day, self.today)).map_or(0, |s| s.get_days());
        entry.sequence(u32::try_from(since).unwrap_or(0));
        let name = stated(self.bench, "engine.name").unwrap_or_default();
        entry.summary(&clean(&format!("{name}: {summary}"), 200));
        let text: Vec<String> =
            description.iter().filter(|l| !l.is_empty()).map(|l| clean(l, 2_000)).chain([foot()]).collect();
        entry.description(&text.join("\n"));
        entry
    }

    fn findings(&self) -> Vec<Todo> {
        self.plan.log.iter().flat_map(|t| &t.findings).map(|f| self.finding(f)).collect()
    }

    /// A to-do without a start, due with the next event where there is one ahead (RFC 5545, section 3.6.2).
    fn finding(&self, finding: &ReadingAlert) -> Todo {
        // 1 is the highest, 9 the lowest (RFC 5545, section 3.8.1.9)
        let (first, priority) = match finding.weight {
            Urgency::Stop => ("does not run before this is settled: ", 1),
            Urgency::Look => ("look before the next pass or drive: ", 5),
            Urgency::Note => ("", 9),
        };
        let words = [
            format!("{}.", capital(finding.words.trim_end_matches('.'))),
            finding.to_do.clone(),
            format!("{}; entry {}: write down what was found, as settled.", capital(&finding.whose), finding.entry),
        ];
        let uid = ["finding", &finding.entry, &finding.title];
        let summary = capital(&format!("{first}{}", finding.title));
        let mut todo = self.named(Todo::new(), &uid, &summary, &words);
        todo.priority(priority);
        todo.status(TodoStatus::NeedsAction);
        todo.add_property("CATEGORIES", "finding");
        if let Some(next) = self.plan.events.first().filter(|_| finding.weight < Urgency::Note) {
            todo.append_property(day("DUE", next.first.max(self.today)));
        }
        todo
    }

    fn events(&self) -> Vec<Event> {
        let of = |e: &thou_plan::Ahead| {
            let mut entry = self.entry(&["event", &e.name], &e.name, &[event_words(e)], e.first, e.last);
            if let Some(at) = &e.at {
                entry.add_property("LOCATION", clean(at, 200));
            }
            entry.categories(["event"]);
            entry
        };
        self.plan.events.iter().map(of).collect()
    }

    fn stops(&self) -> Vec<Event> {
        self.plan.stops.iter().filter_map(|s| self.stop(s)).collect()
    }

    /// A stop takes its days of work before its event; one without an event, the days from its own on.
    fn stop(&self, stop: &Stop) -> Option<Event> {
        let lead = self.plan.lines.get(stop.lead)?;
        let date = stop.date?;
        let (first, last) = if stop.before.is_some() {
            let last = date.checked_sub(Span::new().days(1)).unwrap_or(date).max(self.today);
            (last.checked_sub(Span::new().days(stop.days() - 1)).unwrap_or(last).max(self.today), last)
        } else {
            let first = date.max(self.today);
            (first, first.checked_add(Span::new().days(stop.days() - 1)).unwrap_or(first))
        };
        let lines: Vec<&ServiceLine> = stop.lines.iter().filter_map(|i| self.plan.lines.get(*i)).collect();
        let before = stop.before.as_ref().map(|e| format!(" before {e}")).unwrap_or_default();
        let summary = format!("{}, {} h{before}", apart(&stop.opens), hours(stop.hours));
        let mut words: Vec<String> = lines.iter().map(|l| format!("- {}{}", named(&l.service), state(l))).collect();
        words.extend(tight(stop));
        if let Some(further) = &stop.further {
            let worst = further.waits.iter().filter_map(|w| w.chance).fold(0.0, f64::max);
            if worst > 0.0 {
                words.push(format!(
                    "Run {} first: up to {} that one of these lets go in it.",
                    further.event,
                    percent(worst)
                ));
            }
            words.extend(past(self.plan, &further.waits, &further.event));
        }
        words.extend(self.cautions(&lines));
        let uid = ["stop", &lead.service.rule, &lead.service.meter, &lead.since];
        let mut entry = self.entry(&uid, &capital(&summary), &words, first, last);
        entry.categories(["stop"]);
        Some(entry)
    }

    /// What hurts people in this work, each once.
    fn cautions(&self, lines: &[&ServiceLine]) -> Vec<String> {
        let mut own: BTreeMap<&str, ()> = BTreeMap::new();
        own.extend(lines.iter().filter_map(|l| l.service.service.caution.as_deref()).map(|c| (c, ())));
        own.into_keys().map(|c| format!("Caution: {c}")).collect()
    }

    fn orders(&self) -> Vec<Event> {
        let mut out = Vec::new();
        for order in &self.plan.orders {
            let (Some(by), Some(line)) = (order.by, self.plan.lines.get(order.line)) else { continue };
            let words = order_words(self.plan, order);
            let verb = if matches!(order.supply, thou_plan::Supply::Sent(_)) { "send out" } else { "order" };
            // what is late is for today
            let day = by.max(self.today);
            let uid = ["order", &order.part, &line.service.rule, &line.since];
            let summary = capital(&format!("{verb} {}", order.part));
            let mut entry = self.entry(&uid, &summary, &[words], day, day);
            entry.categories(["order"]);
            out.push(entry);
        }
        out
    }

    fn stamps(&self) -> Vec<Event> {
        let mut times: BTreeMap<&str, usize> = BTreeMap::new();
        let mut out = Vec::new();
        for stamp in &self.bench.sheet.certificates {
            let nth = times.entry(&stamp.part).or_default();
            *nth += 1;
            let words = if stamp.until < self.today { "lapsed: not to be run" } else { "last good day of its stamp" };
            let summary = format!("{}: {words}", stamp.part);
            let check = "Check this year's rule book of your own body: only dates are kept here.".to_owned();
            let uid = ["stamp", &stamp.part, &nth.to_string()];
            let mut entry = self.entry(&uid, &capital(&summary), &[check], stamp.until, stamp.until);
            entry.categories(["dated part"]);
            out.push(entry);
        }
        out
    }
}

/// Octets of a content line without its end (RFC 5545, section 3.1).
const OCTETS: usize = 75;

/// A content line folded: the crate's own folding leaves lines of 76 octets where a character of several comes at the end.
fn folded(line: &str) -> String {
    let (mut out, mut octets) = (String::new(), 0);
    for c in line.chars() {
        if octets + c.len_utf8() > OCTETS {
            out.push_str("\r\n ");
            octets = 1;
        }
        out.push(c);
        octets += c.len_utf8();
    }
    out + "\r\n"
}

/// How a line stands, where that is not plain.
fn state(line: &ServiceLine) -> &'static str {
    match line.due {
        Due::Past => ", past its high: it does not run again before this is done",
        Due::Now => ", due",
        _ => "",
    }
}

/// A whole day (RFC 5545, section 3.3.4).
fn day(key: &str, day: Date) -> Property {
    let mut property = Property::new(key, compact(day));
    property.add_parameter("VALUE", "DATE");
    property
}

fn compact(day: Date) -> String {
    format!("{:04}{:02}{:02}", day.year(), day.month(), day.day())
}

/// A name as a part of a UID: letters and digits, the rest told apart by their number, so that no two names share one.
fn slug(text: &str) -> String {
    let mut out = String::new();
    for c in text.chars() {
        match c {
            'a'..='z' | 'A'..='Z' | '0'..='9' | '-' => out.push(c),
            ' ' => out.push('_'),
            '/' => out.push('~'),
            other => out.push_str(&format!("%{:x}", u32::from(other))),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::folded;

    #[test]
    fn a_line_holds_75_octets_and_no_character_is_cut() {
        for (text, n) in [("a".repeat(75), 1), ("a".repeat(76), 2), ("ü".repeat(80), 3), ("aü".repeat(100), 5)] {
            let folded = folded(&text);
            let lines: Vec<&str> = folded.split_terminator("\r\n").collect();
            assert!(lines.iter().all(|l| l.len() <= 75), "{lines:?}");
            assert_eq!((lines.len(), folded.replace("\r\n ", "").trim_end()), (n, text.as_str()));
        }
    }
}
