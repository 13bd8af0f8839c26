//! The catalogue of facts: what there is, what a sheet gives, and where one comes from.

use super::io::{Exit, Io};
use super::load;
use super::options::{Format, Units, WhatIf};
use crate::facts::{Catalogue, FactInfo, Figure, Grade, PlaceValue, SheetFacts, ValueKind};
use crate::report;
use crate::sheet::Sheet;
use crate::sheet::model::Axis;
use crate::verdict::view::wanted;
use serde_json::{Value, json};
use std::fmt::Write as _;
use std::path::{Path, PathBuf};
use thou_contract::System;
use thou_text::nearest_few;

#[derive(Debug, clap::Args)]
pub(super) struct FactsArgs {
    /// One fact, to be told where it comes from
    name: Option<String>,
    /// Show the values that this sheet gives
    #[arg(long, value_name = "FILE")]
    sheet: Option<PathBuf>,
    #[command(flatten)]
    what_if: WhatIf,
    /// The units to print in
    #[arg(long, value_enum, default_value_t = Units::In)]
    units: Units,
    /// Text for people or JSON for programs
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

impl FactsArgs {
    /// Whether it prints text, and not JSON for programs.
    pub(super) fn for_people(&self) -> bool {
        matches!(self.format, Format::Text)
    }
}

pub(super) fn facts(args: &FactsArgs, io: &mut Io<'_>) -> Exit {
    let catalogue = Catalogue::standard();
    if args.sheet.is_none() && !args.what_if.assignments.is_empty() {
        io.complain("--set changes a sheet: name it with --sheet FILE");
        return Exit::INVALID;
    }
    let read = |path: &Path, io: &mut Io<'_>| load::what_if(load::sheet(path, io)?, &args.what_if, io);
    let sheet = match args.sheet.as_deref().map(|path| read(path, io)).transpose() {
        Ok(sheet) => sheet,
        Err(exit) => return exit,
    };
    let facts = sheet.as_ref().map(|s| SheetFacts::new(catalogue, s));
    let shown = facts.as_ref().zip(sheet.as_ref());
    let changed = sheet.as_ref().map(report::what_if).unwrap_or_default();
    if let Some(name) = &args.name {
        let Some(info) = catalogue.info(name) else {
            io.complain(&unknown(catalogue, name));
            return Exit::INVALID;
        };
        match args.format {
            Format::Text => io.say(&(one(info, shown, args.units.system()) + &changed)),
            Format::Json => io.say(&format!("{:#}\n", entry(info, shown))),
        }
        return Exit::FINE;
    }
    match args.format {
        Format::Text => {
            let mut out = String::new();
            let mut count = 0;
            for info in catalogue.all().filter(|i| i.series.is_none()) {
                count += 1;
                let _ = writeln!(out, "{}", line(info, shown, args.units.system()));
            }
            let _ = writeln!(
                out,
                "\n{count} facts; of a series also .min, .max, .spread and .mean. Where one comes from: thou facts NAME"
            );
            io.say(&(out + &changed));
        }
        Format::Json => {
            let list: Vec<Value> = catalogue.all().filter(|i| i.series.is_none()).map(|i| entry(i, shown)).collect();
            io.say(&format!(
                "{:#}\n",
                json!({ "format": "thou-facts-1", "defers": crate::report::DEFERS, "facts": list })
            ));
        }
    }
    Exit::FINE
}

/// That no fact has this name, with those that are near it.
pub(super) fn unknown(catalogue: &Catalogue, name: &str) -> String {
    let near = nearest_few(name, catalogue.all().filter(|i| i.series.is_none()).map(|i| i.id), 3);
    let hint = if near.is_empty() {
        "`thou facts` lists them.".to_owned()
    } else {
        format!("Did you mean {}?", near.join(", or "))
    };
    format!("No fact is called \"{}\". {hint}", crate::packs::clean::clean(name))
}

type Shown<'a> = Option<(&'a SheetFacts<'a>, &'a Sheet)>;

/// Columns that a fact's name takes in the list.
const NAME: usize = 34;

fn line(info: &FactInfo, shown: Shown<'_>, system: System) -> String {
    let text = match shown {
        None => {
            let about = info.about.trim_end_matches('.');
            format!("{about} ({}{})", info.value.id(), each(info.axis))
        }
        Some((facts, sheet)) => values(info, facts, sheet, system),
    };
    let first = format!("{:<NAME$} ", info.id);
    let rest = " ".repeat(NAME + 1);
    textwrap::fill(&text, textwrap::Options::new(80).initial_indent(&first).subsequent_indent(&rest))
}

/// ", one a cylinder"; nothing for what an engine has once.
fn each(axis: Axis) -> String {
    if axis == Axis::One { String::new() } else { format!(", one a {}", crate::report::axis_noun(axis)) }
}

/// The values at every place; what is alike is told together, and how well they are known is told once.
fn values(info: &FactInfo, facts: &SheetFacts<'_>, sheet: &Sheet, system: System) -> String {
    if let Some(word) = facts.choice(info.id) {
        return word.to_owned();
    }
    let labels = sheet.places.labels(info.axis);
    let mut told: Vec<(String, Vec<&str>)> = Vec::new();
    for (cell, label) in facts.cells(info.id).iter().zip(labels) {
        let text = value(info, cell, system);
        match told.iter_mut().find(|(t, _)| *t == text) {
            Some((_, at)) => at.push(label),
            None => told.push((text, vec![label])),
        }
    }
    let grade = match facts.cells(info.id).iter().flatten().map(crate::facts::Num::grade).max() {
        Some(Grade::Stated) => " (stated)",
        Some(Grade::Default) => " (taken, not stated)",
        _ => "",
    };
    match told.as_slice() {
        [] => "-".to_owned(),
        [(text, _)] => format!("{text}{grade}"),
        several => {
            let list: Vec<String> = several.iter().map(|(text, at)| format!("{}: {text}", at.join(" "))).collect();
            format!("{}{grade}", list.join(", "))
        }
    }
}

