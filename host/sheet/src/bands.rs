//! Sizes that an engine can have at all. A value outside is a slip: a wrong unit, a decimal place, a swapped line.

use super::dotted::below;
use super::fault::{Finder, escape, field as name_of};
use serde_json::Value;
use thou_contract::Kind;
use thou_fields::{Field, FieldValue as Written};

/// From smallest to largest, as its entry has it.
pub(super) struct Band {
    kind: Kind,
    low: f64,
    high: f64,
    written: thou_fields::Band,
}

impl Band {
    /// None if one of the limits is not a quantity of the kind.
    pub(super) fn new(kind: Kind, band: thou_fields::Band) -> Option<Self> {
        let (low, high) = band.si(kind)?;
        Some(Self { kind, low, high, written: band })
    }
    fn holds(&self, si: f64) -> bool {
        // 1e-9 relative: the same limit in inches and in millimetres differs in the last digit
        let slack = 1e-9 * self.low.abs().max(self.high.abs());
        si >= self.low - slack && si <= self.high + slack
    }
}

/// What to say of a value that cannot be, with the unit it was perhaps meant in; what it is called is only asked then.
pub(super) fn outside(
    band: &Band,
    name: impl FnOnce() -> String,
    si: f64,
    text: Option<&str>,
) -> Option<(String, Option<String>)> {
    if band.holds(si) {
        return None;
    }
    let name = name();
    let shown =
        text.map_or_else(|| band.kind.text(si, thou_contract::System::Inch), |t| super::fault::clean(t.trim(), 40));
    let words = format!("it can be from {} to {}", band.written.low, band.written.high);
    let decimal = band.holds(si * 10.0) || band.holds(si / 10.0);
    let help = match (text.and_then(|t| other_unit(band, t)), decimal) {
        (Some(meant), false) => format!("did you mean \"{meant}\"? {}", capital(&words)),
        (Some(meant), true) => format!("did you mean \"{meant}\", or is a decimal place off? {}", capital(&words)),
        (None, true) => format!("is a decimal place off? {}", capital(&words)),
        (None, false) => words,
    };
    Some((format!("{name} cannot be {shown}"), Some(help)))
}

/// The band of a field, by its path.
#[must_use]
pub fn band_of(path: &str) -> Option<thou_fields::Band> {
    thou_fields::field(path)?.band
}

/// Why a quantity, as it was written, cannot be in any engine, by the band of a field; with what was perhaps meant.
#[must_use]
pub fn impossible(path: &str, name: &str, text: &str) -> Option<String> {
    let field = thou_fields::field(path)?;
    let kind = field.kind()?;
    let band = Band::new(kind, field.band?)?;
    let (why, help) = outside(&band, || name.to_owned(), kind.parse(text).ok()?, Some(text))?;
    Some(help.map_or_else(|| why.clone(), |help| format!("{why}: {help}")))
}

/// The same number in another unit, where that could be.
fn other_unit(band: &Band, text: &str) -> Option<String> {
    let number = text.trim().trim_end_matches(|c: char| !c.is_ascii_digit() && c != '.').trim_end();
    let candidates = band.kind.spec().units.iter().map(|u| format!("{number} {}", u.name));
    candidates.into_iter().find(|c| band.kind.parse(c).is_ok_and(|si| band.holds(si)))
}

fn capital(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map(|c| c.to_uppercase().chain(chars).collect()).unwrap_or_default()
}

/// The SI value of a stated quantity.
fn stated(root: &Value, path: &str, kind: &str) -> Option<f64> {
    si(below(root, path)?, kind)
}

fn si(value: &Value, kind: &str) -> Option<f64> {
    match value {
        Value::String(text) => Kind::by_id(kind)?.parse(text).ok(),
        Value::Number(number) if matches!(kind, "ratio" | "octane" | "count") => number.as_f64(),
        _ => None,
    }
}

fn pointer(path: &str) -> String {
    format!("/{}", path.replace('.', "/"))
}

/// Tells every stated value that cannot be, and values that cannot be together.
pub(super) fn possible(root: &Value, find: &mut Finder<'_>) {
    for field in thou_fields::fields() {
        held(below(root, field.path), field, &|| pointer(field.path), || field.path.to_owned(), find);
        if let Written::List(rows) | Written::ByName(rows) = field.value {
            each_row(root, &pointer(field.path), rows, find);
        }
    }
    for section in thou_fields::sections() {
        if let Some(rows) = section.rows {
            each_row(root, &format!("/{}", section.name), rows, find);
        }
    }
    for reading in thou_fields::readings() {
        let at = format!("/readings/{}", reading.name());
        match root.pointer(&at) {
            Some(Value::Array(_)) => each_row(root, &at, "set", find),
            Some(_) => row(root, &at, "set", find),
            None => {}
        }
    }
    for field in thou_fields::fields() {
        let Some(high) = field.below else { continue };
        let low = field.path;
        let Some(kind) = field.kind().map(Kind::id) else { continue };
        if let (Some(a), Some(b)) = (stated(root, low, kind), stated(root, high, kind))
            && a > b
        {
            find.at(&pointer(low), format!("{low} is more than {high}"), Some("are the two swapped?".to_owned()));
            find.second(&pointer(high), "the lesser");
        }
    }
    together(root, find);
}

