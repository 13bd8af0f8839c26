//! The build sheet: one JSON file with the parts, the intent and what was measured.
//!
//! [`Sheet::read`] takes it from a file to plain data, or tells everything that is wrong with it.

mod bands;
mod csv;
mod fault;
mod json;
pub mod keys;
mod lists;
mod lobes;
pub mod model;
mod places;
mod profile;
mod readings;
mod rows;
mod schema;
mod season;
pub mod sections;
mod starter;
#[cfg(test)]
mod tests;

pub use fault::{Fault, MOST_FAULTS, SheetFaults, clean, escape, field};
pub use model::{Axis, Finish, Places, ReadingSet, Sheet, Side, Source};
pub use schema::SCHEMA;
pub use starter::starter;

use fault::Finder;
use serde_json::Value;
use std::collections::BTreeMap;
use std::io::Read;
use std::path::Path;

impl Sheet {
    /// Reads a sheet from a file; files of readings that it names are looked for beside it.
    ///
    /// # Errors
    /// [`SheetFaults`]: the file cannot be read, is not JSON, or does not hold together.
    pub fn read(path: &Path) -> Result<Self, SheetFaults> {
        let name = path.display().to_string();
        let text = load(path, &name)?;
        Self::parse(&name, &text, path.parent().unwrap_or(Path::new("")))
    }

    /// Reads a sheet from its text. `name` is what messages call it, `folder` is where files it names are looked for.
    ///
    /// # Errors
    /// [`SheetFaults`]: the text is not JSON, or does not hold together.
    pub fn parse(name: &str, text: &str, folder: &Path) -> Result<Self, SheetFaults> {
        let source = Source { name: name.to_owned(), folder: folder.to_owned(), ..Source::default() };
        Self::parse_from(source, text)
    }

    /// Reads a sheet that was kept together with the files it names, by their names.
    ///
    /// # Errors
    /// As [`Sheet::parse`].
    pub fn parse_kept(name: &str, text: &str, files: BTreeMap<String, String>) -> Result<Self, SheetFaults> {
        Self::parse_from(Source { name: name.to_owned(), kept: Some(files), ..Source::default() }, text)
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

    fn parse_from(source: Source, text: &str) -> Result<Self, SheetFaults> {
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
        schema::hold_to_schema(&root, &mut find);
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
        sheet.source = source;
        sheet.root = root;
        Ok(sheet)
    }

    fn build(source: &Source, root: &Value, find: &mut Finder<'_>) -> Self {
        let places = places::places(root, find);
        let gauges = lists::gauges(root, find);
        let readings = readings::readings(source, root, &places, &gauges, find);
        lists::calendar(root, "", find);
        bands::possible(root, find);
        lobes::check(root, find);
        let of_meters = root.get("meters");
        let as_of =
            lists::day(of_meters.and_then(|m| m.get("date"))).or_else(|| lists::day(root.pointer("/engine/date")));
        Self {
            work: lists::work(root, &places, find),
            accepted: lists::accepted(root, &places, find),
            certificates: lists::certificates(root, find),
            meters: lists::meters(of_meters, "/meters", find),
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

fn load(path: &Path, name: &str) -> Result<String, SheetFaults> {
    let failed = |error: std::io::Error| match error.kind() {
        std::io::ErrorKind::NotFound => {
            SheetFaults::whole(name, "there is no such file", Some("thou new writes a sheet to start from"))
        }
        _ => SheetFaults::whole(name, format!("the file cannot be read: {error}"), None),
    };
    let about = std::fs::metadata(path).map_err(failed)?;
    if about.is_dir() {
        return Err(SheetFaults::whole(name, "this is a folder", Some("name the sheet in it")));
    }
    let too_big = |bytes: u64| SheetFaults::whole(name, json::SHEET.too_big(bytes), Some(json::SHEET.too_much));
    if about.len() > json::SHEET.most_bytes as u64 {
        return Err(too_big(about.len()));
    }
    let mut bytes = Vec::new();
    // a pipe has no length: what comes out of it is cut off as well
    std::fs::File::open(path)
        .map_err(failed)?
        .take(json::SHEET.most_bytes as u64 + 1)
        .read_to_end(&mut bytes)
        .map_err(failed)?;
    if bytes.len() > json::SHEET.most_bytes {
        return Err(too_big(bytes.len() as u64));
    }
    String::from_utf8(bytes).map_err(|error| not_utf8(name, &error))
}

fn not_utf8(name: &str, error: &std::string::FromUtf8Error) -> SheetFaults {
    let bytes = error.as_bytes();
    if bytes.starts_with(&[0xFF, 0xFE]) || bytes.starts_with(&[0xFE, 0xFF]) {
        return SheetFaults::whole(name, "the file is UTF-16 text", Some("save it as UTF-8"));
    }
    let good = bytes.get(..error.utf8_error().valid_up_to()).unwrap_or(&[]);
    let good = String::from_utf8_lossy(good);
    let (line, column) = (good.matches('\n').count() + 1, good.rsplit('\n').next().unwrap_or("").chars().count() + 1);
    SheetFaults::whole(name, format!("line {line}, column {column} is not UTF-8 text"), Some("save the file as UTF-8"))
}
