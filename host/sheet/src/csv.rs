//! Rows of readings in a file beside the sheet: `place,<point>,<point>…`, one line a place.

use super::fault::{Finder, clean, field};
use super::model::{Places, Reading, Source};
use super::places::{known, noun};
use super::quantity::wrong_quantity;
use super::rows::{Master, Row, Ruler, fit};
use crate::bands::outside;
use std::io::Read;
use std::path::{Component, Path};

/// Largest file of readings, bytes; one of a V8 has 1 KB.
const MOST_BYTES: u64 = 1 << 20;

/// The points and rows of a file. Everything wrong with it is told at the sheet's line that names it.
pub(super) fn read_csv(
    ruler: &Ruler<'_>,
    file: &str,
    pointer: &str,
    points: Option<Vec<String>>,
    master: Option<&str>,
    find: &mut Finder<'_>,
) -> (Vec<String>, Vec<Row>) {
    let mut lines = Lines { ruler, file, pointer, find };
    let (points, found) = match load(ruler.source, file) {
        Ok(text) => lines.read(&text, points, master),
        Err((message, help)) => {
            lines.find.at(pointer, format!("{}: {message}", field(pointer)), Some(help));
            (points.unwrap_or_else(|| vec![String::new()]), Vec::new())
        }
    };
    let mut found = found.into_iter();
    let axis = ruler.key.axis;
    let rows = (0..ruler.places.count(axis)).map(|_| fit(found.next().flatten(), &points, pointer, find)).collect();
    (points, rows)
}

/// The file's text, if it lies in the sheet's folder, or was kept with the sheet.
pub(super) fn load(source: &Source, file: &str) -> Result<String, (String, String)> {
    let shown = clean(file, 80);
    if let Some(kept) = &source.kept {
        return kept.get(file).cloned().ok_or_else(|| {
            (
                format!("\"{shown}\" was not kept with the sheet"),
                "take the sheet in once more, with its files".to_owned(),
            )
        });
    }
    let folder = source.folder.as_path();
    let outside_folder =
        || (format!("\"{shown}\" is not in the sheet's folder"), "put the file beside the sheet".to_owned());
    let path = Path::new(file);
    if file.contains('\\') || !path.components().all(|c| matches!(c, Component::Normal(_) | Component::CurDir)) {
        return Err(outside_folder());
    }
    let folder = if folder.as_os_str().is_empty() { Path::new(".") } else { folder };
    let unreadable = |error: std::io::Error| {
        let why = match error.kind() {
            std::io::ErrorKind::NotFound => "there is no such file beside the sheet".to_owned(),
            std::io::ErrorKind::InvalidData => "it is not UTF-8 text".to_owned(),
            _ => error.to_string(),
        };
        (format!("\"{shown}\" cannot be read: {why}"), "name a file of readings beside the sheet".to_owned())
    };
    let real = folder.join(path).canonicalize().map_err(unreadable)?;
    if !real.starts_with(folder.canonicalize().map_err(unreadable)?) {
        return Err(outside_folder());
    }
    if !real.is_file() {
        return Err((format!("\"{shown}\" is not a file"), "name a file of readings beside the sheet".to_owned()));
    }
    let mut text = String::new();
    let opened = std::fs::File::open(&real).map_err(unreadable)?;
    opened.take(MOST_BYTES + 1).read_to_string(&mut text).map_err(unreadable)?;
    if text.len() as u64 > MOST_BYTES {
        return Err((format!("\"{shown}\" is larger than 1 MB"), "is this a file of readings?".to_owned()));
    }
    Ok(text.strip_prefix('\u{feff}').map(str::to_owned).unwrap_or(text))
}

struct Lines<'r, 'p, 'f, 's> {
    ruler: &'r Ruler<'p>,
    file: &'r str,
    pointer: &'r str,
    find: &'f mut Finder<'s>,
}

