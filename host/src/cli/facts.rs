//! The catalogue of facts: what there is, what a sheet gives, and where one comes from.

use super::{Exit, Facts as Args, Format, Io, load};
use crate::facts::{Catalogue, Cell, FactInfo, Facts, Grade, ValueKind};
use crate::sheet::Sheet;
use crate::sheet::model::Axis;
use crate::verdict::view::{View, wanted};
use serde_json::{Value, json};
use std::fmt::Write as _;
use thou_contract::System;

pub(super) fn facts(args: &Args, io: &mut Io<'_>) -> Exit {
    let catalogue = Catalogue::standard();
    let sheet = match args.sheet.as_deref().map(|path| load::sheet(path, io)).transpose() {
        Ok(sheet) => sheet,
        Err(exit) => return exit,
    };
    let facts = sheet.as_ref().map(|s| Facts::new(catalogue, s));
    let shown = facts.as_ref().zip(sheet.as_ref());
    if let Some(name) = &args.name {
        let Some(info) = catalogue.info(name) else {
            io.complain(&unknown(catalogue, name));
            return Exit::INVALID;
        };
        match args.format {
            Format::Text => io.say(&one(info, shown, args.units.system())),
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
            io.say(&out);
        }
        Format::Json => {
            let list: Vec<Value> = catalogue.all().filter(|i| i.series.is_none()).map(|i| entry(i, shown)).collect();
            io.say(&format!("{:#}\n", json!({ "format": "thou-facts-1", "facts": list })));
        }
    }
    Exit::FINE
}

fn unknown(catalogue: &Catalogue, name: &str) -> String {
    let mut near: Vec<(f64, &str)> = catalogue.all().map(|i| (strsim::jaro_winkler(i.id, name), i.id)).collect();
    near.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(b.1)));
    let near: Vec<&str> = near.into_iter().filter(|n| n.0 > 0.8).take(3).map(|n| n.1).collect();
    let hint = if near.is_empty() {
        "`thou facts` lists them.".to_owned()
    } else {
        format!("Did you mean {}?", near.join(", or "))
    };
    format!("No fact is called \"{}\". {hint}", crate::packs::clean::clean(name))
}

type Shown<'a> = Option<(&'a Facts<'a>, &'a Sheet)>;

fn line(info: &FactInfo, shown: Shown<'_>, system: System) -> String {
    let kind = info.value.id();
    match shown {
        None => format!("{:<36} {kind:<22} {:<11} {}", info.id, info.axis.id(), info.about),
        Some((facts, sheet)) => format!("{:<36} {}", info.id, values(info, facts, sheet, system)),
    }
}

fn values(info: &FactInfo, facts: &Facts<'_>, sheet: &Sheet, system: System) -> String {
    if let Some(word) = facts.choice(info.id) {
        return word.to_owned();
    }
    let cells = facts.cells(info.id);
    let text: Vec<String> = cells.iter().map(|c| value(info, c, system)).collect();
    if info.axis == Axis::One || text.iter().all(|t| t == "-") {
        return text.into_iter().next().unwrap_or_else(|| "-".to_owned());
    }
    let labels = sheet.places.labels(info.axis);
    labels.iter().zip(text).map(|(l, t)| format!("{l}: {t}")).collect::<Vec<_>>().join("  ")
}

fn value(info: &FactInfo, cell: &Cell, system: System) -> String {
    let Ok(num) = cell else { return "-".to_owned() };
    let ValueKind::Quantity(kind) = info.value else {
        return if num.value > 0.5 { "yes" } else { "no" }.to_owned();
    };
    let grade = match num.grade() {
        Grade::Measured => "",
        Grade::Stated => " (stated)",
        Grade::Default => " (default)",
    };
    let u = num.uncertainty();
    if u > 0.0 && kind.id() != "temperature" {
        let digits = (0..4).find(|d| kind.number_with(2.0 * u, system, *d).parse() != Ok(0.0)).unwrap_or(4);
        let number = kind.number_with(num.value, system, digits);
        let unit = kind.print(system).unit;
        return format!("{number} ± {} {unit}{grade}", kind.number_with(2.0 * u, system, digits)).trim_end().to_owned();
    }
    format!("{}{grade}", kind.text(num.value, system))
}

fn one(info: &FactInfo, shown: Shown<'_>, system: System) -> String {
    let mut out = format!("{}   {}, one a {}\n", info.id, info.value.id(), crate::report::axis_noun(info.axis));
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
        let cells = facts.cells(info.id);
        let missing: std::collections::BTreeSet<String> =
            cells.iter().filter_map(|c| c.as_ref().err()).flatten().map(wanted).collect();
        if !missing.is_empty() {
            row("Missing", &missing.into_iter().collect::<Vec<_>>().join(", "));
        }
        if let Some(Ok(num)) = cells.iter().find(|c| c.is_ok()) {
            for (id, share) in num.roots.iter() {
                if let ValueKind::Quantity(kind) = info.value {
                    let root = facts.root(id);
                    let digits =
                        (0..5).find(|d| kind.number_with(share.cu, system, *d).parse() != Ok(0.0)).unwrap_or(5);
                    let cu = kind.number_with(share.cu.abs(), system, digits);
                    let unit = kind.print(system).unit;
                    let gauge = root.gauge.as_deref().map(|g| format!(", {g}")).unwrap_or_default();
                    row("Hangs on", &format!("{}{gauge}: gives it {cu} {unit} of uncertainty", root.what));
                }
            }
        }
    }
    out
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
                    Ok(n) => json!({ "place": label, "si": n.value, "standard-uncertainty": n.uncertainty(), "grade": format!("{:?}", n.grade()).to_lowercase() }),
                    Err(why) => json!({ "place": label, "missing": why.iter().map(wanted).collect::<Vec<_>>() }),
                }
            })
            .collect();
        object.insert("values".to_owned(), json!(values));
        object.insert("word".to_owned(), json!(word));
    }
    entry
}
