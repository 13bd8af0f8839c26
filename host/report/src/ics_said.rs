//! What the last calendar files said, so that the next one moves an entry instead of drawing it again, and cancels what
//! went away.
//!
//! An entry of this plan is one of the last file's by its own UID; else by what it is about: a stop that others went into
//! is the one of them that it shares the most services with, and of those the nearest in days. What is left over went
//! away: a stop or an order that lies ahead is cancelled, in every file until its day is past, for a file may never have
//! been taken in. What lies behind stays as it is: it is what was. SEQUENCE is raised where an entry has changed, so that
//! two files of one day are told apart too (RFC 5545, section 3.8.7.4).

use super::ics_text::{compact, day, following, lines};
use icalendar::{Component, Event, EventLike, EventStatus, Todo, TodoStatus};
use jiff::civil::{Date, date};
use jiff::{Span, Unit};
use serde_json::{Map, Value, json};
use std::collections::{BTreeMap, BTreeSet};

/// Days for which a to-do that went away is repeated: it has no day of its own.
const REPEATED: i64 = 366;
/// Days after which what is past is forgotten.
const KEPT: i64 = 731;

/// An entry of this plan, before it has its number.
#[derive(Debug, Clone)]
pub(super) struct Drawn {
    pub(super) kind: &'static str,
    /// The UID that it has where nothing is kept.
    pub(super) uid: String,
    /// What it is about: services, a part, an event.
    pub(super) keys: BTreeSet<String>,
    pub(super) summary: String,
    /// Its first and its last day.
    pub(super) days: Option<[Date; 2]>,
    pub(super) form: Form,
}

/// As the file has it.
#[derive(Debug, Clone)]
pub(super) enum Form {
    Event(Event),
    Todo(Todo),
}

/// What the last files of one engine said, by UID.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Said(BTreeMap<String, SaidEntry>);

#[derive(Debug, Clone, PartialEq, Eq)]
struct SaidEntry {
    kind: String,
    keys: BTreeSet<String>,
    summary: String,
    days: Option<[Date; 2]>,
    sequence: u32,
    /// The day of the plan that changed it last.
    stamp: Date,
    digest: String,
    gone: Option<Gone>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Gone {
    on: Date,
    /// A to-do that somebody wrote down as settled.
    settled: bool,
}

impl SaidEntry {
    fn past(&self, today: Date) -> bool {
        self.days.is_some_and(|[_, last]| last < today)
    }

    fn is_todo(&self) -> bool {
        self.kind == "finding"
    }
}

impl Said {
    /// The entries of a plan with their numbers, what went away behind them, and what is to be kept.
    pub(super) fn next(mut self, drawn: Vec<Drawn>, today: Date, settled: &BTreeSet<&str>) -> (Vec<Form>, Self) {
        let uids = self.uids(&drawn, today);
        let here: BTreeSet<&String> = uids.iter().collect();
        let mut out = Vec::new();
        for (uid, entry) in self.0.iter_mut().filter(|(uid, _)| !here.contains(uid)) {
            if entry.gone.is_none() && (entry.is_todo() || !entry.past(today)) {
                let settled = entry.is_todo() && entry.keys.iter().any(|id| settled.contains(id.as_str()));
                entry.sequence = raised(today, Some(entry.sequence));
                (entry.stamp, entry.gone) = (today, Some(Gone { on: today, settled }));
            }
            out.extend(entry.gone.and_then(|gone| last_word(uid, entry, gone, today)));
        }
        let mut forms = Vec::new();
        for (uid, drawn) in uids.iter().zip(drawn) {
            let digest = digest(&drawn);
            let before = self.0.get(uid);
            let same = before.filter(|b| b.gone.is_none() && b.digest == digest);
            let (sequence, stamp) = match same {
                Some(before) => (before.sequence, before.stamp),
                None => (raised(today, before.map(|b| b.sequence)), today),
            };
            let Drawn { kind, keys, summary, days, form, .. } = drawn;
            forms.push(match form {
                Form::Event(mut event) => {
                    event.status(EventStatus::Confirmed);
                    Form::Event(numbered(event, uid, sequence, stamp))
                }
                Form::Todo(todo) => Form::Todo(numbered(todo, uid, sequence, stamp)),
            });
            let entry = SaidEntry { kind: kind.to_owned(), keys, summary, days, sequence, stamp, digest, gone: None };
            self.0.insert(uid.clone(), entry);
        }
        forms.extend(out);
        self.0.retain(|_, e| {
            let last = e.days.map_or_else(|| e.gone.map(|g| g.on), |[_, last]| Some(last));
            last.is_none_or(|last| days_between(last, today) <= KEPT)
        });
        (forms, self)
    }

