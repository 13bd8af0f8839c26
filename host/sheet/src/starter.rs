//! A sheet to start from: everything a build is usually judged on, still to fill in.

use super::fault::Finder;
use super::model::{Axis, Places, Source};
use super::places::places;
use serde_json::{Map, Value, json};
use std::collections::BTreeMap;
use thou_contract::USES;
use thou_fields::{Field, FieldValue as Written, JobStep, Points, ReadingField, Section};

const NOTES: &[&str] = &[
    "null is a place still to fill in; fields that do not apply may go.",
    "Every quantity is text with its unit: \"4.155 in\", \"2.8 thou\", \"0.07 mm\", \"65 psi\", \"7200 rpm\".",
    "A row may also be tenths off a master: \"master\": \"4.1550 in\" in the set, and \"1\": { \"tenths\": [0, 1, -1, 0, 0, 1] }.",
    "Say when, by whom and with which gauge (by its name under gauges) each set was read.",
];

/// The text of a starter sheet: every value a hole, the places of the engine written out. It is a valid sheet.
///
/// `cylinders` is held to 1 to 16; a `layout` that is not one, or cannot have that many cylinders, becomes `inline` or
/// `single`.
#[must_use]
pub fn starter(use_id: &str, cylinders: usize, layout: &str) -> String {
    let cylinders = cylinders.clamp(1, 16);
    let layout = match layout {
        "v" | "flat" if cylinders > 1 => layout,
        _ if cylinders > 1 => "inline",
        _ => "single",
    };
    let use_id = if use_id.trim().is_empty() { "street" } else { use_id };
    let asked = Asked { use_id, layout };

    let mut root = Map::new();
    root.insert("format".into(), json!("thou-build-1"));
    for section in thou_fields::sections() {
        let of_section = match section.name {
            "engine" => {
                let known = json!({ "name": "to fill in", "cylinders": cylinders, "layout": layout });
                Some(filled_in(asked.holes(thou_fields::fields(), section.name), known))
            }
            "intent" => Some(filled_in(asked.holes(thou_fields::fields(), section.name), json!({ "use": use_id }))),
            "gauges" => Some(asked.gauges()),
            "readings" => {
                let of_engine = Value::Object(root.clone());
                let (source, keys) = (Source::default(), BTreeMap::new());
                let places = places(&of_engine, &mut Finder::new(&source, &keys));
                let read = thou_fields::readings().iter().filter(|r| asked.has(&r.field));
                Some(Value::Object(read.map(|r| (r.name().to_owned(), asked.set(r, &places))).collect()))
            }
            _ => asked.starts_with(section),
        };
        if let Some(of_section) = of_section {
            root.insert(section.name.into(), of_section);
        }
    }
    let engine = thou_fields::section("engine").map(|s| format!("engine: {}", s.words));
    let notes = NOTES.iter().map(|note| (*note).to_owned()).chain(engine).chain(asked.in_order()).chain(asked.may_go());
    root.insert("notes".into(), notes.collect());
    let mut out = String::new();
    write(&Value::Object(root), 0, &mut out);
    out.push('\n');
    out
}

/// What a starter was asked for.
#[derive(Clone, Copy)]
struct Asked<'a> {
    use_id: &'a str,
    layout: &'a str,
}

