//! Places to write a reading in, with the names that the sheet has for them, each reading once.

use super::bench::{Bench, WIDTH, noun, wrap};
use std::collections::BTreeSet;
use std::fmt::Write as _;
use thou_fields::Points;
use thou_sheet::model::Axis;

/// The readings that have their blanks already.
#[derive(Debug, Default)]
pub(super) struct Blanks {
    given: BTreeSet<String>,
}

impl Blanks {
    /// Whether a fact is read by a gauge, and its reading has no blank yet; it has one from now on.
    pub(super) fn takes(&mut self, bench: &Bench<'_>, fact: &str) -> bool {
        key(bench, fact).is_some_and(|key| self.given.insert(key.to_owned()))
    }
}

fn key<'a>(bench: &'a Bench<'_>, fact: &str) -> Option<&'a str> {
    let path = bench.facts.info(fact).filter(|i| i.measured)?.path?;
    // a field that a pack asks for stands under its whole name
    path.strip_prefix("readings.").or_else(|| bench.sheet.pack_fields.contains_key(path).then_some(path))
}

/// Whether a fact has a reading of its own.
pub(super) fn is_read(bench: &Bench<'_>, fact: &str) -> bool {
    key(bench, fact).is_some()
}

/// A blank a place; where a place is read at several points, as many as there are. A reading that goes by another name
/// than the line above it is named.
pub(super) fn print(
    bench: &Bench<'_>,
    named: Option<&str>,
    fact: &str,
    axis: Axis,
    places: &[usize],
    out: &mut String,
) {
    let points = key(bench, fact).and_then(thou_fields::reading).map_or(Points::One, |k| k.points).names();
    let at = bench.facts.info(fact).map_or(axis, |i| i.axis);
    // what is shared, as the pin of two rods, is read once
    let mut labels: Vec<&str> = Vec::new();
    for place in places {
        let Some(own) = bench.sheet.places.project(at, axis, *place) else { continue };
        let label = bench.label(Some((at, own)));
        if !labels.contains(&label) {
            labels.push(label);
        }
    }
    let several = points.len() > 1;
    let name = named.map(|n| n.replace(['.', '-'], " "));
    let words = match (name, several) {
        (Some(name), true) => format!("{name}, read {}:", points.join(", ")),
        (None, true) => format!("{}, read {}:", noun(at), points.join(", ")),
        (Some(name), false) => format!("{name}, read:"),
        (None, false) => String::new(),
    };
    if !words.is_empty() {
        out.push_str(&wrap(&words, "      ", "      "));
    }
    let (blank, count) = if several { ("____", points.len()) } else { ("_____", 1) };
    let mut line = String::from("    ");
    for label in labels {
        let cell = format!(" {label:>2} {}", vec![blank; count].join(" "));
        if line.len() + cell.len() > WIDTH {
            let _ = writeln!(out, "{line}");
            line = String::from("    ");
        }
        line.push_str(&cell);
    }
    if !line.trim().is_empty() {
        let _ = writeln!(out, "{line}");
    }
}
