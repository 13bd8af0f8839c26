//! Logs as files: one entry a line of JSON, or a row of CSV. Both say the same, and go there and back without a change.

use crate::id;
use jiff::civil::Date;
use serde_json::{Map, Value};
use std::collections::{BTreeMap, BTreeSet};
use thou_life::entry::{Entry, What};
use thou_text::StrayQuote;

/// How a log's file is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FileForm {
    /// One JSON object a line.
    JsonLines,
    /// A row an entry, below a row of names.
    Csv,
}

/// What a column holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum ColumnKind {
    /// Text, a quantity with its unit among it.
    Text,
    /// A number.
    Number,
    /// `yes`, or nothing.
    Yes,
    /// Meters: `passes=118; hours=2 h`.
    Meters,
}

/// The columns of a CSV log, which are the fields of a line of JSON too, in the order that they are written in.
const COLUMNS: &[(&str, ColumnKind)] = &[
    ("id", ColumnKind::Text),
    ("engine", ColumnKind::Text),
    ("day", ColumnKind::Text),
    ("zone", ColumnKind::Text),
    ("event", ColumnKind::Text),
    ("by", ColumnKind::Text),
    ("note", ColumnKind::Text),
    ("what", ColumnKind::Text),
    ("passes", ColumnKind::Number),
    ("pulls", ColumnKind::Number),
    ("miles", ColumnKind::Text),
    ("hours", ColumnKind::Text),
    ("peak-speed", ColumnKind::Text),
    ("elapsed", ColumnKind::Text),
    ("adder", ColumnKind::Yes),
    ("trap-speed", ColumnKind::Text),
    ("lane", ColumnKind::Text),
    ("air-pressure", ColumnKind::Text),
    ("air-temperature", ColumnKind::Text),
    ("humidity", ColumnKind::Text),
    ("weight", ColumnKind::Text),
    ("fuel", ColumnKind::Text),
    ("tire", ColumnKind::Text),
    ("tire-pressure", ColumnKind::Text),
    ("tune", ColumnKind::Text),
    ("plugs", ColumnKind::Text),
    ("meter", ColumnKind::Meters),
    ("meter-was-reset", ColumnKind::Yes),
    ("happening", ColumnKind::Text),
    ("speed", ColumnKind::Text),
    ("time", ColumnKind::Text),
    ("place", ColumnKind::Text),
    ("entry", ColumnKind::Text),
    ("found", ColumnKind::Text),
    ("reading", ColumnKind::Text),
    ("value", ColumnKind::Text),
    ("gauge", ColumnKind::Text),
    ("state", ColumnKind::Text),
    ("baseline", ColumnKind::Yes),
    ("service", ColumnKind::Text),
    ("cost", ColumnKind::Number),
    ("part", ColumnKind::Text),
    ("serial", ColumnKind::Text),
    ("brought", ColumnKind::Meters),
    ("made", ColumnKind::Text),
    ("maker", ColumnKind::Text),
    ("failed", ColumnKind::Yes),
    ("disposition", ColumnKind::Text),
    ("because", ColumnKind::Text),
    ("opens", ColumnKind::Text),
    ("on", ColumnKind::Text),
    ("last", ColumnKind::Text),
    ("kind", ColumnKind::Text),
    ("time-trials", ColumnKind::Number),
    ("rounds", ColumnKind::Number),
    ("at", ColumnKind::Text),
    ("days", ColumnKind::Number),
    ("away", ColumnKind::Number),
    ("from", ColumnKind::Text),
    ("planned", ColumnKind::Number),
    ("failure", ColumnKind::Number),
    ("hour", ColumnKind::Number),
    ("money", ColumnKind::Text),
    ("amount", ColumnKind::Number),
    ("season", ColumnKind::Number),
    ("name", ColumnKind::Text),
];

