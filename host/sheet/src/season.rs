//! What a sheet says of the season: events, how long parts take, what they cost, what is on the shelf.

use super::fault::{Finder, clean, escape, field};
use super::lists::{self, day, meters, rows};
use super::model::{Costs, Event, EventKind, LeadTime, PartCost, Spare};
use serde_json::{Map, Value};
use std::collections::BTreeMap;
use thou_contract::Kind;

/// Longest name that is kept, characters.
const MOST: usize = 120;

/// A text that goes onto every page: kept without what a terminal would take for a command.
fn text(row: &Map<String, Value>, key: &str) -> Option<String> {
    lists::text(row, key).map(|t| clean(&t, MOST))
}

/// Events in the order of their days.
pub(super) fn calendar(root: &Value, find: &mut Finder<'_>) -> Vec<Event> {
    let mut out: Vec<Event> = Vec::new();
    for (index, row) in rows(root, "calendar") {
        let pointer = format!("/calendar/{index}");
        let (Some(name), Some(first)) = (text(row, "name"), day(row.get("date"))) else { continue };
        let last = day(row.get("last-date")).unwrap_or(first);
        if last < first {
            let at = format!("{pointer}/last-date");
            find.at(&at, format!("{}: \"{}\" ends on {last}, before it starts", field(&at), clean(&name, 40)), None);
            find.second(&format!("{pointer}/date"), "its first day");
        }
        if let Some(other) = out.iter().find(|e| e.name.to_lowercase() == name.to_lowercase()) {
            let at = format!("{pointer}/name");
            let help = "give each its own name: the plan and the log go by it".to_owned();
            find.at(&at, format!("{}: two events are called \"{}\"", field(&at), clean(&name, 40)), Some(help));
            find.second(&format!("{}/name", other.pointer), "the other");
            continue;
        }
        let kind = match row.get("kind").and_then(Value::as_str) {
            Some("match") => EventKind::Match,
            Some("test") => EventKind::Test,
            _ => EventKind::Race,
        };
        let whole = |key: &str| row.get(key).and_then(Value::as_u64).and_then(|n| u32::try_from(n).ok());
        let known =
            row.get("time-trials").is_some_and(|v| !v.is_null()) || row.get("rounds").is_some_and(|v| !v.is_null());
        let (trials, rounds) = (whole("time-trials").unwrap_or(0), whole("rounds").unwrap_or(0));
        out.push(Event { name, first, last, kind, trials, rounds, known, at: text(row, "at"), pointer });
    }
    out.sort_by(|a, b| (a.first, a.last, &a.name).cmp(&(b.first, b.last, &b.name)));
    out
}

fn named<'a>(root: &'a Value, pointer: &str) -> impl Iterator<Item = (&'a String, &'a Map<String, Value>)> {
    root.pointer(pointer)
        .and_then(Value::as_object)
        .into_iter()
        .flatten()
        .filter_map(|(name, value)| Some((name, value.as_object()?)))
}

/// How long parts take, by part.
pub(super) fn lead_times(root: &Value, find: &mut Finder<'_>) -> BTreeMap<String, LeadTime> {
    let mut out = BTreeMap::new();
    for (part, row) in named(root, "/lead-times") {
        let pointer = format!("/lead-times/{}", escape(part));
        let mut days = |key: &str| {
            let si = Kind::by_id("span")?.parse(row.get(key)?.as_str()?).ok()?;
            let days = (si / 86_400.0 - 1e-9).ceil();
            let at = format!("{pointer}/{key}");
            if days > 1_100.0 {
                let help = "write how long it takes to come, not how long it lasts".to_owned();
                find.at(&at, format!("{} is over three years", field(&at)), Some(help));
                return None;
            }
            Some(days as i64)
        };
        let (order, away) = (days("order"), days("away"));
        let (said_by, said) = (text(row, "said-by"), day(row.get("said")));
        out.insert(part.clone(), LeadTime { order, away, said_by, said, pointer });
    }
    out
}

