//! The reference of all fields, for people.

use super::check::only;
use super::tree::{Node, Sheet};
use std::fmt::Write as _;
use thou_contract::Kind;

/// What so many sections have that it is told once.
const ONCE: [&str; 3] = ["part", "card", "used"];

/// `schemas/fields.md`.
pub fn reference(sheet: &Sheet) -> String {
    let mut out = String::from(
        "# Fields of a build sheet\n\n\
         Written by `cargo run -p thou-fields --example generate` from `host/fields/data`: correct the entries there.\n\
         `thou fields NAME` tells more of one, with who reads it. A field that says *recorded only* is kept beside the\n\
         engine, and no page judges it.\n",
    );
    for (name, words, entries) in sheet.groups.iter().filter(|g| ONCE.contains(&g.0.as_str())) {
        let title = if name == "part" { "Every part" } else { "Every maker's card" };
        let _ = writeln!(out, "\n## {title}\n\n{words}\n\n| field | what it is |\n|---|---|");
        for entry in entries {
            let _ = writeln!(out, "| `{}` | {} |", entry.path, cell(entry.words.as_deref().unwrap_or_default()));
        }
    }
    for section in &sheet.sections {
        let head = &section.head;
        let _ = writeln!(out, "\n## {}\n\n{}", head.name, head.words);
        if head.name == "readings" {
            readings(sheet, &mut out);
            continue;
        }
        if let Some(of) = &head.list_of {
            let _ = writeln!(out, "\nA list, each row as [{of}](#{of}-each).");
            continue;
        }
        if let Some(of) = &head.by_name {
            let _ = writeln!(out, "\nBy name, each as [{of}](#{of}-each).");
            continue;
        }
        let mut nodes = Vec::new();
        section.nodes.iter().for_each(|n| n.walk(&mut nodes));
        fields(sheet, &nodes, &format!("{}.", head.name), &mut out);
    }
    for (row, nodes) in sheet.of_rows() {
        let _ = writeln!(out, "\n## {}, each\n\n{}", row.head.name, row.head.words);
        fields(sheet, &nodes, &format!("{}.", row.head.name), &mut out);
    }
    let _ = writeln!(out, "\n## Gauges\n\nOne standard uncertainty (k = 1); common practice, no source.\n");
    out.push_str("| gauge | what it is | shows | step | good for |\n|---|---|---|---|---|\n");
    for g in &sheet.gauges.gauge {
        let _ = writeln!(out, "| `{}` | {} | {} | {} | {} |", g.name, g.words, g.shows.join(", "), g.step, g.good_for);
    }
    out
}

fn fields(sheet: &Sheet, nodes: &[&Node], prefix: &str, out: &mut String) {
    out.push_str("\n| field | what it is | written as | possible | |\n|---|---|---|---|---|\n");
    let once = |n: &Node| n.shared.as_deref().is_some_and(|s| ONCE.contains(&s)) || n.key() == "notes";
    for node in nodes.iter().filter(|n| n.kind() != "section" && n.kind() != "row" && !once(n)) {
        let name = node.path.strip_prefix(prefix).unwrap_or(&node.path);
        let _ = writeln!(
            out,
            "| `{name}` | {} | {} | {} | {} |",
            cell(node.words()),
            cell(&written(sheet, node)),
            band(node),
            cell(&standing(node))
        );
    }
}

fn readings(sheet: &Sheet, out: &mut String) {
    out.push_str("\n| reading | what it is | read at | possible | usual gauge | stale after | |\n|---|---|---|---|---|---|---|\n");
    for node in &sheet.readings {
        let entry = &node.entry;
        let each = entry.each.as_deref().map_or("the engine".to_owned(), |e| format!("each {}", e.replace('-', " ")));
        let _ = writeln!(
            out,
            "| `{}` | {} | {each} | {} | {} | {} | {} |",
            node.key(),
            cell(node.words()),
            band(node),
            entry.gauge.as_deref().unwrap_or_default().replace('-', " "),
            entry.stale_after.join(", "),
            cell(&standing(node))
        );
    }
}

fn band(node: &Node) -> String {
    match &node.entry.band {
        Some([low, high]) if high.is_empty() => format!("{low} or more"),
        Some([low, high]) => format!("{low} to {high}"),
        None => String::new(),
    }
}

fn written(sheet: &Sheet, node: &Node) -> String {
    let of = node.entry.of.as_deref().unwrap_or_default();
    match node.kind() {
        "choice" | "gauge" => sheet.choices(node).iter().map(|w| format!("`{}`", w.0)).collect::<Vec<_>>().join(", "),
        "flag" => "true or false".to_owned(),
        "whole" | "count" => "a whole number".to_owned(),
        "list" => format!("a list, each row as {of}"),
        "by-name" => format!("by name, each as {of}"),
        "groups" => "lists of names".to_owned(),
        "names" => "a list of names".to_owned(),
        "numbers" => "a list of numbers".to_owned(),
        "constant" => format!("`{}`", node.entry.is.as_deref().unwrap_or_default()),
        kind => match Kind::by_id(kind) {
            Some(kind) => kind.noun().to_owned(),
            None => kind.replace('-', " "),
        },
    }
}

fn standing(node: &Node) -> String {
    let entry = &node.entry;
    let mut parts = Vec::new();
    if let Some((path, words)) = entry.only.as_deref().and_then(only) {
        parts.push(format!("Where {path} is {}.", words.join(" or ")));
    }
    if let Some(what) = &entry.read_by {
        parts.push(what.clone());
    }
    if entry.when_read {
        parts.push("Judged where it was read; nobody is asked for it.".to_owned());
    }
    if let Some(why) = &entry.recorded {
        parts.push(format!("*Recorded only*: {why}"));
    }
    parts.join(" ")
}

fn cell(text: &str) -> String {
    text.replace('|', "\\|")
}