/// What an entry can say, and the fields that go with it; those in front must be there.
const WHATS: &[(&str, usize, &[&str])] = &[
    ("budgeted", 2, &["season", "amount"]),
    ("called-off", 0, &[]),
    ("charged", 0, &["cost", "hours"]),
    ("customer", 1, &["name"]),
    ("did", 1, &["service", "cost", "hours"]),
    ("fitted", 2, &["part", "serial", "place", "brought", "made", "maker"]),
    ("freshened", 0, &[]),
    ("happened", 1, &["happening", "speed", "time", "place", "part"]),
    ("lead-time", 1, &["part", "days", "away", "from"]),
    ("noted", 0, &[]),
    ("off-the-shelf", 1, &["part", "serial"]),
    ("paid", 1, &["amount"]),
    ("priced", 0, &["part", "planned", "failure", "hour", "money"]),
    (
        "ran",
        0,
        &[
            "passes",
            "pulls",
            "miles",
            "hours",
            "peak-speed",
            "elapsed",
            "adder",
            "meter",
            "meter-was-reset",
            "trap-speed",
            "lane",
            "air-pressure",
            "air-temperature",
            "humidity",
            "weight",
            "fuel",
            "tire",
            "tire-pressure",
            "tune",
            "plugs",
        ],
    ),
    ("read", 2, &["reading", "value", "place", "gauge", "state", "baseline"]),
    ("removed", 2, &["serial", "disposition", "failed", "because"]),
    ("scheduled", 1, &["on", "last", "kind", "time-trials", "rounds", "at"]),
    ("settled", 2, &["entry", "found"]),
    ("shelved", 1, &["part", "serial", "brought"]),
    ("tightened", 1, &["serial"]),
    ("torn-down", 1, &["opens"]),
    ("undone", 1, &["entry"]),
];

/// The fields that every entry has, or may have.
const ALWAYS: &[&str] = &["id", "engine", "day", "zone", "event", "by", "note", "what"];

/// The column of a CSV log that says whether a row counts: `no` for what was undone, and for the undoing. It follows from
/// the other rows, and a file is held to it.
const COUNTS: &str = "counts";

/// What is wrong with a line of a file.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[error("{line}:{column}: {why}")]
pub struct LineFault {
    /// The line, from one.
    pub line: u64,
    /// The column, in characters from one.
    pub column: usize,
    /// What is wrong, and what to write.
    pub why: String,
}

/// A line of a file that is an entry, or is not.
#[derive(Debug, Clone, PartialEq)]
pub struct LogLine {
    /// The line, from one.
    pub line: u64,
    /// The entry; its id is empty where the line has none.
    pub entry: Result<Entry, LineFault>,
    /// Whether the line has an id of its own; where not, it was given one from its words.
    pub own_id: bool,
}

/// The entries of a file. The first line tells CSV from JSON.
#[must_use]
pub fn read(text: &str) -> Vec<LogLine> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let first = text.trim_start();
    let mut lines = if first.is_empty() || first.starts_with('{') { json_lines(text) } else { csv_lines(text) };
    give_ids(&mut lines);
    lines
}

/// Lines without an id get one from their words, so that the same file read twice adds nothing twice; the same words
/// again in one file are another entry.
fn give_ids(lines: &mut [LogLine]) {
    let mut seen: BTreeMap<String, u32> = BTreeMap::new();
    for line in lines {
        let Some(entry) = line.entry.as_mut().ok().filter(|entry| entry.id.is_empty()) else { continue };
        line.own_id = false;
        let json = serde_json::to_string(entry).unwrap_or_default();
        let again = seen.entry(json.clone()).or_insert(0);
        entry.id = id::id(&["a line of a file", &json], *again);
        *again += 1;
    }
}

fn json_lines(text: &str) -> Vec<LogLine> {
    let mut out = Vec::new();
    for (line, text) in (1_u64..).zip(text.lines()).filter(|(_, text)| !text.trim().is_empty()) {
        let fault = |column, why| LineFault { line, column, why };
        let entry = match serde_json::from_str::<Value>(text) {
            Ok(Value::Object(fields)) => entry(fields).map_err(|(field, why)| {
                let at = text.find(&format!("\"{field}\"")).and_then(|at| text.get(..at));
                fault(at.map_or(1, |before| before.chars().count() + 1), why)
            }),
            Ok(_) => Err(fault(1, "a line is one entry, in braces".to_owned())),
            Err(error) => {
                let said = error.to_string();
                let said = said.split(" at line ").next().unwrap_or("");
                Err(fault(error.column().max(1), format!("not JSON: {said}")))
            }
        };
        out.push(LogLine { line, entry, own_id: true });
    }
    out
}