impl Asked<'_> {
    /// What is known of a field already; of a use that a pack brings nobody knows here what matters for it.
    fn known(&self, path: &str) -> Option<&str> {
        match path {
            "engine.layout" => Some(self.layout),
            "intent.use" => Some(self.use_id).filter(|word| USES.contains(word)),
            _ => None,
        }
    }

    /// Whether a starter has this field, and it matters for the engine that was asked for.
    fn has(&self, field: &Field) -> bool {
        let matters = field.only.is_none_or(|o| self.known(o.path).is_none_or(|word| o.words.contains(&word)));
        field.starter && matters
    }

    /// What a section begins with: a hole for each of its fields that a starter has; nothing where it has none.
    fn starts_with(&self, section: &Section) -> Option<Value> {
        if section.rows.is_some() {
            return section.starter.then(|| if section.by_name { json!({}) } else { json!([]) });
        }
        let holes = self.holes(thou_fields::fields(), section.name);
        holes.as_object().is_some_and(|o| !o.is_empty()).then_some(holes)
    }

    /// A null at the path of each field of a starter below `within`, a dotted path.
    fn holes(&self, fields: &[Field], within: &str) -> Value {
        let mut root = Map::new();
        for field in fields.iter().filter(|f| self.has(f)) {
            let below = field.path.strip_prefix(within).and_then(|rest| rest.strip_prefix('.'));
            let empty = match field.value {
                Written::ByName(_) => json!({}),
                _ => Value::Null,
            };
            if let Some(path) = below {
                hole(&mut root, path, empty);
            }
        }
        Value::Object(root)
    }

    /// Three gauges that every shop has.
    fn gauges(&self) -> Value {
        let fields = thou_fields::rows_of("gauge").map_or(&[][..], |r| r.fields);
        let gauge = |kind: &str| filled_in(self.holes(fields, "gauge"), json!({ "kind": kind }));
        json!({
            "micrometer": gauge("outside-micrometer"),
            "bore gauge": gauge("bore-gauge"),
            "feelers": gauge("feeler"),
        })
    }

    fn set(&self, reading: &ReadingField, places: &Places) -> Value {
        let fields = thou_fields::rows_of("set").map_or(&[][..], |r| r.fields);
        let holes = self.holes(fields, "set");
        if reading.axis == Axis::One {
            return filled_in(holes, json!({ "value": null }));
        }
        let row = match reading.points {
            Points::One => Value::Null,
            points => Value::Array(vec![Value::Null; points.names().len()]),
        };
        let rows: Map<String, Value> =
            places.labels(reading.axis).iter().map(|label| (label.clone(), row.clone())).collect();
        filled_in(holes, json!({ "at": rows }))
    }

    /// Its fields and readings.
    fn fields(&self) -> impl Iterator<Item = &'static Field> {
        let readings = thou_fields::readings().iter().map(|r| &r.field);
        thou_fields::fields().iter().chain(readings).filter(move |f| self.has(f))
    }

    /// What is filled in at each step of the job, a note a step: sections, and readings by their names.
    fn in_order(&self) -> Vec<String> {
        let at = |step: JobStep| {
            let mut names: Vec<&str> = Vec::new();
            for field in self.fields().filter(|f| f.step == step) {
                let name = field.path.strip_prefix("readings.").unwrap_or_else(|| field.section());
                if !names.contains(&name) {
                    names.push(name);
                }
            }
            (!names.is_empty()).then(|| format!("{}: {}", step.words(), names.join(", ")))
        };
        JobStep::ALL.into_iter().filter_map(at).map(|note| format!("To fill in {note}.")).collect()
    }

    /// What matters in some engines alone, and may go in the others.
    fn may_go(&self) -> Vec<String> {
        let mut by_reason: Vec<(String, Vec<&str>)> = Vec::new();
        for field in self.fields() {
            let Some(only) = field.only.filter(|o| self.known(o.path).is_none()) else { continue };
            let reason = format!("{} is {}", only.path, only.words.join(" or "));
            match by_reason.iter_mut().find(|(known, _)| *known == reason) {
                Some((_, fields)) => fields.push(field.path),
                None => by_reason.push((reason, vec![field.path])),
            }
        }
        by_reason.into_iter().map(|(reason, fields)| format!("Only where {reason}: {}.", fields.join(", "))).collect()
    }
}

fn hole(at: &mut Map<String, Value>, path: &str, empty: Value) {
    match path.split_once('.') {
        None => {
            at.insert(path.to_owned(), empty);
        }
        Some((first, rest)) => {
            let inner = at.entry(first.to_owned()).or_insert_with(|| Value::Object(Map::new()));
            if let Some(inner) = inner.as_object_mut() {
                hole(inner, rest, empty);
            }
        }
    }
}

/// The holes with what is known already.
fn filled_in(mut holes: Value, known: Value) -> Value {
    if let (Some(holes), Value::Object(known)) = (holes.as_object_mut(), known) {
        holes.extend(known);
    }
    holes
}

/// JSON as a person would lay it out: what fits stands on one line, sections never do.
fn write(value: &Value, indent: usize, out: &mut String) {
    let flat = flat(value);
    let nested = match value {
        Value::Object(o) => indent < 2 && !o.is_empty() || o.values().any(|v| v.is_object() || v.is_array()),
        Value::Array(a) => a.iter().any(|v| v.is_object() || v.is_array()),
        _ => false,
    };
    if !nested && indent + flat.chars().count() <= 110 {
        out.push_str(&flat);
        return;
    }
    let pad = " ".repeat(indent + 2);
    let mut first = true;
    let mut next = |out: &mut String| {
        out.push_str(if first { "\n" } else { ",\n" });
        out.push_str(&pad);
        first = false;
    };
    match value {
        Value::Object(object) => {
            out.push('{');
            for (key, child) in object {
                next(out);
                out.push_str(&format!("{}: ", Value::String(key.clone())));
                write(child, indent + 2, out);
            }
            out.push_str(&format!("\n{}}}", " ".repeat(indent)));
        }
        Value::Array(list) => {
            out.push('[');
            for child in list {
                next(out);
                write(child, indent + 2, out);
            }
            out.push_str(&format!("\n{}]", " ".repeat(indent)));
        }
        _ => out.push_str(&flat),
    }
}

