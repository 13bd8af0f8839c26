//! Every field of a build sheet, one entry each: what it is, what it can be, what it is read with, what makes it stale.
//!
//! The entries are files that a machinist can read and correct, in `data/`. `cargo run -p thou-fields --example generate`
//! makes of them the tables here, the schema of a sheet and the reference of all fields; a test fails where what is
//! written differs from the entries.
#![forbid(unsafe_code)]

mod field;
mod gauge;
// one line an entry, as the generator writes it
#[rustfmt::skip]
mod generated;
mod pack_field;
mod reading;

pub use field::{Band, Choice, Field, FieldValue, JobStep, Only, PrintUnit, Prints, Rows, Section, Standing, Usual};
pub use gauge::{GaugeKind, GoodFor};
pub use pack_field::{PackField, input_faults, pack_fields};
pub use reading::{Agreement, Axis, Moved, Points, ReadingField, STEEL};

use generated as table;
use std::collections::BTreeMap;
use std::sync::OnceLock;

/// The bias of a master that nobody states, as text.
pub const MASTER: &str = table::MASTER;

/// The sections of a sheet, in its order.
#[must_use]
pub fn sections() -> &'static [Section] {
    table::SECTIONS
}

/// Every field that a sheet has once, in the sheet's order; readings and what stands in lists are apart.
#[must_use]
pub fn fields() -> &'static [Field] {
    table::FIELDS
}

/// Every reading, in the sheet's order.
#[must_use]
pub fn readings() -> &'static [ReadingField] {
    table::READINGS
}

/// What stands in the sheet's lists, an entry a kind of row.
#[must_use]
pub fn rows() -> &'static [Rows] {
    table::ROWS
}

/// The kinds of gauge.
#[must_use]
pub fn gauges() -> &'static [GaugeKind] {
    table::GAUGES
}

/// The section of this name.
#[must_use]
pub fn section(name: &str) -> Option<&'static Section> {
    table::SECTIONS.iter().find(|s| s.name == name)
}

/// The field at a dotted path: `rods.length`, `readings.bore`, or `pull.power` for what stands in each row of a list.
#[must_use]
pub fn field(path: &str) -> Option<&'static Field> {
    if let Some(name) = path.strip_prefix("readings.") {
        return reading(name).map(|r| &r.field);
    }
    static BY_PATH: OnceLock<BTreeMap<&'static str, &'static Field>> = OnceLock::new();
    let of_sheet = BY_PATH.get_or_init(|| table::FIELDS.iter().map(|f| (f.path, f)).collect());
    of_sheet.get(path).copied().or_else(|| {
        let (name, _) = path.split_once('.')?;
        rows_of(name)?.fields.iter().find(|f| f.path == path)
    })
}

/// The reading of this name.
#[must_use]
pub fn reading(name: &str) -> Option<&'static ReadingField> {
    static BY_NAME: OnceLock<BTreeMap<&'static str, &'static ReadingField>> = OnceLock::new();
    BY_NAME.get_or_init(|| table::READINGS.iter().map(|r| (r.name(), r)).collect()).get(name).copied()
}

/// The rows of this name.
#[must_use]
pub fn rows_of(name: &str) -> Option<&'static Rows> {
    table::ROWS.iter().find(|r| r.name == name)
}

/// The kind of gauge of this name.
#[must_use]
pub fn gauge(name: &str) -> Option<&'static GaugeKind> {
    table::GAUGES.iter().find(|g| g.name == name)
}

/// Every field there is: of the sheet, of its readings and of the rows of its lists.
pub fn all() -> impl Iterator<Item = &'static Field> {
    let rows = table::ROWS.iter().flat_map(|r| r.fields.iter());
    table::FIELDS.iter().chain(table::READINGS.iter().map(|r| &r.field)).chain(rows)
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::panic)]
    use super::*;

    #[test]
    fn a_field_is_found_by_its_path_wherever_it_stands() {
        for wanted in all() {
            assert_eq!(field(wanted.path).map(|f| f.path), Some(wanted.path));
        }
        assert_eq!(field("rods.lenght").map(|f| f.path), None);
        assert_eq!(field("readings.bore").unwrap().words, "Bore diameter: three heights, thrust and axial.");
    }

    #[test]
    fn every_reading_has_a_gauge_of_its_kind() {
        for reading in readings() {
            let gauge = gauge(reading.gauge).unwrap();
            let kind = reading.field.kind().unwrap();
            assert!(gauge.shows(kind), "{}: a {} shows no {}", reading.field.path, gauge.name, kind.id());
        }
    }

    #[test]
    fn every_quantity_has_a_band_that_is_of_its_kind() {
        for field in all() {
            let Some(kind) = field.kind() else { continue };
            let band = field.band.unwrap_or_else(|| panic!("{}: no band", field.path));
            let (low, high) = band.si(kind).unwrap_or_else(|| panic!("{}: {band:?}", field.path));
            assert!(low < high, "{}: {band:?}", field.path);
        }
    }

    #[test]
    fn every_reading_says_what_work_makes_it_stale() {
        for reading in readings() {
            assert!(!reading.moved_by.is_empty(), "{}", reading.field.path);
        }
        let stale = |name: &str, work: &str| reading(name).unwrap().moved_by.iter().find(|m| m.work == work).copied();
        assert_eq!(stale("bore", "honed"), Some(Moved { work: "honed", by: Some(1.0) }));
        assert_eq!(stale("top-gap", "bored").unwrap().by, Some(std::f64::consts::PI));
        // the deck that the liner stands above was cut
        assert_eq!(stale("liner-protrusion", "decked"), Some(Moved { work: "decked", by: None }));
    }
}
