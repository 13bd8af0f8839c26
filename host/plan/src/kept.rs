//! What the shop keeps in its book over what a sheet says: when events are, how long parts take, what things cost, what is
//! on the shelf. What is said of one engine counts over what is said of all; the rest is the sheet's.

use jiff::civil::Date;
use jiff::{Span, Unit};
use std::collections::BTreeMap;
use thou_contract::factor;
use thou_life::entry::{Amount, Entry, What};
use thou_life::history::{History, PartRun};
use thou_life::meter::{reading, same_event};
use thou_sheet::Sheet;
use thou_sheet::model::{Costs, Event, EventKind, LeadTime, PartCost, Spare};

/// What of a sheet the book has by now.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Kept {
    /// What was taken from the book, in the order of kinds and names.
    pub items: Vec<KeptItem>,
    /// What lies on the shelf for all engines, by part: a number, or an empty text.
    pub shared: Vec<(String, String)>,
}

/// One thing that the book has, and the sheet otherwise or not at all.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KeptItem {
    /// What kind of thing.
    pub kind: KeptKind,
    /// The event, the part, or what is priced.
    pub name: String,
    /// As the book has it.
    pub now: String,
    /// As the sheet has it; none where it says nothing.
    pub sheet: Option<String>,
    /// Whether it is kept for every engine of the shop.
    pub of_the_shop: bool,
    /// Who wrote it.
    pub by: Option<String>,
    /// When.
    pub day: Date,
    /// The entry.
    pub entry: String,
}

/// What kind of thing is kept.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum KeptKind {
    /// An event.
    Event,
    /// How long a part takes.
    LeadTime,
    /// What a part, or an hour, costs.
    Cost,
    /// A part on the shelf.
    Spare,
}

impl KeptKind {
    /// As a file for programs has it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Event => "event",
            Self::LeadTime => "lead-time",
            Self::Cost => "cost",
            Self::Spare => "spare",
        }
    }
}

/// Puts what the book had by a day over what a sheet says, and takes off the shelf what an engine has.
pub fn set(sheet: &mut Sheet, history: &History, as_of: Option<Date>) -> Kept {
    let by_then = |day: Date| as_of.is_none_or(|as_of| day <= as_of);
    let mut kept = over(sheet, [&history.shop, &history.entries], as_of);
    let in_an_engine = |serial: &str| {
        let part: Option<&PartRun> = history.parts.get(serial).or_else(|| history.from_the_shelf.get(serial));
        let last = part.and_then(|p| p.stretches.iter().rfind(|s| by_then(s.fitted)));
        // what came out and is not scrapped lies on the shelf again
        last.is_some_and(|s| !(s.removed.is_some_and(by_then) && s.disposition.as_deref() != Some("scrap")))
    };
    sheet.spares.retain(|spare| spare.serial.as_deref().is_none_or(|serial| !in_an_engine(serial)));
    kept.shared.retain(|(_, serial)| serial.is_empty() || !in_an_engine(serial));
    let gone = |item: &KeptItem| {
        item.kind == KeptKind::Spare && history.from_the_shelf.keys().any(|s| item.name.ends_with(s) && in_an_engine(s))
    };
    kept.items.retain(|item| !gone(item));
    kept
}

