//! The tables in code: an entry a line, and on it only what is not as usual.

use super::check::{factor, only};
use super::entry::Usual;
use super::tree::{Node, Sheet};
use std::fmt::Write as _;
use thou_contract::Kind;
use thou_fields::{Axis, JobStep, Points};

/// `src/generated.rs`.
pub fn tables(sheet: &Sheet) -> String {
    let fields = sheet.fields();
    let mut out = String::from(
        "//! Written by `cargo run -p thou-fields --example generate` from the entries in data/: correct those.\n\n\
         use crate::field::{Field, FieldValue, JobStep, Rows, Section, alone, beside, made_in, unit, word};\n\
         use crate::gauge::GaugeKind;\n\
         use crate::reading::{Axis, Points, ReadingField, after, agrees, by};\n\n",
    );
    let _ = writeln!(out, "pub(crate) const MASTER: &str = {:?};\n", sheet.gauges.master);

    out.push_str("pub(crate) static SECTIONS: &[Section] = &[\n");
    for section in &sheet.sections {
        let head = &section.head;
        let _ = write!(out, "    Section::new({:?}, {:?})", head.name, head.words);
        for (yes, word) in [(head.part, "part"), (head.work, "work"), (head.starter, "starter")] {
            if yes {
                let _ = write!(out, ".{word}()");
            }
        }
        for (rows, word) in [(&head.list_of, "list_of"), (&head.by_name, "by_name")] {
            if let Some(rows) = rows {
                let _ = write!(out, ".{word}({rows:?})");
            }
        }
        out.push_str(",\n");
    }
    out.push_str("];\n\n");

    out.push_str("pub(crate) static FIELDS: &[Field] = &[\n");
    for node in &fields {
        let _ = writeln!(out, "    {},", field(sheet, node, &fields));
    }
    out.push_str("];\n\n");

    out.push_str("pub(crate) static READINGS: &[ReadingField] = &[\n");
    let readings: Vec<&Node> = sheet.readings.iter().collect();
    for node in &sheet.readings {
        let entry = &node.entry;
        let axis = entry.each.as_deref().and_then(Axis::by_id).unwrap_or(Axis::One);
        let points = Points::ALL.into_iter().find(|p| Some(p.id()) == entry.points.as_deref()).unwrap_or(Points::One);
        let gauge = entry.gauge.as_deref().unwrap_or_default();
        let _ = write!(
            out,
            "    ReadingField::new({}, Axis::{axis:?}, Points::{points:?}, {gauge:?})",
            field(sheet, node, &readings)
        );
        if let Some(path) = &entry.grows_with {
            let _ = write!(out, ".grows_with({path:?})");
        }
        let agrees: Vec<String> = entry
            .agrees_with
            .iter()
            .map(|a| format!("agrees({:?}, {:?}, {:?})", a.field, a.less.as_deref().unwrap_or_default(), a.within))
            .collect();
        if !agrees.is_empty() {
            let _ = write!(out, ".agrees_with(&[{}])", agrees.join(", "));
        }
        let moved: Vec<String> = entry.stale_after.iter().map(|work| moved(node, work)).collect();
        let _ = write!(out, ".moved_by(&[{}])", moved.join(", "));
        out.push_str(if entry.when_read { ".when_read(),\n" } else { ",\n" });
    }
    out.push_str("];\n\n");

    out.push_str("pub(crate) static ROWS: &[Rows] = &[\n");
    for (section, nodes) in sheet.of_rows() {
        let _ = writeln!(out, "    Rows {{ name: {:?}, words: {:?}, fields: &[", section.head.name, section.head.words);
        for node in &nodes {
            let _ = writeln!(out, "        {},", field(sheet, node, &nodes));
        }
        out.push_str("    ] },\n");
    }
    out.push_str("];\n\n");

    out.push_str("pub(crate) static GAUGES: &[GaugeKind] = &[\n");
    for gauge in &sheet.gauges.gauge {
        let _ = writeln!(
            out,
            "    GaugeKind {{ name: {:?}, words: {:?}, kinds: &{:?}, step: {:?}, good_for: {:?}, in_percent: {}, compares: {} }},",
            gauge.name, gauge.words, gauge.shows, gauge.step, gauge.good_for, gauge.in_percent, gauge.compares
        );
    }
    out.push_str("];\n");
    out
}