fn csv_lines(text: &str) -> Vec<LogLine> {
    let stray = thou_text::stray_quote(text);
    // behind such a quote nobody knows where a row ends
    let whole = stray.and_then(|quote| text.get(..quote.row)).unwrap_or(text);
    let mut out = csv_rows(whole);
    out.extend(stray.map(|StrayQuote { line, column, open, .. }| {
        let why = if open {
            "this double quote opens a cell and nothing closes it: no line from here on was read. Close it, or write it \
             twice if it is meant"
        } else {
            "behind a closing double quote stands more, or an earlier line opens one and does not close it: no line from \
             there on was read. A quote inside a cell is written twice"
        };
        LogLine { line, entry: Err(LineFault { line, column, why: why.to_owned() }), own_id: true }
    }));
    out
}

/// What a row says of itself that follows from the others.
struct SaidUndone {
    line: u64,
    column: usize,
    id: String,
}

/// Rows that say that they do not count, and that no row of the file undoes.
fn hold_to_counts(said: Vec<SaidUndone>, lines: &mut [LogLine]) {
    let undone: BTreeSet<String> = lines
        .iter()
        .filter_map(|line| match &line.entry.as_ref().ok()?.what {
            What::Undone { entry } => Some(entry.clone()),
            _ => None,
        })
        .collect();
    for SaidUndone { line, column, .. } in said.into_iter().filter(|said| !undone.contains(&said.id)) {
        let why =
            "it says that it does not count, and no row of this file undoes it: leave the row out, or this cell empty";
        let fault = LineFault { line, column, why: why.to_owned() };
        if let Some(there) = lines.iter_mut().find(|l| l.line == line && l.entry.is_ok()) {
            there.entry = Err(fault);
        }
    }
}

fn csv_rows(text: &str) -> Vec<LogLine> {
    let mut said: Vec<SaidUndone> = Vec::new();
    let counts = |named: &[&str], record: &csv::StringRecord| {
        let at = named.iter().position(|n| *n == COUNTS)?;
        let no = record.get(at).is_some_and(|c| matches!(c.trim().to_lowercase().as_str(), "no" | "false" | "0" | "n"));
        no.then_some(at)
    };
    let mut reader = csv::ReaderBuilder::new().has_headers(false).flexible(true).from_reader(text.as_bytes());
    let mut records = reader.records();
    let mut out = Vec::new();
    let header = records.next().and_then(Result::ok).unwrap_or_default();
    let named: Vec<&str> = header.iter().map(str::trim).collect();
    for (index, name) in named.iter().enumerate() {
        let unknown = *name != COUNTS && !COLUMNS.iter().any(|c| c.0 == *name);
        let twice = named.iter().take(index).any(|n| n == name);
        if unknown || twice {
            let why = if twice { format!("the column \"{name}\" stands twice") } else { no_field(name) };
            return vec![LogLine {
                line: 1,
                entry: Err(LineFault { line: 1, column: column(text, 1, index), why }),
                own_id: true,
            }];
        }
    }
    for wanted in ["engine", "day", "what"] {
        if !named.contains(&wanted) {
            let why = format!("the first line names the columns, and \"{wanted}\" is not among them");
            return vec![LogLine { line: 1, entry: Err(LineFault { line: 1, column: 1, why }), own_id: true }];
        }
    }
    for record in records {
        let record = match record {
            Ok(record) => record,
            Err(error) => {
                let line = error.position().map_or(1, csv::Position::line);
                out.push(LogLine {
                    line,
                    entry: Err(LineFault { line, column: 1, why: format!("not CSV: {error}") }),
                    own_id: true,
                });
                continue;
            }
        };
        let line = record.position().map_or(1, csv::Position::line);
        if record.iter().all(str::is_empty) {
            continue;
        }
        let fault = |index, why| LineFault { line, column: column(text, line, index), why };
        let entry = if record.len() > named.len() {
            let why = format!(
                "{} cells for {} columns: text with a comma goes into double quotes",
                record.len(),
                named.len()
            );
            Err(fault(named.len(), why))
        } else {
            row(&named, &record)
                .and_then(entry)
                .map_err(|(field, why)| fault(named.iter().position(|n| *n == field).unwrap_or(0), why))
        };
        if let (Some(at), Ok(entry)) = (counts(&named, &record), &entry)
            && !matches!(entry.what, What::Undone { .. })
        {
            said.push(SaidUndone { line, column: column(text, line, at), id: entry.id.clone() });
        }
        out.push(LogLine { line, entry, own_id: true });
    }
    hold_to_counts(said, &mut out);
    out
}