/// The same for who needs no log: of the shop's entries and of the engine's own, each by day.
pub fn over(sheet: &mut Sheet, [shop, own]: [&[Entry]; 2], as_of: Option<Date>) -> Kept {
    let stated = Stated::of(sheet);
    let mut items: BTreeMap<(KeptKind, String), KeptItem> = BTreeMap::new();
    let mut shared: Vec<(String, String)> = Vec::new();
    let entries = shop.iter().map(|e| (e, true)).chain(own.iter().map(|e| (e, false)));
    for (entry, of_the_shop) in entries.filter(|(e, _)| as_of.is_none_or(|day| e.day <= day)) {
        let mut note = |kind: KeptKind, name: String, now: String, sheet: Option<String>| {
            let key = (kind, name.to_lowercase());
            if sheet.as_ref() == Some(&now) {
                items.remove(&key);
                return;
            }
            let (by, day, entry) = (entry.by.clone(), entry.day, entry.id.clone());
            items.insert(key, KeptItem { kind, name, now, sheet, of_the_shop, by, day, entry });
        };
        match &entry.what {
            What::Scheduled { .. } | What::CalledOff => {
                let name = entry.event.clone().unwrap_or_default();
                let before = stated.calendar.iter().find(|e| same_event(&e.name, &name)).map(days_of);
                let now = event(&mut sheet.calendar, entry, &name);
                let name = now.as_ref().map_or(name, |e| e.name.clone());
                if now.is_none() && before.is_none() {
                    items.remove(&(KeptKind::Event, name.to_lowercase()));
                    continue;
                }
                note(KeptKind::Event, name, now.as_ref().map_or_else(|| "called off".to_owned(), days_of), before);
            }
            What::LeadTime { part, days, away, from } => {
                let before = stated.lead_times.get(part).map(takes);
                let entry = LeadTime {
                    order: days.map(i64::from),
                    away: away.map(i64::from),
                    said_by: from.clone(),
                    said: Some(entry.day),
                    pointer: String::new(),
                };
                lead_time(&mut sheet.lead_times, part, entry);
                let now = sheet.lead_times.get(part).map_or_else(|| "not known".to_owned(), takes);
                note(KeptKind::LeadTime, part.clone(), now, before);
            }
            What::Priced { part, planned, failure, hour, money } => {
                if let Some(part) = part {
                    let before = stated.costs.parts.get(part).map(costs);
                    let now = priced(&mut sheet.costs, part, *planned, *failure);
                    note(KeptKind::Cost, part.clone(), now, before);
                }
                if hour.is_some() {
                    sheet.costs.hour = *hour;
                    let words = |hour: f64| format!("{hour}");
                    let now = hour.map(words).unwrap_or_default();
                    note(KeptKind::Cost, "an hour of work".to_owned(), now, stated.costs.hour.map(words));
                }
                if let Some(money) = money {
                    sheet.costs.money = Some(money.clone());
                    note(KeptKind::Cost, "the money".to_owned(), money.clone(), stated.costs.money.clone());
                }
            }
            What::Shelved { part, serial, brought } => {
                let spare =
                    Spare { part: part.clone(), serial: serial.clone(), used: si(brought), pointer: String::new() };
                let same = |s: &Spare| s.serial.is_some() && s.serial == *serial && s.part == *part;
                let there = stated.spares.iter().find(|s| same(s)).map(on_the_shelf);
                sheet.spares.retain(|s| !same(s));
                note(KeptKind::Spare, spare_name(part, serial.as_deref()), "on the shelf".to_owned(), there);
                if of_the_shop {
                    shared.push((part.clone(), serial.clone().unwrap_or_default()));
                }
                sheet.spares.push(spare);
            }
            What::OffTheShelf { part, serial } => {
                let at = sheet.spares.iter().position(|s| s.part == *part && s.serial == *serial);
                let there = at.map(|at| on_the_shelf(&sheet.spares.remove(at)));
                let said = stated.spares.iter().any(|s| s.part == *part && s.serial == *serial);
                let name = spare_name(part, serial.as_deref());
                let key = (part.clone(), serial.clone().unwrap_or_default());
                if let Some(at) = shared.iter().position(|s| *s == key) {
                    shared.remove(at);
                }
                if said {
                    let there = there.filter(|t| !t.is_empty()).or(Some("on the shelf".to_owned()));
                    note(KeptKind::Spare, name, "gone from the shelf".to_owned(), there);
                } else {
                    items.remove(&(KeptKind::Spare, name.to_lowercase()));
                }
            }
            _ => {}
        }
    }
    sheet.calendar.sort_by(|a, b| (a.first, a.last, &a.name).cmp(&(b.first, b.last, &b.name)));
    Kept { items: items.into_values().collect(), shared }
}

/// What an hour of work was charged at on a day, by the sheet and by what was kept until then.
#[must_use]
pub fn hour_on(stated: Option<f64>, [shop, own]: [&[Entry]; 2], day: Date) -> Option<f64> {
    let newest = |entries: &[Entry]| {
        entries.iter().rev().filter(|e| e.day <= day).find_map(|e| match e.what {
            What::Priced { hour, .. } => hour,
            _ => None,
        })
    };
    newest(own).or_else(|| newest(shop)).or(stated)
}

/// A part on the shelf by its number, with what it has run.
pub(super) fn on_the_shelf(spare: &Spare) -> String {
    let mut words = spare.serial.clone().unwrap_or_default();
    for (meter, run) in &spare.used {
        let (n, unit) = match meter.as_str() {
            "miles" => (run / factor::MILE, "miles"),
            "hours" => (run / 3_600.0, "hours"),
            "months" => (run / factor::MONTH, "months"),
            other => (*run, other),
        };
        // what has run is never printed shorter than it is
        words = format!("{words} with {} {unit} on it", (n - 1e-6).ceil().max(0.0)).trim_start().to_owned();
    }
    words
}

fn spare_name(part: &str, serial: Option<&str>) -> String {
    serial.map_or_else(|| part.to_owned(), |serial| format!("{part} {serial}"))
}

fn si(brought: &BTreeMap<String, Amount>) -> BTreeMap<String, f64> {
    brought.iter().filter_map(|(meter, run)| Some((meter.clone(), reading(meter, run).ok()?))).collect()
}

