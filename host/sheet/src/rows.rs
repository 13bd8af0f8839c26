//! One row of readings: what it is read with, and how it is brought to its points.

use super::bands::Band;
use super::fault::{Finder, clean, field};
use super::model::{Places, Reading, Source};
use thou_contract::Kind;
use thou_fields::ReadingField as Key;

/// What the rows of one set are read with.
pub(super) struct Ruler<'a> {
    pub(super) key: &'static Key,
    pub(super) kind: Kind,
    pub(super) band: Option<Band>,
    pub(super) places: &'a Places,
    pub(super) source: &'a Source,
    /// Temperature of shop and parts, K, unless a set says another.
    pub(super) shop: Option<f64>,
}

/// The values of one place, in SI or a hole, each with where it stands.
pub(super) type Row = Vec<Reading>;

/// A row as long as there are points: holes where it is shorter.
pub(super) fn fit(row: Option<Row>, points: &[String], pointer: &str, find: &mut Finder<'_>) -> Row {
    let mut row = row.unwrap_or_default();
    if row.len() > points.len() {
        let message = format!("{} has {} values for {}", field(pointer), row.len(), many(points.len(), "point"));
        find.at(pointer, message, Some(format!("the points are {}", clean(&points.join(", "), 120))));
        row.truncate(points.len());
    }
    // one value, or nothing, stands in no list: the holes are where the list would be
    let listed = row.first().is_none_or(|r| r.pointer != pointer);
    while row.len() < points.len() {
        let pointer = if listed && !row.is_empty() { hole(&row, pointer) } else { pointer.to_owned() };
        row.push(Reading { value: None, pointer });
    }
    row
}

fn hole(row: &Row, pointer: &str) -> String {
    let tenths = row.first().is_some_and(|r| r.pointer.get(pointer.len()..).is_some_and(|t| t.starts_with("/tenths")));
    format!("{pointer}{}/{}", if tenths { "/tenths" } else { "" }, row.len())
}

fn many(count: usize, noun: &str) -> String {
    if count == 1 { format!("1 {noun}") } else { format!("{count} {noun}s") }
}

/// The size a gauge was set to, and what one tenth on it is.
#[derive(Clone, Copy)]
pub(super) struct Master {
    size: f64,
    step: f64,
}

impl Master {
    /// A metric master counts thousandths of a millimetre, any other tenths of a thou.
    pub(super) fn new(kind: Kind, text: &str) -> Option<Self> {
        let size = kind.parse(text).ok()?;
        let unit = text.trim_start_matches(|c: char| c.is_ascii_digit() || c.is_whitespace() || "+-.−eE".contains(c));
        let metric = ["mm", "µm", "um", "cm", "m"].contains(&unit.trim());
        Some(Self { size, step: if metric { 1e-6 } else { 2.54e-6 } })
    }
    /// The size so many tenths off it.
    pub(super) fn off(self, tenths: i64) -> f64 {
        self.size + tenths as f64 * self.step
    }
}