type FieldFault = (String, String);

/// What a field holds: hours are a meter's, or of work.
fn column_kind(what: &str, name: &str) -> ColumnKind {
    match COLUMNS.iter().find(|c| c.0 == name) {
        _ if name == "hours" && ["did", "charged"].contains(&what) => ColumnKind::Number,
        column => column.map_or(ColumnKind::Text, |c| c.1),
    }
}

/// A row's cells as fields.
fn row(named: &[&str], record: &csv::StringRecord) -> Result<Map<String, Value>, FieldFault> {
    let what = named.iter().position(|n| *n == "what").and_then(|at| record.get(at)).unwrap_or("");
    let mut fields = Map::new();
    let cells = named.iter().zip(record.iter()).filter(|(name, cell)| **name != COUNTS && !cell.is_empty());
    for (name, cell) in cells {
        let cell = thou_text::cell_text(cell);
        let wrong = |why: String| ((*name).to_owned(), format!("{name} is \"{cell}\": {why}"));
        let kind = column_kind(what, name);
        let value = match kind {
            ColumnKind::Text => Value::from(cell),
            ColumnKind::Number => number(cell).ok_or_else(|| wrong("write a number".to_owned()))?,
            ColumnKind::Yes => match cell.to_lowercase().as_str() {
                "yes" | "true" | "1" | "y" => Value::Bool(true),
                "no" | "false" | "0" | "n" => Value::Bool(false),
                _ => return Err(wrong("write yes, or leave it empty".to_owned())),
            },
            ColumnKind::Meters => {
                let mut meters = Map::new();
                for pair in cell.split(';').map(str::trim).filter(|p| !p.is_empty()) {
                    let Some((meter, reading)) = pair.split_once('=') else {
                        return Err(wrong("write it like \"passes=118; hours=2 h\"".to_owned()));
                    };
                    meters.insert(meter.trim().to_owned(), Value::from(reading.trim()));
                }
                Value::Object(meters)
            }
        };
        fields.insert((*name).to_owned(), value);
    }
    Ok(fields)
}

fn number(text: &str) -> Option<Value> {
    let text = text.trim();
    text.parse::<i64>()
        .ok()
        .map(Value::from)
        .or_else(|| text.parse::<f64>().ok().and_then(serde_json::Number::from_f64).map(Value::Number))
}

