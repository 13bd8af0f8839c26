//! The build sheet: one JSON file with the parts, the intent and what was measured.
//!
//! `Sheet::read` takes it from a file to plain data, or tells everything that is wrong with it; without the feature
//! `schema` there is only [`Sheet::parse_unheld`].

mod bands;
mod csv;
mod dotted;
#[cfg(feature = "schema")]
mod extra;
mod fault;
mod json;
mod lists;
mod lobes;
pub mod model;
mod other_engines;
mod places;
mod profile;
mod published;
mod quantity;
#[cfg(feature = "schema")]
mod read;
mod readings;
mod rows;
#[cfg(feature = "schema")]
mod schema;
mod season;
mod starter;
#[cfg(test)]
mod tests;
#[cfg(feature = "schema")]
mod what_if;

pub use bands::{band_of, impossible};
pub use fault::{Fault, MOST_FAULTS, SheetFaults, clean, escape, field};
pub use model::{Axis, Finish, Places, ReadingSet, Sheet, Side, Source};
pub use published::SCHEMA;
pub use starter::starter;
#[cfg(feature = "schema")]
pub use what_if::{Assignment, WhatIfFault};

use fault::Finder;
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::Path;

impl Sheet {
    /// Reads a sheet from its text without holding it to the schema, for whoever builds on sheets and has no use for a
    /// validator. `name` is what messages call it, `folder` is where files it names are looked for.
    ///
    /// # Errors
    /// [`SheetFaults`]: the text is not JSON, or does not hold together.
    pub fn parse_unheld(name: &str, text: &str, folder: &Path) -> Result<Self, SheetFaults> {
        let source = Source { name: name.to_owned(), folder: folder.to_owned(), ..Source::default() };
        Self::parse_from(source, text, |_, _| ())
    }

    /// The text of every file that the sheet names, by its name there: what [`Sheet::parse_kept`] wants.
    #[must_use]
    pub fn files(&self) -> BTreeMap<String, String> {
        let sets =
            self.root.get("readings").and_then(Value::as_object).into_iter().flatten().flat_map(
                |(_, value)| match value {
                    Value::Array(list) => list.iter().collect(),
                    one => vec![one],
                },
            );
        let named = sets.filter_map(|set| set.get("csv")?.as_str());
        let named = named.chain(self.root.pointer("/finish/profile").and_then(Value::as_str));
        named.filter_map(|file| Some((file.to_owned(), csv::load(&self.source, file).ok()?))).collect()
    }

    fn parse_from(source: Source, text: &str, hold: impl Fn(&Value, &mut Finder<'_>)) -> Result<Self, SheetFaults> {
        let name = source.name.as_str();
        if text.len() > json::SHEET.most_bytes {
            return Err(SheetFaults::whole(name, json::SHEET.too_big(text.len() as u64), Some(json::SHEET.too_much)));
        }
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let mut source = Source { text: text.to_owned(), ..source };
        let parsed = match json::parse(&source) {
            Ok(parsed) => parsed,
            Err(fault) => return Err(SheetFaults::new(source, vec![*fault])),
        };
        source.spans = parsed.spans;
        let mut root = parsed.value;
        // every page shows some of it; the text beside it stays as it is, for the carets
        thou_text::clean::clean_json(&mut root);
        let mut find = Finder::new(&source, &parsed.keys);
        find.faults = parsed.twice;
        hold(&root, &mut find);
        let engine = |f: &Fault| f.pointer.is_empty() || f.pointer == "/format" || f.pointer.starts_with("/engine");
        let known = find.faults.clone();
        let mut sheet = Self::default();
        if !known.iter().any(engine) {
            let mut later = Finder::new(&source, &parsed.keys);
            sheet = Self::build(&source, &root, &mut later);
            // what the schema has already told is not told again in other words
            later.faults.retain(|f| !known.iter().any(|k| covers(&k.pointer, &f.pointer)));
            find.faults.append(&mut later.faults);
        }
        let faults = find.faults;
        if !faults.is_empty() {
            return Err(SheetFaults::new(source, faults));
        }
        source.keys = parsed.keys;
        sheet.source = source;
        sheet.root = root;
        Ok(sheet)
    }

    fn build(source: &Source, root: &Value, find: &mut Finder<'_>) -> Self {
        let places = places::places(root, find);
        let gauges = lists::gauges(root, find);
        let readings = readings::readings(source, root, &places, &gauges, find);
        lists::calendar(root, "", find);
        other_engines::told(root, find);
        bands::possible(root, find);
        lobes::check(root, find);
        let of_meters = root.get("meters");
        let as_of =
            lists::day(of_meters.and_then(|m| m.get("date"))).or_else(|| lists::day(root.pointer("/engine/date")));
        Self {
            work: lists::work(root, &places, find),
            accepted: lists::accepted(root, &places, find),
            looser: lists::looser(root),
            certificates: lists::certificates(root, find),
            meters: lists::meters(of_meters),
            serviced: lists::serviced(root, find),
            calendar: season::calendar(root, find),
            lead_times: season::lead_times(root, find),
            costs: season::costs(root, find),
            spares: season::spares(root, find),
            finish: profile::read(root, source, find),
            as_of,
            readings,
            gauges,
            places,
            ..Self::default()
        }
    }
}

/// Whether one pointer is the other or stands inside it.
fn covers(outer: &str, inner: &str) -> bool {
    inner.strip_prefix(outer).is_some_and(|rest| rest.is_empty() || rest.starts_with('/'))
}