/// Holds every row of a list, or everything that stands there by name.
fn each_row(root: &Value, at: &str, rows: &str, find: &mut Finder<'_>) {
    match root.pointer(at) {
        Some(Value::Array(list)) => (0..list.len()).for_each(|i| row(root, &format!("{at}/{i}"), rows, find)),
        Some(Value::Object(named)) => {
            named.keys().for_each(|name| row(root, &format!("{at}/{}", escape(name)), rows, find));
        }
        _ => {}
    }
}

fn row(root: &Value, at: &str, rows: &str, find: &mut Finder<'_>) {
    let Some(row) = root.pointer(at) else { return };
    for field in thou_fields::rows_of(rows).map_or(&[][..], |r| r.fields) {
        let Some(path) = field.path.strip_prefix(rows) else { continue };
        let at = || format!("{at}{}", path.replace('.', "/"));
        held(below(row, path), field, &at, || name_of(&at()), find);
    }
}

/// Tells a field that a pack asks for whose stated value cannot be.
#[cfg(feature = "schema")]
pub(super) fn of_pack(field: &Field, value: &Value, at: &str, find: &mut Finder<'_>) {
    let (Some(kind), Some(band)) = (field.kind(), field.band) else { return };
    let Some(si) = si(value, kind.id()) else { return };
    let told = Band::new(kind, band).and_then(|band| outside(&band, || name_of(at), si, value.as_str()));
    if let Some((message, help)) = told {
        find.at(at, message, help.map(|help| format!("{help}; it is: {}", field.words.trim_end_matches('.'))));
    }
}

fn held(
    value: Option<&Value>,
    field: &Field,
    at: &dyn Fn() -> String,
    name: impl FnOnce() -> String,
    find: &mut Finder<'_>,
) {
    let (Some(kind), Some(value)) = (field.kind(), value) else { return };
    let Some(si) = si(value, kind.id()) else { return };
    let band = field.band.and_then(|band| Band::new(kind, band));
    if let Some((message, help)) = band.and_then(|band| outside(&band, name, si, value.as_str())) {
        // a row's field is named by the row, and what it is stands nowhere else on the page
        let row = field.path.split_once('.').is_some_and(|(rows, _)| thou_fields::rows_of(rows).is_some());
        let about = if row { format!("; it is: {}", field.words.trim_end_matches('.')) } else { String::new() };
        find.at(&at(), message, help.map(|help| help + &about));
    }
}

fn together(root: &Value, find: &mut Finder<'_>) {
    let length = |path: &str| stated(root, path, "length");
    let speed = |path: &str| stated(root, path, "angular-speed");
    if let (Some(deck), Some(stroke), Some(rod), Some(height)) = (
        length("block.deck-height"),
        length("crank.stroke"),
        length("rods.length"),
        length("pistons.compression-height"),
    ) {
        let below = (deck - stroke / 2.0 - rod - height) / 0.0254;
        if !(-1.0..=3.0).contains(&below) {
            let side = if below < 0.0 { "above" } else { "below" };
            let message = format!("the piston would stop {:.3} in {side} the deck", below.abs());
            let help = "block.deck-height less half of crank.stroke, rods.length and pistons.compression-height is what is left: one of the four is wrong";
            find.at("/block/deck-height", message, Some(help.to_owned()));
        }
    }
    if let (Some(gasket), Some(bore)) = (length("gasket.bore"), length("block.bore"))
        && gasket < bore / 2.0
    {
        let help = Some("is one of them in another unit?".to_owned());
        find.at("/gasket/bore", "gasket.bore is less than half of block.bore", help);
        find.second("/block/bore", "the bore");
    }
    if let (Some(limiter), Some(shift)) = (speed("intent.limiter"), speed("intent.shift-speed"))
        && limiter < shift
    {
        let help = Some("the engine would never reach its shift: are the two swapped?".to_owned());
        find.at("/intent/limiter", "intent.limiter is below intent.shift-speed", help);
        find.second("/intent/shift-speed", "the shift");
    }
    if let (Some(stroke), Some(rod)) = (length("crank.stroke"), length("rods.length"))
        && rod < stroke * 0.75
    {
        let help = Some("the rod would not clear the crank: are the two swapped?".to_owned());
        find.at("/rods/length", "rods.length is less than three quarters of crank.stroke", help);
        find.second("/crank/stroke", "the stroke");
    }
}
