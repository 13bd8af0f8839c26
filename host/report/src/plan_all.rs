//! Every engine of the book side by side, a line each, the most pressing first, and one list of orders over all of them.

use super::bench::{capital, has_tables, wrap};
use super::ics::CalendarFile;
use super::plan_stops::{apart, hours, shorten};
use super::plan_words::named;
use super::words;
use jiff::civil::Date;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::fmt::Write as _;
use thou_plan::fleet::{Fleet, FleetPart, FleetRow, PlannedEngine, Pressing};

/// Columns of the page.
const WIDTH: usize = super::bench::WIDTH;

/// Lines of the page, as long as the engines leave so many.
const LINES: usize = 59;

/// The least that is left for what happened, and for the orders, however many engines there are.
const LEAST: usize = 4;

/// So many engines are named behind a part; of more it is said how many.
const MOST_NAMES: usize = 3;

/// The page; `list` is the orders alone, all of them.
#[must_use]
pub fn text(engines: &[PlannedEngine], fleet: &Fleet, day: Option<Date>, list: bool) -> String {
    let until = fleet.until.map(|d| format!(", what is due by {d}")).unwrap_or_default();
    let as_of = day.map(|d| format!("   {d}{until}")).unwrap_or_default();
    let what = if list { "ORDERS" } else { "PLAN" };
    let mut out = wrap(&format!("{what}   every engine of the book ({}){as_of}", engines.len()), "", "  ");
    let words = if list {
        "Days by the parts' lead times, the days of work and the events ahead."
    } else {
        "(+2): two more of it. `thou plan ENGINE` has all of an engine, with reasons and cautions."
    };
    let foot = format!("\n{}{}", wrap(words, "", ""), words::foot());
    if engines.is_empty() {
        out.push_str(&wrap("No engine yet: `thou book add SHEET.json` takes one in.", "", "  "));
    }
    if !list {
        out.push('\n');
        let widest = engines.iter().map(|e| e.name.chars().count()).max().unwrap_or(0).clamp(4, 14);
        for row in &fleet.rows {
            if let Some(engine) = engines.get(row.engine) {
                out.push_str(&line(engine, row, fleet, day, widest));
            }
        }
    }
    let room = |out: &str| LINES.saturating_sub(out.lines().count() + foot.lines().count());
    if !list {
        happened(engines, fleet, (room(&out) / 2).max(LEAST), &mut out);
    }
    let most = room(&out).saturating_sub(2).max(LEAST);
    orders(fleet, day, list, most, &mut out);
    out + &foot
}

/// What happened to any engine and is not settled, as its own page has it, in so many lines with the heading.
fn happened(engines: &[PlannedEngine], fleet: &Fleet, most: usize, out: &mut String) {
    let mut lines: Vec<String> = Vec::new();
    let mut of = |row: &FleetRow, stops: bool| {
        let name = engines.get(row.engine).map(|e| e.name.as_str()).unwrap_or_default();
        let word = if stops { "does not run" } else { "look" };
        for found in if stops { &row.stands } else { &row.looks } {
            let words = format!("{name} {word}: {}.", found.words.trim_end_matches('.'));
            lines.push(wrap(&words, "  ", "    "));
        }
    };
    fleet.rows.iter().for_each(|row| of(row, true));
    fleet.rows.iter().for_each(|row| of(row, false));
    if lines.is_empty() {
        return;
    }
    out.push_str("\nWHAT HAPPENED AND IS NOT SETTLED\n");
    let mut left = most.saturating_sub(3);
    let mut told = 0;
    for line in &lines {
        let count = line.lines().count();
        // the first is said whatever room there is; a narrow page has all
        if has_tables() && count > left && told > 0 {
            break;
        }
        left = left.saturating_sub(count);
        told += 1;
        out.push_str(line);
    }
    if let Some(more) = lines.len().checked_sub(told).filter(|n| *n > 0) {
        let _ = writeln!(out, "  and {more} more: thou plan ENGINE");
    }
}

/// The first of several in so many letters, and how many more: "rod bearings (+2)".
fn first_of(names: &[String], room: usize) -> String {
    let more = names.len().checked_sub(1).filter(|n| *n > 0).map(|n| format!(" (+{n})")).unwrap_or_default();
    let first = names.first().map_or("", String::as_str);
    if !has_tables() {
        return format!("{first}{more}");
    }
    format!("{}{more}", cut(first, room.saturating_sub(more.chars().count()).max(8)))
}

