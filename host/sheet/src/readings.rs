//! Readings: from rows as the shop writes them to one value a place and point, holes included.

use super::bands::{Band, outside};
use super::csv::read_csv;
use super::fault::{Finder, clean, escape, field};
use super::lists::day;
use super::model::{Axis, Gauge, Places, Reading, ReadingSet, Source};
use super::places::{known, noun};
use super::quantity::wrong_quantity;
use super::rows::{Master, Row, Ruler, fit};
use serde_json::{Map, Value};
use std::collections::BTreeMap;
use thou_contract::Kind;
use thou_fields::Points;
#[cfg(feature = "schema")]
use thou_fields::ReadingField;
use thou_text::nearest;

/// Every reading of the sheet by key, oldest set first.
pub(super) fn readings(
    source: &Source,
    root: &Value,
    places: &Places,
    gauges: &BTreeMap<String, Gauge>,
    find: &mut Finder<'_>,
) -> BTreeMap<String, Vec<ReadingSet>> {
    let shop = root.pointer("/shop/temperature").and_then(temperature);
    let mut out = BTreeMap::new();
    for (name, value) in root.get("readings").and_then(Value::as_object).into_iter().flatten() {
        let Some((key, kind)) = thou_fields::reading(name).and_then(|k| k.field.kind().map(|q| (k, q))) else {
            continue;
        };
        let ruler =
            Ruler { key, kind, band: key.field.band.and_then(|band| Band::new(kind, band)), places, source, shop };
        let sets = sets(&ruler, value, format!("/readings/{name}"), gauges, find);
        out.insert(name.clone(), sets);
    }
    out
}

/// The sets that stand at a pointer, oldest first.
fn sets(
    ruler: &Ruler<'_>,
    value: &Value,
    pointer: String,
    gauges: &BTreeMap<String, Gauge>,
    find: &mut Finder<'_>,
) -> Vec<ReadingSet> {
    let mut sets: Vec<ReadingSet> = match value {
        Value::Array(list) => list
            .iter()
            .enumerate()
            .filter_map(|(i, set)| Some(one_set(ruler, set.as_object()?, format!("{pointer}/{i}"), gauges, find)))
            .collect(),
        Value::Object(set) => vec![one_set(ruler, set, pointer, gauges, find)],
        _ => Vec::new(),
    };
    if sets.iter().all(|s| s.when.is_some()) {
        sets.sort_by_key(|s| s.when);
    }
    sets
}

/// The sets of a field that a pack asks for, as those of the sheet's own readings are read.
#[cfg(feature = "schema")]
pub(super) fn of_pack(
    sheet: &super::Sheet,
    key: &'static ReadingField,
    value: &Value,
    pointer: String,
    find: &mut Finder<'_>,
) -> Vec<ReadingSet> {
    let Some(kind) = key.field.kind() else { return Vec::new() };
    let shop = sheet.root.pointer("/shop/temperature").and_then(temperature);
    let band = key.field.band.and_then(|band| Band::new(kind, band));
    let ruler = Ruler { key, kind, band, places: &sheet.places, source: &sheet.source, shop };
    sets(&ruler, value, pointer, &sheet.gauges, find)
}

fn one_set(
    ruler: &Ruler<'_>,
    set: &Map<String, Value>,
    pointer: String,
    gauges: &BTreeMap<String, Gauge>,
    find: &mut Finder<'_>,
) -> ReadingSet {
    let text = |key: &str| set.get(key).and_then(Value::as_str).map(str::to_owned);
    let flag = |key: &str| set.get(key).and_then(Value::as_bool);
    let gauge = text("gauge");
    if let Some(name) = gauge.as_deref().filter(|g| !gauges.contains_key(*g)) {
        no_gauge(name, &format!("{pointer}/gauge"), gauges, find);
    }
    let master = set.get("master").and_then(Value::as_str);
    let (points, rows) = rows(ruler, set, &pointer, master, find);
    ReadingSet {
        stage: text("stage"),
        when: day(set.get("when")),
        by: text("by"),
        gauge,
        temperature: set.get("temperature").and_then(temperature).or(ruler.shop),
        plate: flag("plate"),
        twice: flag("twice").unwrap_or(false),
        points,
        rows,
        pointer,
    }
}

