//! The plan as a calendar, RFC 5545: events, stops, days to order by, dated parts; all of them whole days. What the
//! engine's log asks to look at is a to-do (VTODO), due on the first day of the next event. Every turn of a service
//! within the season is there: where a stop comes before the same event, in it.
//!
//! **UID** is made of the engine, the rule that sets a stop (or the part, or the event) and what its count starts from, or
//! of the log's entry that shows what to look at; no date is in it. So the next plan's file moves what it finds.
//!
//! **What the last files said** is [`Said`], where somebody keeps it: then an entry keeps the UID that it was given first,
//! whatever it was merged with since, SEQUENCE is raised by what has changed, and what went away is cancelled. Without
//! it SEQUENCE and DTSTAMP are the plan's day (days since 1 January 2000, and its midnight), so that the later file
//! counts (RFC 5546, section 2.1.5), and what went away stays where it was.

use super::bench::{Bench, capital};
use super::ics_said::{Drawn, Form, Said};
use super::ics_text::{compact, day, folded, following, lines, shifted};
use super::plan_orders::{event_words, order_words};
use super::plan_say::in_100;
use super::plan_stops::{apart, hours, past, tight};
use super::plan_words::named;
use icalendar::{Alarm, Calendar, Component, Event, EventLike, Property, Todo, TodoStatus, Trigger};
use jiff::civil::Date;
use std::collections::{BTreeMap, BTreeSet};
use thou_life::condition::{ReadingAlert, Urgency};
use thou_plan::{Due, HOURS_A_DAY, Plan, ServiceLine, Stop, Turn, deeper};
use thou_sheet::clean;

/// The foot of every entry.
fn foot() -> String {
    format!("Planning figures. {}", super::words::DEFERS_SHORT)
}

/// The hour of the day at which a reminder rings: an entry of a whole day begins at midnight.
const MORNING: i64 = 8;

/// One file for the plans of several engines.
#[derive(Debug)]
pub struct CalendarFile {
    calendar: Calendar,
    /// Days before an entry on which its reminders ring.
    remind: BTreeSet<u16>,
}

impl CalendarFile {
    /// An empty file whose entries remind so many days before; without any they do not.
    #[must_use]
    pub fn new(remind: &[u16]) -> Self {
        let mut calendar = Calendar::empty();
        calendar.append_property(("VERSION", "2.0"));
        calendar.append_property(("PRODID", concat!("-//thou//plan ", env!("CARGO_PKG_VERSION"), "//EN")));
        calendar.append_property(("CALSCALE", "GREGORIAN"));
        Self { calendar, remind: remind.iter().copied().collect() }
    }

    /// What a plan has, where nothing is kept of the last file; without a day it has no entries.
    pub fn add(&mut self, bench: &Bench<'_>, plan: &Plan) {
        self.add_after(bench, plan, Said::default(), &BTreeSet::new());
    }

    /// What a plan has, after what the last files said; gives what is to be kept for the next one. `settled` has the
    /// log's entries that somebody wrote down as settled.
    pub fn add_after(&mut self, bench: &Bench<'_>, plan: &Plan, said: Said, settled: &BTreeSet<&str>) -> Said {
        let Some(today) = plan.as_of else { return said };
        let entry = Entries { bench, plan, today, engine: engine(bench), remind: &self.remind };
        let mut drawn = entry.events();
        drawn.extend(entry.stops());
        drawn.extend(entry.orders());
        drawn.extend(entry.stamps());
        drawn.extend(entry.findings());
        let (forms, said) = said.next(drawn, today, settled);
        for form in forms {
            match form {
                Form::Event(event) => self.calendar.push(event),
                Form::Todo(todo) => self.calendar.push(todo),
            };
        }
        said
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
        entry.append_property(day("DTEND", following(on)));
        entry.categories(["order"]);
        for days in &self.remind {
            entry.alarm(reminder(*days, "START", summary));
        }
        self.calendar.push(entry);
    }

    /// The file.
    #[must_use]
    pub fn text(&self) -> String {
        lines(&self.calendar.to_string()).iter().map(|line| folded(line)).collect()
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
    remind: &'a BTreeSet<u16>,
}

/// Work in the shop: a stop, with what comes round again before the same event, or that alone.
struct Work<'a> {
    stop: Option<&'a Stop>,
    again: Vec<&'a Turn>,
}