/// Text that fits into so many letters.
fn cut(text: &str, room: usize) -> String {
    if text.chars().count() <= room {
        return text.to_owned();
    }
    // of "rod bearings: look and replace" the part says enough
    if let Some((part, _)) = text.split_once(": ").filter(|(part, _)| part.chars().count() <= room) {
        return part.to_owned();
    }
    let kept: String = text.chars().take(room.saturating_sub(2)).collect();
    format!("{}..", kept.trim_end_matches([' ', ',', ';', ':']))
}

/// What keeps it from running, or is looked at first.
fn stands(engine: &PlannedEngine, row: &FleetRow) -> Vec<String> {
    let of = |lines: &[usize]| -> Vec<String> {
        lines.iter().filter_map(|i| engine.plan.lines.get(*i)).map(|l| named(&l.service)).collect()
    };
    match row.pressing {
        Pressing::Stands => {
            let stamps = row.lapsed.iter().map(|part| format!("stamp of the {part} is past"));
            let found = row.stands.iter().map(|f| f.title.clone());
            let looks = row.looks.iter().map(|f| f.title.clone());
            one_each(found.chain(stamps).chain(of(&row.past)).chain(looks).chain(of(&row.past_looks)).collect())
        }
        Pressing::Look => one_each(row.looks.iter().map(|f| f.title.clone()).chain(of(&row.past_looks)).collect()),
        _ => Vec::new(),
    }
}

fn one_each(all: Vec<String>) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for name in all {
        if !out.contains(&name) {
            out.push(name);
        }
    }
    out
}

/// One engine in a line: its next event, what stands in its way, what to order by when.
fn line(engine: &PlannedEngine, row: &FleetRow, fleet: &Fleet, today: Option<Date>, widest: usize) -> String {
    let label = format!("{:<widest$}  ", engine.name);
    let next = engine.plan.events.first();
    let event = next.map(|e| {
        let name = if has_tables() { shorten(&e.name, 12) } else { e.name.clone() };
        format!("{name} {}: ", short(e.first.max(today.unwrap_or(e.first)), today))
    });
    let event = event.unwrap_or_default();
    let orders: Vec<String> = row.orders.iter().map(|o| o.part.clone()).collect();
    let order = row.orders.first().map(|o| {
        let verb = if o.sent { "send out" } else { "order" };
        let late = if today.is_some_and(|today| o.by < today) { ", late" } else { "" };
        format!("; {verb} {} {}{late}", first_of(&orders, 18), by(o.by, today))
    });
    let order = order.unwrap_or_default();
    let room = WIDTH.saturating_sub([&label, &event, &order].iter().map(|t| t.chars().count()).sum());
    let what = stands(engine, row);
    let stop = row.stops.first().and_then(|i| engine.plan.stops.get(*i));
    let state = match (row.pressing, stop) {
        (Pressing::Stands, _) => format!("does not run, {}", first_of(&what, room.saturating_sub(14))),
        (Pressing::Look, _) => format!("look first, {}", first_of(&what, room.saturating_sub(12))),
        (_, Some(stop)) => {
            let work = format!("{}, {} h", apart(&stop.opens), hours(stop.hours));
            match (&stop.before, stop.date) {
                (Some(before), _) if next.is_some_and(|n| n.name == *before) => format!("{work} first"),
                (Some(before), Some(date)) => {
                    format!("{work} before {} {}", shorten(before, 12), short(date, today))
                }
                (None, Some(date)) if !stop.now => format!("{work} about {}", short(date, today)),
                _ => format!("{work} now"),
            }
        }
        (Pressing::Due, None) if !row.ends.is_empty() => {
            let (part, last) = row.ends.first().map_or(("", None), |(part, last)| (part.as_str(), Some(*last)));
            let last = last.map(|d| short(d, today)).unwrap_or_default();
            format!("the stamp of the {part} ends {last}")
        }
        _ => fleet.until.map_or_else(|| "nothing due".to_owned(), |d| format!("no work due by {}", short(d, today))),
    };
    let state = if has_tables() { cut(&state, room) } else { state };
    wrap(&format!("{label}{event}{state}{order}"), "", &" ".repeat(widest + 2))
}

/// A day of this year without it.
fn short(day: Date, today: Option<Date>) -> String {
    if today.is_some_and(|t| t.year() == day.year()) {
        format!("{:02}-{:02}", day.month(), day.day())
    } else {
        day.to_string()
    }
}