    /// The UID of each entry, no two of them the same.
    fn uids(&self, drawn: &[Drawn], today: Date) -> Vec<String> {
        let own: BTreeSet<&str> = drawn.iter().map(|d| d.uid.as_str()).collect();
        let live = |entry: &SaidEntry| entry.gone.is_none() && (entry.is_todo() || !entry.past(today));
        // those of the last file that nobody has by name
        let mut free: BTreeMap<&str, &SaidEntry> = self
            .0
            .iter()
            .filter(|(uid, e)| live(e) && !own.contains(uid.as_str()))
            .map(|(u, e)| (u.as_str(), e))
            .collect();
        let known = |d: &Drawn| self.0.get(&d.uid).is_some_and(|e| e.gone.is_none());
        let mut pairs: Vec<((usize, i64), &str, usize)> = Vec::new();
        for (index, d) in drawn.iter().enumerate().filter(|(_, d)| !known(d)) {
            for (uid, entry) in free.iter().filter(|(_, e)| e.kind == d.kind) {
                let shared = d.keys.intersection(&entry.keys).count();
                if shared > 0 {
                    let apart = d.days.zip(entry.days).map_or(0, |([a, _], [b, _])| days_between(a, b).abs());
                    pairs.push(((usize::MAX - shared, apart), uid, index));
                }
            }
        }
        pairs.sort_unstable();
        let mut out: Vec<Option<String>> = vec![None; drawn.len()];
        for (_, uid, index) in pairs {
            let Some(place) = out.get_mut(index).filter(|place| place.is_none()) else { continue };
            if free.remove(uid).is_some() {
                *place = Some(uid.to_owned());
            }
        }
        out.into_iter().zip(drawn).map(|(uid, d)| uid.unwrap_or_else(|| d.uid.clone())).collect()
    }

    /// As it is kept.
    #[must_use]
    pub fn text(&self) -> String {
        let entry = |e: &SaidEntry| {
            json!({
                "kind": e.kind, "keys": e.keys, "summary": e.summary, "sequence": e.sequence,
                "days": e.days.map(|d| d.map(|d| d.to_string())), "stamp": e.stamp.to_string(), "digest": e.digest,
                "gone": e.gone.map(|g| json!({ "on": g.on.to_string(), "settled": g.settled })),
            })
        };
        let all: Map<String, Value> = self.0.iter().map(|(uid, e)| (uid.clone(), entry(e))).collect();
        Value::Object(all).to_string()
    }

    /// What was kept; none where the text is none that this program writes.
    #[must_use]
    pub fn read(text: &str) -> Option<Self> {
        let Value::Object(all) = serde_json::from_str(text).ok()? else { return None };
        let day = |v: &Value| v.as_str()?.parse::<Date>().ok();
        let word = |v: &Value| v.as_str().map(str::to_owned);
        let entry = |e: &Value| {
            Some(SaidEntry {
                kind: word(e.get("kind")?)?,
                keys: e.get("keys")?.as_array()?.iter().map(word).collect::<Option<_>>()?,
                summary: word(e.get("summary")?)?,
                days: match e.get("days")? {
                    Value::Null => None,
                    days => Some([day(days.get(0)?)?, day(days.get(1)?)?]),
                },
                sequence: u32::try_from(e.get("sequence")?.as_u64()?).ok()?,
                stamp: day(e.get("stamp")?)?,
                digest: word(e.get("digest")?)?,
                gone: match e.get("gone")? {
                    Value::Null => None,
                    gone => Some(Gone { on: day(gone.get("on")?)?, settled: gone.get("settled")?.as_bool()? }),
                },
            })
        };
        all.iter().map(|(uid, e)| Some((uid.clone(), entry(e)?))).collect::<Option<_>>().map(Self)
    }
}

/// What is said of an entry that went away, until nobody can be misled by it.
fn last_word(uid: &str, entry: &SaidEntry, gone: Gone, today: Date) -> Option<Form> {
    if entry.is_todo() {
        let mut todo = Todo::new();
        todo.summary(&entry.summary);
        todo.add_property("CATEGORIES", "finding");
        todo.status(if gone.settled { TodoStatus::Completed } else { TodoStatus::Cancelled });
        todo.description(if gone.settled { "Settled in the log." } else { "The log asks for it no more." });
        let told = days_between(gone.on, today) <= REPEATED;
        return told.then(|| Form::Todo(numbered(todo, uid, entry.sequence, entry.stamp)));
    }
    let [first, last] = entry.days.filter(|_| !entry.past(today))?;
    let mut event = Event::new();
    event.summary(&entry.summary);
    event.description("No longer in the plan.");
    event.append_property(day("DTSTART", first));
    event.append_property(day("DTEND", following(last)));
    event.categories([entry.kind.as_str()]);
    event.status(EventStatus::Cancelled);
    Some(Form::Event(numbered(event, uid, entry.sequence, entry.stamp)))
}

fn numbered<C: Component>(mut entry: C, uid: &str, sequence: u32, stamp: Date) -> C {
    entry.uid(uid);
    entry.add_property("DTSTAMP", format!("{}T000000Z", compact(stamp)));
    entry.sequence(sequence);
    entry
}

/// The plan's day as a number, or one more than the last where that is not less.
fn raised(today: Date, last: Option<u32>) -> u32 {
    let of_day = u32::try_from(days_between(date(2000, 1, 1), today)).unwrap_or(0);
    last.map_or(of_day, |last| of_day.max(last.saturating_add(1)))
}

fn days_between(from: Date, to: Date) -> i64 {
    from.until((Unit::Day, to)).map_or(0, |s: Span| i64::from(s.get_days()))
}

/// What tells an entry that has changed from one that has not: FNV-1a, 64 bits (Fowler, Noll and Vo; RFC 9923).
fn digest(drawn: &Drawn) -> String {
    // what the file adds by itself would differ each time
    let text = match &drawn.form {
        Form::Event(event) => numbered(event.clone(), "", 0, Date::default()).to_string(),
        Form::Todo(todo) => numbered(todo.clone(), "", 0, Date::default()).to_string(),
    };
    let hash = lines(&text)
        .join("\n")
        .bytes()
        .fold(0xcbf2_9ce4_8422_2325_u64, |hash, b| (hash ^ u64::from(b)).wrapping_mul(0x100_0000_01b3));
    format!("{hash:016x}")
}

#[cfg(test)]
#[path = "ics_said_tests.rs"]
mod tests;