impl Lines<'_, '_, '_, '_> {
    fn read(
        &mut self,
        text: &str,
        points: Option<Vec<String>>,
        master: Option<&str>,
    ) -> (Vec<String>, Vec<Option<Row>>) {
        let places: &Places = self.ruler.places;
        let axis = self.ruler.key.axis;
        let mut reader = csv::ReaderBuilder::new()
            .has_headers(false)
            .flexible(true)
            .trim(csv::Trim::All)
            .from_reader(text.as_bytes());
        let mut records = reader.records().filter_map(Result::ok);
        let header = records.next().unwrap_or_default();
        let mut found: Vec<Option<Row>> = vec![None; places.count(axis)];
        let named: Vec<String> = header.iter().skip(1).map(|p| clean(p, 40)).collect();
        if header.get(0) != Some("place") || named.is_empty() {
            let got = clean(text.lines().next().unwrap_or(""), 40);
            self.tell(
                text,
                1,
                0,
                &format!("the first line is \"{got}\""),
                "write place,top thrust,… : place, then the points",
            );
            return (points.unwrap_or_else(|| vec![String::new()]), found);
        }
        if let Some(wanted) = points.filter(|p| *p != named) {
            let help = format!("the sheet's points are {}", clean(&wanted.join(", "), 120));
            self.tell(text, 1, 1, "the points are not those of the sheet", &help);
        }
        let master = master.and_then(|m| Master::new(self.ruler.kind, m));
        for record in records {
            let line = record.position().map_or(1, csv::Position::line);
            if record.iter().all(str::is_empty) {
                continue;
            }
            let label = record.get(0).unwrap_or("");
            let Some(place) = places.labels(axis).iter().position(|l| l == label) else {
                let message = format!("there is no {} \"{}\"", noun(axis).0, clean(label, 40));
                self.tell(text, line, 0, &message, &known(places, axis, label));
                continue;
            };
            if record.len() > named.len() + 1 {
                let message = format!("{} values for {} points", record.len() - 1, named.len());
                self.tell(text, line, named.len() + 1, &message, "a value with a comma goes into double quotes");
            }
            let row = record.iter().enumerate().skip(1).take(named.len());
            let row: Row = row.map(|(column, cell)| self.cell(text, line, column, cell, master)).collect();
            match found.get_mut(place) {
                Some(slot @ None) => *slot = Some(row),
                _ => self.tell(
                    text,
                    line,
                    0,
                    &format!("{} \"{}\" stands twice", noun(axis).0, clean(label, 40)),
                    "keep one line a place",
                ),
            }
        }
        (named, found)
    }

    fn cell(&mut self, text: &str, line: u64, column: usize, cell: &str, master: Option<Master>) -> Reading {
        let pointer = self.pointer.to_owned();
        let tenths = master.and_then(|m| cell.parse::<i64>().ok().map(|n| m.off(n)));
        let kind = self.ruler.kind;
        let value = match (cell, tenths) {
            ("", _) => None,
            (_, Some(si)) => Some((si, None)),
            _ => match kind.parse(cell) {
                Ok(si) => Some((si, Some(cell))),
                Err(error) => {
                    let (message, help) = wrong_quantity("this", kind, cell, &error);
                    self.tell(text, line, column, &message, help.as_deref().unwrap_or(""));
                    None
                }
            },
        };
        let value = value.and_then(|(si, written)| {
            let fault = self.ruler.band.as_ref().and_then(|band| outside(band, || "this".to_owned(), si, written));
            match fault {
                None => Some(si),
                Some((message, help)) => {
                    self.tell(text, line, column, &message, help.as_deref().unwrap_or(""));
                    None
                }
            }
        });
        Reading { value, pointer }
    }

    fn tell(&mut self, text: &str, line: u64, column: usize, message: &str, help: &str) {
        let raw = text.lines().nth(usize::try_from(line.saturating_sub(1)).unwrap_or(0)).unwrap_or("");
        let at = thou_text::cell_column(raw, column);
        let message = format!("{} reads {}:{line}:{at}: {message}", field(self.pointer), clean(self.file, 80));
        self.find.at(self.pointer, message, Some(help.to_owned()).filter(|h| !h.is_empty()));
    }
}