/// "today", or the day to do it by.
fn by(day: Date, today: Option<Date>) -> String {
    if today.is_some_and(|today| day <= today) { "today".to_owned() } else { format!("by {}", short(day, today)) }
}

/// Orders of one whom they come from: by day and whether it is sent out, then by part, with its engines and the day since
/// which it is late. What is late is for today.
type ByDay = BTreeMap<(Date, bool), BTreeMap<String, Asked>>;

/// Who asks for a part.
#[derive(Debug, Default)]
struct Asked {
    engines: Vec<String>,
    late: Option<Date>,
}

fn grouped(fleet: &Fleet, today: Option<Date>) -> Vec<(String, ByDay)> {
    let mut out: Vec<(String, ByDay)> = Vec::new();
    for (order, engine) in &fleet.orders {
        if out.last().is_none_or(|(from, _)| *from != order.from) {
            out.push((order.from.clone(), ByDay::new()));
        }
        let day = today.map_or(order.by, |today| order.by.max(today));
        if let Some((_, days)) = out.last_mut() {
            let asked = days.entry((day, order.sent)).or_default().entry(order.part.clone()).or_default();
            asked.engines.push(engine.clone());
            if order.by < day {
                asked.late = asked.late.into_iter().chain([order.by]).min();
            }
        }
    }
    out
}

fn engines(names: &[String], all: bool) -> String {
    if all || names.len() <= MOST_NAMES { names.join(", ") } else { format!("{} engines", names.len()) }
}

fn orders(fleet: &Fleet, today: Option<Date>, all: bool, most: usize, out: &mut String) {
    let mut lines: Vec<String> = Vec::new();
    for (from, days) in grouped(fleet, today) {
        let words: Vec<String> = days
            .iter()
            .map(|((day, sent), parts)| {
                let of = |(part, asked): (&String, &Asked)| {
                    let late = asked.late.map(|d| format!("; late since {}", short(d, today))).unwrap_or_default();
                    format!("{part} ({}{late})", engines(&asked.engines, all))
                };
                let parts: Vec<String> = parts.iter().map(of).collect();
                let verb = if *sent { "send out" } else { "order" };
                format!("{verb} {}: {}", by(*day, today), parts.join(", "))
            })
            .collect();
        let from = if from.is_empty() { "Whoever has them".to_owned() } else { capital(&from) };
        lines.push(wrap(&format!("{from}: {}.", words.join("; ")), "  ", "    "));
    }
    let mut unknown: BTreeMap<&str, Vec<String>> = BTreeMap::new();
    for (part, engine) in &fleet.unknown {
        unknown.entry(part).or_default().push(engine.clone());
    }
    if !unknown.is_empty() {
        let parts: Vec<String> = unknown.iter().map(|(p, e)| format!("{p} ({})", engines(e, all))).collect();
        let words = format!("Ask how long these take to come, for a day to order by: {}.", parts.join(", "));
        lines.push(wrap(&words, "  ", "    "));
    }
    if !fleet.shelf.is_empty() {
        let of = |(part, number, engine): &(String, String, String)| {
            format!("{} for {engine}", format!("{part} {number}").trim_end())
        };
        let words: Vec<String> = fleet.shelf.iter().map(of).collect();
        lines.push(wrap(&format!("From the shop's shelf: {}.", words.join("; ")), "  ", "    "));
    }
    let taken: Vec<String> = fleet
        .orders
        .iter()
        .filter_map(|(o, engine)| {
            Some(format!("{} of {engine}", format!("{} {}", o.part, o.taken.as_ref()?).trim_end()))
        })
        .collect();
    if !taken.is_empty() {
        let words = format!("On the shelf for a more pressing engine, and so ordered: {}.", taken.join("; "));
        lines.push(wrap(&words, "  ", "    "));
    }
    out.push_str("\nORDER AND SEND OUT, ALL ENGINES\n");
    if lines.is_empty() {
        out.push_str(&wrap("nothing that anybody has said the days of", "  ", "    "));
    }
    let text = lines.concat();
    let count = text.lines().count();
    if all || !has_tables() || count <= most {
        out.push_str(&text);
        return;
    }
    let kept = most.saturating_sub(1);
    for line in text.lines().take(kept) {
        let _ = writeln!(out, "{line}");
    }
    let _ = writeln!(out, "  and {} more lines of it: thou plan --all --orders", count - kept);
}