/// What changes and failures cost.
pub(super) fn costs(root: &Value, find: &mut Finder<'_>) -> Costs {
    let mut parts = BTreeMap::new();
    for (part, row) in named(root, "/costs/parts") {
        let pointer = format!("/costs/parts/{}", escape(part));
        let failure = row.get("failure").and_then(Value::as_f64);
        let Some(planned) = row.get("planned").and_then(Value::as_f64) else { continue };
        if failure.is_some_and(|f| f <= planned) {
            let at = format!("{pointer}/failure");
            let help =
                "write all that it costs when it lets go: the part, the work, and what it takes along".to_owned();
            find.at(&at, format!("{} is no more than the planned change", field(&at)), Some(help));
            find.second(&format!("{pointer}/planned"), "the planned change");
        }
        parts.insert(part.clone(), PartCost { planned, failure, pointer });
    }
    let money = root.pointer("/costs/money").and_then(Value::as_str).map(|m| clean(m, MOST));
    Costs { money, hour: root.pointer("/costs/hour").and_then(Value::as_f64), parts }
}

/// What is on the shelf.
pub(super) fn spares(root: &Value, find: &mut Finder<'_>) -> Vec<Spare> {
    let mut out: Vec<Spare> = Vec::new();
    for (index, row) in rows(root, "spares") {
        let pointer = format!("/spares/{index}");
        let Some(part) = text(row, "part") else { continue };
        let serial = text(row, "serial");
        let twice = out.iter().find(|s| serial.is_some() && s.part == part && s.serial == serial);
        if let (Some(other), Some(serial)) = (twice, &serial) {
            let at = format!("{pointer}/serial");
            let message = format!("{}: \"{}\" is on the shelf twice", field(&at), clean(serial, 40));
            find.at(&at, message, Some("give each set its own number".to_owned()));
            find.second(&format!("{}/serial", other.pointer), "the other");
        }
        let used = meters(row.get("used"));
        out.push(Spare { part, serial, used, pointer });
    }
    out
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use crate::Sheet;
    use jiff::civil::date;
    use std::path::Path;

    #[test]
    fn a_season_is_read() {
        let text = r#"{ "format": "thou-build-1", "engine": { "name": "1", "cylinders": 4, "layout": "inline" },
            "intent": { "use": "bracket" },
            "calendar": [
                { "name": "late", "date": "2026-08-01", "kind": "match", "time-trials": 2, "rounds": 3 },
                { "name": "early", "date": "2026-07-04", "last-date": "2026-07-05", "time-trials": 3, "rounds": 7, "at": "home" },
                { "name": "test", "date": "2026-07-10", "kind": "test", "time-trials": 8 },
                { "name": "o\u001b[31mpe\u202en", "date": "2026-09-01" }
            ],
            "lead-times": {
                "rings": { "order": "3 weeks", "said-by": "the maker", "said": "2026-06-01" },
                "roller lifters": { "away": "8.5 days" }
            },
            "costs": { "money": "dollars", "hour": 85.5, "parts": { "rings": { "planned": 120 } } },
            "spares": [{ "part": "valve springs", "serial": "set 14", "used": { "passes": "12 passes" } }] }"#;
        let sheet = Sheet::parse("1.json", text, Path::new("")).map_err(|f| f.to_string()).unwrap();
        let told: Vec<(&str, u32, u32, bool)> =
            sheet.calendar.iter().map(|e| (e.name.as_str(), e.fewest(), e.most(), e.known)).collect();
        assert_eq!(
            told,
            [("early", 4, 10, true), ("test", 8, 8, true), ("late", 5, 5, true), ("o[31mpen", 0, 0, false)]
        );
        assert_eq!((sheet.calendar[0].first, sheet.calendar[0].last), (date(2026, 7, 4), date(2026, 7, 5)));
        assert_eq!(sheet.calendar[0].at.as_deref(), Some("home"));
        // a part of a day is a day
        assert_eq!((sheet.lead_times["rings"].order, sheet.lead_times["roller lifters"].away), (Some(21), Some(9)));
        assert_eq!(sheet.lead_times["rings"].said, Some(date(2026, 6, 1)));
        assert_eq!((sheet.costs.hour, sheet.costs.parts["rings"].failure), (Some(85.5), None));
        assert_eq!(sheet.spares[0].used["passes"], 12.0);
    }
}