fn temperature(value: &Value) -> Option<f64> {
    Kind::by_id("temperature")?.parse(value.as_str()?).ok()
}

fn no_gauge(name: &str, pointer: &str, gauges: &BTreeMap<String, Gauge>, find: &mut Finder<'_>) {
    let all = || clean(&gauges.keys().cloned().collect::<Vec<_>>().join(", "), 120);
    let help = match nearest(name, gauges.keys().map(String::as_str)) {
        // names of gauges are alike, and another instrument's uncertainty is not
        Some(near) => format!("did you mean \"{near}\"? The gauges are {}", all()),
        None if gauges.is_empty() => "add a section \"gauges\" that says what it is".to_owned(),
        None => format!("the gauges are {}", all()),
    };
    find.at(pointer, format!("{}: there is no \"{}\" under gauges", field(pointer), clean(name, 40)), Some(help));
}

fn rows(
    ruler: &Ruler<'_>,
    set: &Map<String, Value>,
    pointer: &str,
    master: Option<&str>,
    find: &mut Finder<'_>,
) -> (Vec<String>, Vec<Row>) {
    let has = |key: &str| set.get(key).is_some_and(|v| !v.is_null());
    let axis = ruler.key.axis;
    let name = field(pointer);
    if axis == Axis::One {
        if let Some(wrong) = ["at", "csv"].into_iter().find(|k| has(k)) {
            let help = Some("write \"value\"".to_owned());
            find.at_key(&format!("{pointer}/{wrong}"), format!("{name} is read once an engine, not by place"), help);
        }
        let at = format!("{pointer}/value");
        let value = set.get("value").and_then(|v| quantity(ruler, v, &at, find));
        return (vec![String::new()], vec![vec![Reading { value, pointer: at }]]);
    }
    if has("value") {
        let example = ruler.places.labels(axis).first().cloned().unwrap_or_default();
        let help = Some(format!("write \"at\": {{ \"{example}\": … }}"));
        find.at_key(&format!("{pointer}/value"), format!("{name} is read at each {}", noun(axis).0), help);
    }
    if has("at") && has("csv") {
        let message = format!("{name} has its rows both here and in a file");
        find.at_key(&format!("{pointer}/csv"), message, Some("keep one of \"at\" and \"csv\"".to_owned()));
    }
    let named: Option<Vec<String>> = set
        .get("points")
        .and_then(Value::as_array)
        .map(|list| list.iter().filter_map(Value::as_str).map(str::to_owned).collect())
        .filter(|list: &Vec<String>| !list.is_empty());
    if let Some(file) = set.get("csv").and_then(Value::as_str) {
        return read_csv(ruler, file, &format!("{pointer}/csv"), named, master, find);
    }

    let count = ruler.places.count(axis);
    let mut found: Vec<Option<Row>> = vec![None; count];
    let (mut longest, mut lists) = (0, false);
    for (label, row) in set.get("at").and_then(Value::as_object).into_iter().flatten() {
        let at = format!("{pointer}/at/{}", escape(label));
        let Some(place) = ruler.places.labels(axis).iter().position(|l| l == label) else {
            no_place(ruler, label, &at, find);
            continue;
        };
        lists |= row.is_array() || row.is_object();
        let row = one_row(ruler, row, &at, master, find);
        longest = longest.max(row.len());
        if let Some(slot) = found.get_mut(place) {
            *slot = Some(row);
        }
    }
    let points = named.unwrap_or_else(|| usual_points(ruler.key.points, lists, longest));
    let at = format!("{pointer}/at");
    let rows = ruler.places.labels(axis).iter().zip(found);
    let rows = rows.map(|(label, row)| fit(row, &points, &format!("{at}/{}", escape(label)), find)).collect();
    (points, rows)
}