/// The same for programs, with the plans of the engines where they were made.
#[must_use]
pub fn json(all: &[PlannedEngine], fleet: &Fleet, day: Option<Date>, plans: Vec<Value>) -> Value {
    let order = |o: &FleetPart, engine: &str| {
        json!({ "from": o.from, "by": o.by.to_string(), "how": if o.sent { "sent-out" } else { "ordered" },
                "part": o.part, "engine": engine, "before": o.before, "taken-by-another": o.taken.is_some() })
    };
    let rows: Vec<Value> = fleet
        .rows
        .iter()
        .filter_map(|row| {
            let engine = all.get(row.engine)?;
            let stops: Vec<Value> = row
                .stops
                .iter()
                .filter_map(|i| engine.plan.stops.get(*i))
                .map(|s| {
                    json!({ "before": s.before, "date": s.date.map(|d| d.to_string()), "now": s.now, "opens": s.opens,
                            "hours": s.hours })
                })
                .collect();
            let next = engine.plan.events.first();
            let ends: Vec<Value> =
                row.ends.iter().map(|(part, last)| json!({ "part": part, "last": last.to_string() })).collect();
            Some(json!({
                "engine": engine.name, "use": engine.usage, "pressing": row.pressing.word(), "because": stands(engine, row),
                "next": next.map(|e| json!({ "name": e.name, "first": e.first.to_string(), "last": e.last.to_string() })),
                "stops": stops, "stamps-that-end": ends,
                "orders": row.orders.iter().map(|o| order(o, &engine.name)).collect::<Vec<_>>(),
            }))
        })
        .collect();
    let unknown: Vec<Value> =
        fleet.unknown.iter().map(|(part, engine)| json!({ "part": part, "engine": engine })).collect();
    let shelf: Vec<Value> = fleet
        .shelf
        .iter()
        .map(|(part, number, engine)| json!({ "part": part, "number": number, "engine": engine }))
        .collect();
    json!({
        "format": "thou-shop-1", "page": "fleet", "thou": env!("CARGO_PKG_VERSION"),
        "as-of": day.map(|d| d.to_string()), "until": fleet.until.map(|d| d.to_string()),
        "engines": rows,
        "orders": fleet.orders.iter().map(|(o, engine)| order(o, engine)).collect::<Vec<_>>(),
        "no-lead-time": unknown, "from-the-shelf": shelf, "plans": plans, "defers": words::DEFERS,
    })
}

/// The orders as rows for a table.
///
/// # Errors
/// None in practice: the rows are written to memory. The error is that of the `csv` crate.
pub fn rows(fleet: &Fleet) -> Result<String, csv::Error> {
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(["from", "by", "how", "part", "engine", "before", "taken-by-another"])?;
    for (order, engine) in &fleet.orders {
        let cells = [
            order.from.clone(),
            order.by.to_string(),
            if order.sent { "sent-out" } else { "ordered" }.to_owned(),
            order.part.clone(),
            engine.clone(),
            order.before.clone().unwrap_or_default(),
            order.taken.as_ref().map_or(String::new(), |_| "yes".to_owned()),
        ];
        writer.write_record(cells.iter().map(|cell| thou_text::safe_cell(cell)))?;
    }
    // without a day to order by there is still a part to ask for
    for (part, engine) in &fleet.unknown {
        let cells = ["", "", "no-lead-time", part, engine, "", ""];
        writer.write_record(cells.iter().map(|cell| thou_text::safe_cell(cell)))?;
    }
    let bytes = writer.into_inner().map_err(|e| csv::Error::from(e.into_error()))?;
    Ok(String::from_utf8_lossy(&bytes).into_owned())
}

/// The orders as a calendar: an entry for each day and each whom they come from.
#[must_use]
pub fn calendar(fleet: &Fleet, day: Option<Date>, remind: &[u16]) -> String {
    let mut file = CalendarFile::new(remind);
    let Some(today) = day else { return file.text() };
    for (from, days) in grouped(fleet, day) {
        for ((by, sent), parts) in days {
            let verb = if sent { "send out to" } else { "order from" };
            let whom = if from.is_empty() { "whoever has them" } else { &from };
            let words: Vec<String> = parts.iter().map(|(p, a)| format!("- {p} ({})", a.engines.join(", "))).collect();
            let names: Vec<&str> = parts.keys().map(String::as_str).collect();
            let how = if sent { "sent" } else { "ordered" };
            let uid = ["shop", "order", &from, how, &by.to_string()];
            file.add_day(&uid, &capital(&format!("{verb} {whom}: {}", names.join(", "))), &words, by, today);
        }
    }
    file.text()
}