/// An entry from its fields, or the field that is wrong and why.
fn entry(mut fields: Map<String, Value>) -> Result<Entry, FieldFault> {
    fields.retain(|_, value| !(value.is_null() || value.as_str().is_some_and(str::is_empty)));
    let wrong = |field: &str, why: String| (field.to_owned(), why);
    for name in ["engine", "day", "what"] {
        if !fields.get(name).is_some_and(Value::is_string) {
            return Err(wrong(name, format!("an entry has \"{name}\", as text")));
        }
    }
    let word = |name: &str| fields.get(name).and_then(Value::as_str).unwrap_or("").to_owned();
    let what = word("what");
    let Some((_, must, own)) = WHATS.iter().find(|w| w.0 == what) else {
        let hint = thou_text::nearest(&what, WHATS.iter().map(|w| w.0))
            .map(|n| format!("; did you mean {n}?"))
            .unwrap_or_default();
        let all: Vec<&str> = WHATS.iter().map(|w| w.0).collect();
        return Err(wrong("what", format!("what is \"{what}\"{hint} It can be {}", all.join(", "))));
    };
    for name in fields.keys() {
        if !ALWAYS.contains(&name.as_str()) && !own.contains(&name.as_str()) {
            let why = if COLUMNS.iter().any(|c| c.0 == name) {
                format!("\"{name}\" does not go with what: {what}")
            } else {
                no_field(name)
            };
            return Err(wrong(name, why));
        }
    }
    if let Some(missing) = own.iter().take(*must).find(|name| !fields.contains_key(**name)) {
        return Err(wrong("what", format!("what: {what} goes with \"{missing}\", and that is missing")));
    }
    if ["scheduled", "called-off"].contains(&what.as_str()) && word("event").is_empty() {
        return Err(wrong("what", format!("what: {what} goes with \"event\", and that is missing")));
    }
    for name in ["day", "made", "on", "last"] {
        let text = word(name);
        if !text.is_empty() && text.parse::<Date>().is_err() {
            return Err(wrong(name, format!("{name} is \"{text}\": write year, month, day, like 2026-05-02")));
        }
    }
    for (name, value) in &fields {
        let kind = column_kind(&what, name);
        let fits = match kind {
            ColumnKind::Text => value.is_string(),
            ColumnKind::Number => value.is_number(),
            ColumnKind::Yes => value.is_boolean(),
            ColumnKind::Meters => value.as_object().is_some_and(|m| m.values().all(Value::is_string)),
        };
        if !fits {
            let want = match kind {
                ColumnKind::Text => "text in quotes, a quantity with its unit",
                ColumnKind::Number => "a number",
                ColumnKind::Yes => "true, or leave it out",
                ColumnKind::Meters => "meters with text in quotes, like { \"passes\": \"118\" }",
            };
            return Err(wrong(name, format!("{name} is {value}: write {want}")));
        }
    }
    fields.entry("id").or_insert_with(|| Value::from(""));
    serde_json::from_value(Value::Object(fields)).map_err(|error| wrong("what", error.to_string()))
}

fn no_field(name: &str) -> String {
    let hint = thou_text::nearest(name, COLUMNS.iter().map(|c| c.0))
        .map(|n| format!("; did you mean {n}?"))
        .unwrap_or_default();
    format!("a log has no field \"{name}\"{hint}")
}

fn column(text: &str, line: u64, cell: usize) -> usize {
    thou_text::cell_column(text.lines().nth(usize::try_from(line.saturating_sub(1)).unwrap_or(0)).unwrap_or(""), cell)
}

/// Entries as a file, each with whether it counts; CSV says so in a column of its own.
#[must_use]
pub fn write(entries: &[(Entry, bool)], form: FileForm) -> String {
    match form {
        FileForm::JsonLines => entries
            .iter()
            .filter_map(|(entry, _)| serde_json::to_string(entry).ok())
            .fold(String::new(), |out, line| out + &line + "\n"),
        FileForm::Csv => {
            let mut writer = csv::Writer::from_writer(Vec::new());
            // a Vec takes every byte
            let _ = writer.write_record(COLUMNS.iter().map(|c| c.0).chain([COUNTS]));
            for (entry, counts) in entries {
                let fields = serde_json::to_value(entry).unwrap_or_default();
                let cells = COLUMNS.iter().map(|(name, _)| fields.get(name).map(cell).unwrap_or_default());
                let counts = if *counts { "yes" } else { "no" };
                let _ = writer.write_record(cells.chain([counts.to_owned()]));
            }
            writer.into_inner().map(|bytes| String::from_utf8_lossy(&bytes).into_owned()).unwrap_or_default()
        }
    }
}

fn cell(value: &Value) -> String {
    match value {
        Value::String(text) => thou_text::safe_cell(text),
        Value::Bool(true) => "yes".to_owned(),
        Value::Number(number) => number.to_string(),
        Value::Object(meters) => {
            let pairs = meters.iter().map(|(meter, reading)| format!("{meter}={}", reading.as_str().unwrap_or("")));
            pairs.collect::<Vec<_>>().join("; ")
        }
        _ => String::new(),
    }
}

#[cfg(test)]
#[path = "lines_tests.rs"]
mod tests;