fn moved(node: &Node, work: &str) -> String {
    let by = node.entry.moves_by.get(work).and_then(toml::Value::as_str).and_then(factor);
    match by {
        Some(by) => format!("by({work:?}, {by})"),
        None => format!("after({work:?})"),
    }
}

fn field(sheet: &Sheet, node: &Node, all: &[&Node]) -> String {
    let entry = &node.entry;
    let step = JobStep::ALL.into_iter().find(|s| s.id() == node.step).unwrap_or(JobStep::Parts);
    let mut out = format!("Field::new({:?}, {:?}, {}, JobStep::{step:?})", node.path, node.words(), value(sheet, node));
    if let Some([low, high]) = &entry.band {
        let _ = write!(out, ".band({low:?}, {high:?})");
    }
    if let Some(p) = &entry.prints {
        let unit = |(unit, decimals): &(String, usize)| format!("unit({unit:?}, {decimals})");
        let _ = write!(out, ".prints({}, {}, {})", unit(&p.inch), unit(&p.metric), p.halves);
    }
    if let Some(high) = node.path.strip_suffix("-low").map(|p| format!("{p}-high"))
        && all.iter().any(|n| n.path == high && n.kind() == node.kind())
    {
        let _ = write!(out, ".below({high:?})");
    }
    if entry.starter {
        out.push_str(".starter()");
    }
    if let Some((path, words)) = entry.only.as_deref().and_then(only) {
        let _ = write!(out, ".only({path:?}, &{words:?})");
    }
    let usual: Vec<String> = entry.usual.iter().map(usual).collect();
    if !usual.is_empty() {
        let _ = write!(out, ".usual(&[{}])", usual.join(", "));
    }
    if let Some(words) = &entry.disturbs {
        let _ = write!(out, ".disturbs({words:?})");
    }
    if entry.cuts_metal {
        out.push_str(".cuts_metal()");
    }
    if let Some(what) = &entry.read_by {
        let _ = write!(out, ".program({what:?})");
    }
    if let Some(why) = &entry.recorded {
        let _ = write!(out, ".recorded({why:?})");
    }
    out
}

fn usual(entry: &Usual) -> String {
    let (from, until) = (&entry.from, &entry.until);
    let mut out = match &entry.of {
        None if !entry.sizes.is_empty() => format!("made_in(&{:?}, {:?})", entry.sizes, entry.within),
        Some(of) => format!("beside({of:?}, {}, {from:?}, {until:?})", entry.power),
        None => format!("alone({from:?}, {until:?})"),
    };
    if let Some((path, words)) = entry.only.as_deref().and_then(only) {
        let _ = write!(out, ".only({path:?}, &{words:?})");
    }
    out
}

fn value(sheet: &Sheet, node: &Node) -> String {
    let of = node.entry.of.as_deref().unwrap_or_default();
    match node.kind() {
        "choice" | "gauge" => {
            let words: Vec<String> =
                sheet.choices(node).iter().map(|(word, words)| format!("word({word:?}, {words:?})")).collect();
            format!("FieldValue::Choice(&[{}])", words.join(", "))
        }
        "constant" => format!("FieldValue::Constant({:?})", node.entry.is.as_deref().unwrap_or_default()),
        "list" => format!("FieldValue::List({of:?})"),
        "by-name" => format!("FieldValue::ByName({of:?})"),
        "section" | "row" => "FieldValue::Section".to_owned(),
        "flag" => "FieldValue::Flag".to_owned(),
        "day" => "FieldValue::Day".to_owned(),
        "whole" => "FieldValue::Whole".to_owned(),
        "number" => "FieldValue::Number".to_owned(),
        "numbers" => "FieldValue::Numbers".to_owned(),
        "names" => "FieldValue::Names".to_owned(),
        "groups" => "FieldValue::Groups".to_owned(),
        "notes" => "FieldValue::Notes".to_owned(),
        "lift-table" => "FieldValue::LiftTable".to_owned(),
        "extra" => "FieldValue::Extra".to_owned(),
        "master" | "places" | "value" => "FieldValue::Read".to_owned(),
        kind if Kind::by_id(kind).is_some() => format!("FieldValue::Quantity({kind:?})"),
        _ => "FieldValue::Text".to_owned(),
    }
}