fn flat(value: &Value) -> String {
    match value {
        Value::Object(o) if !o.is_empty() => {
            let parts: Vec<String> =
                o.iter().map(|(k, v)| format!("{}: {}", Value::String(k.clone()), flat(v))).collect();
            format!("{{ {} }}", parts.join(", "))
        }
        Value::Array(a) => format!("[{}]", a.iter().map(flat).collect::<Vec<_>>().join(", ")),
        other => other.to_string(),
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, clippy::indexing_slicing)]
    use super::*;
    use crate::Sheet;
    use std::path::Path;

    #[test]
    fn a_starter_is_a_valid_sheet_for_every_engine() {
        for layout in ["single", "inline", "v", "flat", "nonsense"] {
            for cylinders in [0, 1, 2, 3, 4, 5, 6, 8, 10, 12, 16, 99] {
                let text = starter("bracket", cylinders, layout);
                let sheet = Sheet::parse("new.json", &text, Path::new("")).map_err(|f| f.to_string()).unwrap();
                assert_eq!(sheet.places.count(Axis::Cylinder), cylinders.clamp(1, 16));
                let bore = sheet.readings.get("bore").unwrap().first().unwrap();
                assert_eq!(bore.rows.len(), cylinders.clamp(1, 16));
                assert!(bore.rows.iter().flatten().all(|r| r.value.is_none()));
            }
        }
    }

    #[test]
    fn a_starter_has_what_matters_for_its_use() {
        let of = |use_id: &str| -> Value { serde_json::from_str(&starter(use_id, 8, "v")).unwrap() };
        let has = |sheet: &Value, field: &str| sheet["intent"].get(field).is_some();
        let (street, bracket, marine) = (of("street"), of("bracket"), of("marine"));
        assert!(has(&street, "miles-a-year") && !has(&street, "passes-a-season"));
        assert!(has(&bracket, "passes-a-season") && !has(&bracket, "miles-a-year"));
        // a use that a pack brings: nobody knows
        assert!(has(&marine, "passes-a-season") && has(&marine, "miles-a-year"));
    }

    #[test]
    fn a_starter_says_what_comes_when_and_what_may_go() {
        let sheet: Value = serde_json::from_str(&starter("bracket", 8, "v")).unwrap();
        let notes: Vec<&str> = sheet["notes"].as_array().unwrap().iter().map(|n| n.as_str().unwrap()).collect();
        let first = |text: &str| notes.iter().position(|n| n.starts_with(text)).unwrap();
        assert_eq!(
            notes[first("To fill in when the engine is ordered")],
            "To fill in when the engine is ordered: engine, intent, shop."
        );
        assert!(first("To fill in when its parts are chosen: block, ") < first("To fill in as the metal is cut"));
        let cut = notes[first("To fill in as the metal is cut and measured")];
        assert!(cut.contains("bore, ") && !cut.contains("lash-cold"), "{cut}");
        assert_eq!(
            notes[first("Only where oil.sump")],
            "Only where oil.sump is wet: oil.pickup, readings.pickup-to-pan."
        );
        assert!(!notes.iter().any(|n| n.starts_with("Only where intent.use")), "{notes:?}");
    }

    #[test]
    fn a_starter_reads_like_a_sheet() {
        let text = starter("bracket", 2, "inline");
        let top: Vec<&str> = text.lines().take(12).collect();
        assert_eq!(
            top,
            [
                "{",
                "  \"format\": \"thou-build-1\",",
                "  \"engine\": {",
                "    \"name\": \"to fill in\",",
                "    \"cylinders\": 2,",
                "    \"layout\": \"inline\",",
                "    \"serial\": null,",
                "    \"job\": null,",
                "    \"date\": null,",
                "    \"measured-by\": null,",
                "    \"assembled-by\": null",
                "  },",
            ]
        );
        assert!(text.contains("        \"1\": [null, null, null, null, null, null],\n"), "{text}");
        assert!(text.contains("      \"at\": { \"1I\": null, \"1E\": null, \"2I\": null, \"2E\": null }"), "{text}");
    }
}
