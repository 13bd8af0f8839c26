//! What a sheet keeps in lists: gauges, work, accepted verdicts, certificates, meters and services.

use super::fault::{Finder, clean, escape, field};
use super::model::{Accepted, Axis, Certificate, Gauge, Looser, Places, Serviced, Work};
use super::quantity::wrong_quantity;
use jiff::civil::Date;
use serde_json::{Map, Value};
use std::collections::{BTreeMap, BTreeSet};
use std::sync::OnceLock;
use thou_contract::Kind;
use thou_fields::FieldValue as Written;

/// The day in a field. One that the calendar does not have is told by [`calendar`].
pub(super) fn day(value: Option<&Value>) -> Option<Date> {
    value.and_then(Value::as_str).and_then(|text| text.parse().ok())
}

/// Whether fields of this name hold a day, wherever they stand.
fn is_day(key: &str) -> bool {
    static DAYS: OnceLock<BTreeSet<&'static str>> = OnceLock::new();
    let days = DAYS.get_or_init(|| {
        thou_fields::all().filter(|f| f.value == Written::Day).filter_map(|f| f.path.rsplit('.').next()).collect()
    });
    days.contains(key)
}

/// Tells every day that the calendar does not have.
pub(super) fn calendar(value: &Value, pointer: &str, find: &mut Finder<'_>) {
    match value {
        Value::Object(object) => {
            for (key, child) in object {
                let at = || format!("{pointer}/{}", escape(key));
                match child {
                    Value::String(text) if is_day(key) => a_day(text, &at(), find),
                    _ if pointer.is_empty() && key == "extra" => {}
                    Value::Object(_) | Value::Array(_) => calendar(child, &at(), find),
                    _ => {}
                }
            }
        }
        Value::Array(list) => {
            for (index, child) in list.iter().enumerate().filter(|(_, child)| child.is_object() || child.is_array()) {
                calendar(child, &format!("{pointer}/{index}"), find);
            }
        }
        _ => {}
    }
}

/// Tells a day that the calendar does not have.
pub(super) fn a_day(text: &str, at: &str, find: &mut Finder<'_>) {
    if like_a_day(text) && text.parse::<Date>().is_err() {
        let message = format!("{}: the calendar has no {text}", field(at));
        find.at(at, message, Some("write year, month, day, like \"2026-03-14\"".to_owned()));
    }
}

fn like_a_day(text: &str) -> bool {
    text.len() == 10
        && text.bytes().enumerate().all(|(i, b)| if i == 4 || i == 7 { b == b'-' } else { b.is_ascii_digit() })
}

/// The kinds of quantity that the figures of a gauge of this kind are in.
fn shows(gauge: &str) -> Vec<&'static str> {
    let Some(gauge) = thou_fields::gauge(gauge) else { return vec!["length"] };
    gauge.kinds.iter().copied().chain(gauge.in_percent.then_some("percent")).collect()
}

/// The shop's gauges.
pub(super) fn gauges(root: &Value, find: &mut Finder<'_>) -> BTreeMap<String, Gauge> {
    let mut out = BTreeMap::new();
    for (name, value) in root.get("gauges").and_then(Value::as_object).into_iter().flatten() {
        let pointer = format!("/gauges/{}", escape(name));
        let kind = value.get("kind").and_then(Value::as_str).unwrap_or("").to_owned();
        let mut figure = |key: &str| {
            let text = value.get(key).and_then(Value::as_str)?;
            gauge_figure(&shows(&kind), text, &format!("{pointer}/{key}"), find)
        };
        let (resolution, uncertainty) = (figure("resolution"), figure("uncertainty"));
        // a share that the gauge itself shows is a reading, not a share of one
        let own = thou_fields::gauge(&kind).is_some_and(|g| g.kinds.contains(&"percent"));
        let relative = uncertainty.is_some_and(|(_, kind)| kind == "percent") && !own;
        let gauge = Gauge {
            resolution: resolution.map(|r| r.0),
            uncertainty: uncertainty.map(|u| u.0),
            relative,
            set_on: value.get("set-on").and_then(Value::as_str).map(str::to_owned),
            kind,
            pointer,
        };
        out.insert(name.clone(), gauge);
    }
    out
}

fn gauge_figure(
    kinds: &[&'static str],
    text: &str,
    pointer: &str,
    find: &mut Finder<'_>,
) -> Option<(f64, &'static str)> {
    let parsed = kinds.iter().find_map(|id| Some((Kind::by_id(id)?.parse(text).ok()?, *id)));
    match parsed {
        Some((si, id)) if si > 0.0 => Some((si, id)),
        Some(_) => {
            let message = format!("{} is {}: it must be more than nothing", field(pointer), clean(text, 40));
            find.at(pointer, message, None);
            None
        }
        None => {
            let kind = kinds.first().and_then(|id| Kind::by_id(id))?;
            let error = kind.parse(text).err()?;
            let (message, help) = wrong_quantity(&field(pointer), kind, text, &error);
            find.at(pointer, message, help);
            None
        }
    }
}

pub(super) fn rows<'a>(root: &'a Value, section: &str) -> impl Iterator<Item = (usize, &'a Map<String, Value>)> {
    root.get(section)
        .and_then(Value::as_array)
        .into_iter()
        .flatten()
        .enumerate()
        .filter_map(|(i, v)| Some((i, v.as_object()?)))
}

pub(super) fn text(row: &Map<String, Value>, key: &str) -> Option<String> {
    row.get(key).and_then(Value::as_str).map(str::to_owned)
}