/// A number known to an uncertainty of 95 %.
fn value(info: &FactInfo, cell: &PlaceValue, system: System) -> String {
    let Ok(num) = cell else { return "-".to_owned() };
    let ValueKind::Quantity(kind) = info.value else {
        return if num.value > 0.5 { "yes" } else { "no" }.to_owned();
    };
    let figure = Figure::of(info.id, kind, system);
    if let Some(bound) = num.bound {
        return figure.bounded(info.id, num.value, bound, 0);
    }
    // a temperature is told to the degree
    if kind.id() == "temperature" {
        return figure.text(num.value);
    }
    match figure.known(num.value, 2.0 * num.uncertainty()) {
        (_, None) => figure.text(num.value),
        (number, Some(expanded)) => format!("{number} ± {expanded} {}", figure.unit()).trim_end().to_owned(),
    }
}

fn one(info: &FactInfo, shown: Shown<'_>, system: System) -> String {
    let mut out = format!("{}   {}{}\n", info.id, info.value.id(), each(info.axis));
    let mut row = |word: &str, text: &str| {
        let first = format!("{word:<9}");
        let options = textwrap::Options::new(80).initial_indent(&first).subsequent_indent("         ");
        let _ = writeln!(out, "{}", textwrap::fill(text, options));
    };
    row("What", info.about);
    row("Source", info.source);
    if let Some(path) = info.path {
        row("Written", path);
    }
    if let Some(path) = info.fallback {
        row("Or", path);
    }
    if !info.needs.is_empty() {
        row("From", &info.needs.join(", "));
    }
    if let ValueKind::Choice(words) = info.value {
        row("One of", &words.join(", "));
    }
    if let Some((facts, sheet)) = shown {
        row("Value", &values(info, facts, sheet, system));
        let taken = facts.defaults_taken().into_iter().find(|t| t.fact == info.id && t.source != info.source);
        if let Some(taken) = taken {
            row("Taken", &format!("a usual figure; {}", taken.source));
        }
        let cells = facts.cells(info.id);
        let missing: std::collections::BTreeSet<String> =
            cells.iter().filter_map(|c| c.as_ref().err()).flatten().map(wanted).collect();
        if !missing.is_empty() {
            row("Missing", &missing.into_iter().collect::<Vec<_>>().join(", "));
        }
        let known = cells.iter().zip(sheet.places.labels(info.axis)).find_map(|(c, l)| Some((c.as_ref().ok()?, l)));
        if let (Some((num, label)), ValueKind::Quantity(kind)) = (known, info.value) {
            let place = if info.axis == Axis::One { String::new() } else { format!(" at {label}") };
            for line in hangs_on(facts, num, Figure::of(info.id, kind, system)) {
                row("Hangs on", &line.replacen('\u{1}', &place, 1));
            }
        }
    }
    out
}

/// What a value's uncertainty comes from, the heaviest first; k = 1.
fn hangs_on(facts: &SheetFacts<'_>, num: &crate::facts::Num, figure: Figure) -> Vec<String> {
    let mut shares: Vec<_> = num.roots.iter().collect();
    shares.sort_by(|a, b| b.1.cu.abs().total_cmp(&a.1.cu.abs()));
    let mut none = Vec::new();
    let mut lines = Vec::new();
    for (id, share) in shares {
        let root = facts.root(id);
        let cu = share.cu.abs();
        let Some(digits) = (0..3).find(|d| figure.number_with(cu, *d).parse() != Ok(0.0)) else {
            none.push(root.what.clone());
            continue;
        };
        let number = format!("{} {}", figure.number_with(cu, digits), figure.unit());
        let gauge = root.gauge.as_deref().map(|g| format!(", {g}")).unwrap_or_default();
        lines.push(format!("{}{gauge}: standard uncertainty {}\u{1}", root.what, number.trim_end()));
    }
    if !none.is_empty() {
        lines.push(format!("{}: none worth a figure", none.join(", ")));
    }
    lines
}

fn entry(info: &FactInfo, shown: Shown<'_>) -> Value {
    let mut entry = json!({
        "id": info.id, "kind": info.value.id(), "axis": info.axis.id(), "about": info.about, "source": info.source,
        "needs": info.needs, "measured": info.measured, "path": info.path, "fallback": info.fallback,
    });
    if let (Some((facts, sheet)), Some(object)) = (shown, entry.as_object_mut()) {
        let labels = sheet.places.labels(info.axis);
        let word = facts.choice(info.id);
        let values: Vec<Value> = facts
            .cells(info.id)
            .iter()
            .enumerate()
            .map(|(i, c)| {
                let label = labels.get(i).map_or("", String::as_str);
                match c {
                    Ok(n) => json!({ "place": label, "si": n.value, "standard-uncertainty": n.uncertainty(), "grade": format!("{:?}", n.grade()).to_lowercase(), "bound": n.bound.map(crate::facts::Bound::id) }),
                    Err(why) => json!({ "place": label, "missing": why.iter().map(wanted).collect::<Vec<_>>() }),
                }
            })
            .collect();
        object.insert("values".to_owned(), json!(values));
        object.insert("word".to_owned(), json!(word));
    }
    entry
}