/// The points of a set that does not name them. Where every place has one value, that is the one point; where the
/// trade has no usual points, they are numbered.
fn usual_points(points: Points, lists: bool, longest: usize) -> Vec<String> {
    match points {
        _ if !lists => vec![String::new()],
        Points::One if longest > 1 => (1..=longest).map(|n| n.to_string()).collect(),
        _ => points.names().iter().map(|&p| p.to_owned()).collect(),
    }
}

fn no_place(ruler: &Ruler<'_>, label: &str, pointer: &str, find: &mut Finder<'_>) {
    let axis = ruler.key.axis;
    let message = format!("{}: there is no {} \"{}\"", field(parent(pointer, "/at/")), noun(axis).0, clean(label, 40));
    find.at_key(pointer, message, Some(known(ruler.places, axis, label)));
}

/// The pointer up to a part of it.
fn parent<'a>(pointer: &'a str, part: &str) -> &'a str {
    pointer.find(part).and_then(|end| pointer.get(..end)).unwrap_or(pointer)
}

fn one_row(ruler: &Ruler<'_>, row: &Value, pointer: &str, master: Option<&str>, find: &mut Finder<'_>) -> Row {
    match row {
        Value::Null => Vec::new(),
        Value::Array(list) => list
            .iter()
            .enumerate()
            .map(|(index, value)| {
                let at = format!("{pointer}/{index}");
                Reading { value: quantity(ruler, value, &at, find), pointer: at }
            })
            .collect(),
        Value::Object(object) => tenths(ruler, object, pointer, master, find),
        one => vec![Reading { value: quantity(ruler, one, pointer, find), pointer: pointer.to_owned() }],
    }
}

fn tenths(
    ruler: &Ruler<'_>,
    object: &Map<String, Value>,
    pointer: &str,
    master: Option<&str>,
    find: &mut Finder<'_>,
) -> Row {
    let Some(list) = object.get("tenths").and_then(Value::as_array) else {
        return Vec::new();
    };
    let master = object.get("master").and_then(Value::as_str).or(master).and_then(|m| Master::new(ruler.kind, m));
    if master.is_none() {
        let message = format!("{}: tenths of what?", field(pointer));
        find.at(&format!("{pointer}/tenths"), message, Some("write the \"master\" the gauge was set to".to_owned()));
    }
    list.iter()
        .enumerate()
        .map(|(index, value)| {
            let at = format!("{pointer}/tenths/{index}");
            let value = value.as_i64().zip(master).map(|(n, m)| m.off(n)).and_then(|v| held(ruler, v, None, &at, find));
            Reading { value, pointer: at }
        })
        .collect()
}

fn quantity(ruler: &Ruler<'_>, value: &Value, pointer: &str, find: &mut Finder<'_>) -> Option<f64> {
    match value {
        Value::Number(number) => held(ruler, number.as_f64()?, None, pointer, find),
        Value::String(text) => match ruler.kind.parse(text) {
            Ok(si) => held(ruler, si, Some(text), pointer, find),
            Err(error) => {
                let (message, help) = wrong_quantity(&field(pointer), ruler.kind, text, &error);
                find.at(pointer, message, help);
                None
            }
        },
        _ => None,
    }
}

/// The value if it can be at all.
pub(super) fn held(
    ruler: &Ruler<'_>,
    si: f64,
    text: Option<&str>,
    pointer: &str,
    find: &mut Finder<'_>,
) -> Option<f64> {
    let fault = ruler.band.as_ref().and_then(|band| outside(band, || field(pointer), si, text));
    match fault {
        None => Some(si),
        Some((message, help)) => {
            find.at(pointer, message, help);
            None
        }
    }
}