fn any_place(places: &Places, label: &str) -> bool {
    Axis::ALL.into_iter().any(|axis| axis != Axis::One && places.labels(axis).iter().any(|l| l == label))
}

fn check_place(places: &Places, label: &str, pointer: &str, find: &mut Finder<'_>) {
    if !any_place(places, label) {
        let help = "write the name of a cylinder, main, crankpin, bank, valve or cam journal".to_owned();
        find.at(pointer, format!("{}: this engine has no place \"{}\"", field(pointer), clean(label, 40)), Some(help));
    }
}

/// Work in the order of its days.
pub(super) fn work(root: &Value, places: &Places, find: &mut Finder<'_>) -> Vec<Work> {
    let mut out = Vec::new();
    for (index, row) in rows(root, "work") {
        let pointer = format!("/work/{index}");
        let at: Vec<String> = row
            .get("at")
            .and_then(Value::as_array)
            .into_iter()
            .flatten()
            .filter_map(Value::as_str)
            .map(str::to_owned)
            .collect();
        for (n, label) in at.iter().enumerate() {
            check_place(places, label, &format!("{pointer}/at/{n}"), find);
        }
        let part = text(row, "part");
        let sections = || thou_fields::sections().iter().filter(|s| s.work).map(|s| s.name);
        if let Some(name) = part.as_deref().filter(|p| sections().all(|s| s != *p) && !p.starts_with("fasteners.")) {
            let all = || format!("it can be {}", sections().collect::<Vec<_>>().join(", "));
            let help = thou_text::nearest(name, sections()).map_or_else(all, |n| format!("did you mean \"{n}\"?"));
            find.at(
                &format!("{pointer}/part"),
                format!("{}: there is no section \"{}\"", field(&format!("{pointer}/part")), clean(name, 40)),
                Some(help),
            );
        }
        let took = row.get("took").and_then(Value::as_str).and_then(|t| Kind::by_id("clearance")?.parse(t).ok());
        if let (Some(did), Some(when)) = (text(row, "did"), day(row.get("when"))) {
            out.push(Work { did, when, part, took, at, pointer });
        }
    }
    out.sort_by_key(|w| w.when);
    out
}

/// Verdicts that somebody answers for.
pub(super) fn accepted(root: &Value, places: &Places, find: &mut Finder<'_>) -> Vec<Accepted> {
    let mut out = Vec::new();
    for (index, row) in rows(root, "accepted") {
        let pointer = format!("/accepted/{index}");
        let place = text(row, "place");
        if let Some(label) = &place {
            check_place(places, label, &format!("{pointer}/place"), find);
        }
        let until = day(row.get("until"));
        if let (Some(rule), Some(reason), Some(by)) = (text(row, "rule"), text(row, "reason"), text(row, "by")) {
            out.push(Accepted { rule, place, reason, by, until, pointer });
        }
    }
    out
}

/// Rules whose hold another pack loosens, signed for.
pub(super) fn looser(root: &Value) -> Vec<Looser> {
    let entry = |(index, row): (usize, &Map<String, Value>)| {
        let pointer = format!("/looser/{index}");
        let (rule, instead) = (text(row, "rule")?, text(row, "instead")?);
        Some(Looser { rule, instead, reason: text(row, "reason")?, by: text(row, "by")?, pointer })
    };
    rows(root, "looser").filter_map(entry).collect()
}

/// Parts with a stamp and a date.
pub(super) fn certificates(root: &Value, find: &mut Finder<'_>) -> Vec<Certificate> {
    let mut out = Vec::new();
    for (index, row) in rows(root, "certificates") {
        let pointer = format!("/certificates/{index}");
        let (issued, until) = (day(row.get("issued")), day(row.get("until")));
        if let (Some(issued), Some(until)) = (issued, until)
            && until < issued
        {
            find.at(&format!("{pointer}/until"), format!("certificates #{} ends before it was given", index + 1), None);
            find.second(&format!("{pointer}/issued"), "given");
        }
        if let (Some(part), Some(until)) = (text(row, "part"), until) {
            out.push(Certificate { part, until, pointer });
        }
    }
    out
}

/// Meters in a section: SI or a count.
pub(super) fn meters(section: Option<&Value>) -> BTreeMap<String, f64> {
    let known = thou_fields::rows_of("serviced").map_or(&[][..], |r| r.fields);
    let meters = known.iter().filter_map(|f| Some((f.path.strip_prefix("serviced.at.")?, f.kind()?)));
    let value = |meter: &str, kind: Kind| match section?.get(meter)? {
        Value::String(text) => kind.parse(text).ok(),
        Value::Number(number) => number.as_f64(),
        _ => None,
    };
    meters.filter_map(|(meter, kind)| Some((meter.to_owned(), value(meter, kind)?))).collect()
}

/// Services done.
pub(super) fn serviced(root: &Value, find: &mut Finder<'_>) -> Vec<Serviced> {
    let mut out = Vec::new();
    for (rule, row) in root.get("serviced").and_then(Value::as_object).into_iter().flatten() {
        let pointer = format!("/serviced/{}", escape(rule));
        let named = rule.split_once('/').is_some_and(|(pack, rule)| !pack.is_empty() && !rule.is_empty());
        if !named {
            let help = "write pack/rule, like \"freshen/valve-springs\"".to_owned();
            find.at_key(&pointer, format!("serviced: \"{}\" is not the name of a rule", clean(rule, 40)), Some(help));
        }
        let at = meters(row.get("at"));
        out.push(Serviced { rule: rule.clone(), date: day(row.get("date")), at, pointer });
    }
    out
}