/// The days of an event.
fn days_of(event: &Event) -> String {
    let days =
        if event.first == event.last { event.first.to_string() } else { format!("{} to {}", event.first, event.last) };
    let passes = match (event.known, event.fewest(), event.most()) {
        (false, ..) => String::new(),
        (_, fewest, most) if fewest == most => format!(", {most} passes"),
        (_, fewest, most) => format!(", {fewest} to {most} passes"),
    };
    let at = event.at.as_ref().map(|at| format!(", {at}")).unwrap_or_default();
    format!("{days}{passes}{at}")
}

/// Takes an event in, moves it or takes it out; as it is then.
fn event(calendar: &mut Vec<Event>, entry: &Entry, name: &str) -> Option<Event> {
    let at = calendar.iter().position(|e| same_event(&e.name, name));
    let was = at.map(|at| calendar.remove(at));
    let What::Scheduled { on, last, kind, time_trials, rounds, at } = &entry.what else { return None };
    let length = was.as_ref().and_then(|e| e.first.until((Unit::Day, e.last)).ok()).unwrap_or_default();
    let same_length = on.checked_add(Span::new().days(length.get_days())).unwrap_or(*on);
    let (trials, said_rounds) = was.as_ref().map_or((0, 0), |e| (e.trials, e.rounds));
    let event = Event {
        name: was.as_ref().map_or_else(|| name.to_owned(), |e| e.name.clone()),
        first: *on,
        last: last.unwrap_or(same_length).max(*on),
        kind: match kind.as_deref() {
            Some("match") => EventKind::Match,
            Some("test") => EventKind::Test,
            Some(_) => EventKind::Race,
            None => was.as_ref().map_or(EventKind::Race, |e| e.kind),
        },
        trials: time_trials.unwrap_or(trials),
        rounds: rounds.unwrap_or(said_rounds),
        known: time_trials.is_some() || rounds.is_some() || was.as_ref().is_some_and(|e| e.known),
        at: at.clone().or(was.and_then(|e| e.at)),
        pointer: String::new(),
    };
    calendar.push(event.clone());
    Some(event)
}

/// How long a part takes.
fn takes(lead: &LeadTime) -> String {
    let days = |n: i64| if n == 1 { "1 day".to_owned() } else { format!("{n} days") };
    let order = lead.order.map(|n| format!("{} to come", days(n)));
    let away = lead.away.map(|n| format!("{} away", days(n)));
    let from = lead.said_by.clone();
    order.into_iter().chain(away).chain(from).collect::<Vec<_>>().join(", ")
}

fn lead_time(all: &mut BTreeMap<String, LeadTime>, part: &str, new: LeadTime) {
    if new.order.is_none() && new.away.is_none() {
        all.remove(part);
        return;
    }
    let was = all.remove(part);
    let of = |f: fn(&LeadTime) -> Option<i64>| was.as_ref().and_then(f);
    let merged = LeadTime {
        order: new.order.or_else(|| of(|l| l.order)),
        away: new.away.or_else(|| of(|l| l.away)),
        said_by: new.said_by.or_else(|| was.as_ref().and_then(|l| l.said_by.clone())),
        ..new
    };
    all.insert(part.to_owned(), merged);
}

/// What a part costs.
fn costs(part: &PartCost) -> String {
    let failure =
        part.failure.map_or_else(|| ", what a failure costs is not known".to_owned(), |f| format!(", a failure {f}"));
    format!("planned {}{failure}", part.planned)
}

/// Takes what a part costs in; as it is then.
fn priced(all: &mut Costs, part: &str, planned: Option<f64>, failure: Option<f64>) -> String {
    if planned.is_none() && failure.is_none() {
        all.parts.remove(part);
        return "not known".to_owned();
    }
    let was = all.parts.get(part);
    let Some(planned) = planned.or(was.map(|p| p.planned)) else {
        return "not counted: what a planned change costs is not known".to_owned();
    };
    let failure = failure.or(was.and_then(|p| p.failure));
    // as in a sheet: all that it costs when it lets go is more than the change
    let counted = failure.filter(|failure| *failure > planned);
    let new = PartCost { planned, failure: counted, pointer: String::new() };
    let words = match (failure, counted) {
        (Some(failure), None) => format!("planned {planned}; a failure at {failure} is no more, and not counted"),
        _ => costs(&new),
    };
    all.parts.insert(part.to_owned(), new);
    words
}

/// What a sheet says of the office, before anything is put over it.
struct Stated {
    calendar: Vec<Event>,
    lead_times: BTreeMap<String, LeadTime>,
    costs: Costs,
    spares: Vec<Spare>,
}

impl Stated {
    fn of(sheet: &Sheet) -> Self {
        Self {
            calendar: sheet.calendar.clone(),
            lead_times: sheet.lead_times.clone(),
            costs: sheet.costs.clone(),
            spares: sheet.spares.clone(),
        }
    }
}

#[cfg(test)]
#[path = "kept_tests.rs"]
mod tests;