impl Entries<'_> {
    /// An entry of whole days. `uid` tells it from the engine's others, `keys` are what it is about.
    fn entry(
        &self,
        kind: &'static str,
        uid: &[&str],
        keys: Vec<String>,
        summary: &str,
        description: &[String],
        [first, last]: [Date; 2],
    ) -> (Drawn, Event) {
        let mut event = Event::new();
        let (summary, text) = self.words(summary, description);
        event.summary(&summary);
        event.description(&text);
        event.append_property(day("DTSTART", first));
        // the end of whole days is the day after the last (RFC 5545, section 3.6.1)
        event.append_property(day("DTEND", following(last)));
        event.categories([kind]);
        if kind != "event" {
            for days in self.remind {
                event.alarm(reminder(*days, "START", &summary));
            }
        }
        let drawn = Drawn {
            kind,
            uid: self.uid(uid),
            keys: keys.into_iter().collect(),
            summary,
            days: Some([first, last]),
            form: Form::Event(event.clone()),
        };
        (drawn, event)
    }

    fn uid(&self, parts: &[&str]) -> String {
        let uid: Vec<String> = std::iter::once(self.engine.as_str()).chain(parts.iter().copied()).map(slug).collect();
        format!("{}@thou.invalid", uid.join("."))
    }

    /// What an event and a to-do have in common.
    fn words(&self, summary: &str, description: &[String]) -> (String, String) {
        let name = stated(self.bench, "engine.name").unwrap_or_default();
        let text: Vec<String> =
            description.iter().filter(|l| !l.is_empty()).map(|l| clean(l, 2_000)).chain([foot()]).collect();
        (clean(&format!("{name}: {summary}"), 200), text.join("\n"))
    }

    fn findings(&self) -> Vec<Drawn> {
        self.plan.log.iter().flat_map(|t| &t.findings).map(|f| self.finding(f)).collect()
    }

    /// A to-do without a start, due with the next event where there is one ahead (RFC 5545, section 3.6.2).
    fn finding(&self, finding: &ReadingAlert) -> Drawn {
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
        let (summary, text) = self.words(&capital(&format!("{first}{}", finding.title)), &words);
        let mut todo = Todo::new();
        todo.summary(&summary);
        todo.description(&text);
        todo.priority(priority);
        todo.status(TodoStatus::NeedsAction);
        todo.add_property("CATEGORIES", "finding");
        let next = self.plan.events.first().filter(|_| finding.weight < Urgency::Note);
        let due = next.map(|next| next.first.max(self.today));
        if let Some(due) = due {
            todo.append_property(day("DUE", due));
            for days in self.remind {
                todo.append_component(reminder(*days, "END", &summary));
            }
        }
        Drawn {
            kind: "finding",
            uid: self.uid(&["finding", &finding.entry, &finding.title]),
            keys: BTreeSet::from([finding.entry.clone()]),
            summary,
            days: due.map(|due| [due, due]),
            form: Form::Todo(todo),
        }
    }

    fn events(&self) -> Vec<Drawn> {
        let of = |e: &thou_plan::Ahead| {
            let (days, key) = ([e.first, e.last], vec![e.name.clone()]);
            let (drawn, mut event) = self.entry("event", &["event", &e.name], key, &e.name, &[event_words(e)], days);
            if let Some(at) = &e.at {
                event.add_property("LOCATION", clean(at, 200));
            }
            Drawn { form: Form::Event(event), ..drawn }
        };
        self.plan.events.iter().map(of).collect()
    }

    /// The stops, then what comes round again where no stop is.
    fn stops(&self) -> Vec<Drawn> {
        let mut again: BTreeMap<(Date, Option<&str>), Vec<&Turn>> = BTreeMap::new();
        for turn in &self.plan.again {
            again.entry((turn.date, turn.before.as_deref())).or_default().push(turn);
        }
        let mut work: Vec<Work<'_>> = Vec::new();
        for stop in &self.plan.stops {
            // of two stops before one event the first takes what comes round again
            let joins = stop.before.as_deref().zip(stop.date).and_then(|(e, date)| again.remove(&(date, Some(e))));
            work.push(Work { stop: Some(stop), again: joins.unwrap_or_default() });
        }
        work.extend(again.into_values().map(|again| Work { stop: None, again }));
        work.iter().filter_map(|w| self.work(w)).collect()
    }

    /// Work takes its days before its event; without an event, the days from its own on.
    fn work(&self, work: &Work<'_>) -> Option<Drawn> {
        let lines_of = |i: &usize| self.plan.lines.get(*i);
        let first: Vec<&ServiceLine> = work.stop.iter().flat_map(|s| &s.lines).filter_map(lines_of).collect();
        let again: Vec<(&ServiceLine, u32)> =
            work.again.iter().filter_map(|t| Some((lines_of(&t.line)?, t.nth))).collect();
        let (date, before) = match (work.stop, work.again.first()) {
            (Some(stop), _) => (stop.date?, stop.before.as_ref()),
            (None, turn) => (turn?.date, turn?.before.as_ref()),
        };
        let hours_in_all =
            work.stop.map_or(0.0, |s| s.hours) + again.iter().map(|(l, _)| l.service.service.hours).sum::<f64>();
        let more = (hours_in_all / HOURS_A_DAY - 1e-9).ceil().max(1.0) as i64 - 1;
        let days = if before.is_some() {
            let last = shifted(date, -1).max(self.today);
            [shifted(last, -more).max(self.today), last]
        } else {
            let first = date.max(self.today);
            [first, shifted(first, more)]
        };
        let opens = again
            .iter()
            .map(|(l, _)| l.service.service.opens.as_str())
            .fold(work.stop.map_or("nothing", |s| s.opens.as_str()), deeper);
        let summary = format!(
            "{}, {} h{}",
            apart(opens),
            hours(hours_in_all),
            before.map(|e| format!(" before {e}")).unwrap_or_default()
        );
        let mut words: Vec<String> = first.iter().map(|l| format!("- {}{}", named(&l.service), state(l))).collect();
        words.extend(again.iter().map(|(l, _)| format!("- {}, again", named(&l.service))));
        if again.iter().any(|(l, _)| l.service.service.renews()) {
            words.push(
                "Again: its parts are not among the orders yet; they come in once the turn before it is done."
                    .to_owned(),
            );
        }
        if let Some(stop) = work.stop {
            words.extend(tight(&Stop { hours: hours_in_all, ..stop.clone() }));
            words.extend(self.further(stop));
        }
        let all: Vec<&ServiceLine> = first.iter().copied().chain(again.iter().map(|(l, _)| *l)).collect();
        words.extend(cautions(&all));
        let lead = work.stop.and_then(|s| lines_of(&s.lead)).or(again.first().map(|(l, _)| *l))?;
        let nth = work.stop.is_none().then(|| again.first().map(|(_, nth)| nth.to_string())).flatten();
        let place = lead.service.place.map(|(axis, at)| format!("{axis:?}-{}", at + 1).to_lowercase());
        let mut uid = vec!["stop", lead.service.rule.as_str(), &lead.service.meter, &lead.since];
        uid.extend(place.as_deref().into_iter().chain(nth.as_deref()));
        let keys = all.iter().map(|l| l.service.rule.clone()).collect();
        Some(self.entry("stop", &uid, keys, &capital(&summary), &words, days).0)
    }

    /// What it means to run the event first.
    fn further(&self, stop: &Stop) -> Vec<String> {
        let Some(further) = &stop.further else { return Vec::new() };
        let mut words = Vec::new();
        let worst = further.waits.iter().filter_map(|w| w.chance).fold(0.0, f64::max);
        if worst > 0.0 {
            words.push(format!(
                "Run {} first: up to {} that one of these lets go in it.",
                further.event,
                in_100(worst)
            ));
        }
        words.extend(past(self.plan, &further.waits, &further.event));
        words
    }

    fn orders(&self) -> Vec<Drawn> {
        let mut out = Vec::new();
        for order in &self.plan.orders {
            let (Some(by), Some(line)) = (order.by, self.plan.lines.get(order.line)) else { continue };
            let words = order_words(self.plan, order);
            let verb = if matches!(order.supply, thou_plan::Supply::Sent(_)) { "send out" } else { "order" };
            // what is late is for today
            let day = by.max(self.today);
            let uid = ["order", &order.part, &line.service.rule, &line.since];
            let summary = capital(&format!("{verb} {}", order.part));
            out.push(self.entry("order", &uid, vec![order.part.clone()], &summary, &[words], [day, day]).0);
        }
        out
    }

    fn stamps(&self) -> Vec<Drawn> {
        let mut times: BTreeMap<&str, usize> = BTreeMap::new();
        let mut out = Vec::new();
        for stamp in &self.bench.sheet.certificates {
            let nth = times.entry(&stamp.part).or_default();
            *nth += 1;
            let words = if stamp.until < self.today { "lapsed: not to be run" } else { "last good day of its stamp" };
            let summary = format!("{}: {words}", stamp.part);
            let check = "Check this year's rule book of your own body: only dates are kept here.".to_owned();
            let nth = nth.to_string();
            let key = vec![format!("{} {nth}", stamp.part)];
            let days = [stamp.until, stamp.until];
            out.push(
                self.entry("dated part", &["stamp", &stamp.part, &nth], key, &capital(&summary), &[check], days).0,
            );
        }
        out
    }
}

/// What hurts people in this work, each once.
fn cautions(lines: &[&ServiceLine]) -> Vec<String> {
    let own: BTreeSet<&str> = lines.iter().filter_map(|l| l.service.service.caution.as_deref()).collect();
    own.into_iter().map(|c| format!("Caution: {c}")).collect()
}

/// A reminder in the morning, so many days before an entry of whole days, which begins at the reader's midnight (RFC 5545,
/// section 3.8.6.3).
fn reminder(days: u16, related: &str, summary: &str) -> Alarm {
    let hours = MORNING - 24 * i64::from(days);
    let sign = if hours < 0 { "-" } else { "" };
    let mut alarm = Alarm::display(summary, Trigger::before_start(Default::default()));
    let mut trigger = Property::new("TRIGGER", format!("{sign}PT{}H", hours.abs()));
    trigger.add_parameter("RELATED", related);
    alarm.append_property(trigger);
    alarm
}

/// How a line stands, where that is not plain.
fn state(line: &ServiceLine) -> &'static str {
    match line.due {
        Due::Past => ", past its high: it does not run again before this is done",
        Due::Now => ", due",
        _ => "",
    }
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
