//! What is wrong with the entries, in words for whoever wrote them.

use super::tree::{Node, Section, Sheet};
use std::collections::BTreeSet;
use thou_contract::Kind;
use thou_fields::{Axis, JobStep, Points, STEEL};

/// Kinds of entry that are no quantity.
const PLAIN: [&str; 22] = [
    "address",
    "by-name",
    "choice",
    "constant",
    "day",
    "end",
    "extra",
    "flag",
    "gauge",
    "groups",
    "lift-table",
    "list",
    "master",
    "names",
    "notes",
    "number",
    "numbers",
    "places",
    "row",
    "rule",
    "section",
    "text",
];

/// Everything that is wrong.
pub fn faults(sheet: &Sheet) -> Vec<String> {
    let mut out = Vec::new();
    let fields = sheet.fields();
    let of_rows = sheet.of_rows();
    let all: Vec<&Node> = fields.iter().copied().chain(of_rows.iter().flat_map(|r| r.1.iter().copied())).collect();
    let mut seen = BTreeSet::new();
    for node in all.iter().copied().chain(&sheet.readings) {
        if !seen.insert(node.path.as_str()) {
            out.push(format!("{} stands twice", node.path));
        }
        each(sheet, node, &all, &mut out);
    }
    for node in &sheet.readings {
        reading(sheet, node, &fields, &mut out);
    }
    for gauge in &sheet.gauges.gauge {
        let kinds: Vec<Option<Kind>> = gauge.shows.iter().map(|id| Kind::by_id(id)).collect();
        let Some(Some(first)) = kinds.first().copied() else {
            out.push(format!("gauge {}: shows no kind of quantity", gauge.name));
            continue;
        };
        if kinds.contains(&None) {
            out.push(format!("gauge {}: one of {:?} is no kind of quantity", gauge.name, gauge.shows));
        }
        if first.parse(&gauge.step).is_err() {
            out.push(format!("gauge {}: {} is no step of {}", gauge.name, gauge.step, first.noun()));
        }
        let share = Kind::by_id("percent").is_some_and(|p| p.parse(&gauge.good_for).is_ok());
        if first.parse(&gauge.good_for).is_err() && !share {
            out.push(format!("gauge {}: {} is neither {} nor a share", gauge.name, gauge.good_for, first.noun()));
        }
    }
    out
}

fn each(sheet: &Sheet, node: &Node, fields: &[&Node], out: &mut Vec<String>) {
    let mut say = |what: String| out.push(format!("{}: {what}", node.path));
    let entry = &node.entry;
    let kind = node.kind();
    let quantity = Kind::by_id(kind).filter(|_| !PLAIN.contains(&kind));
    if quantity.is_none() && !PLAIN.contains(&kind) && !matches!(kind, "value" | "whole") {
        say(format!("there is no kind \"{kind}\""));
    }
    if node.words().is_empty() {
        say("no words".to_owned());
    }
    if !JobStep::ALL.iter().any(|s| s.id() == node.step) {
        say(format!("there is no step \"{}\"", node.step));
    }
    match (&entry.band, quantity) {
        (None, Some(_)) => {
            say("no band: what is the smallest and the largest that an engine can have at all?".to_owned())
        }
        (Some([low, high]), Some(kind)) => match (kind.parse(low), kind.parse(high)) {
            (Ok(a), Ok(b)) if a < b => {}
            (Ok(_), Ok(_)) => say(format!("{low} is not less than {high}")),
            (Err(e), _) | (_, Err(e)) => say(e.to_string()),
        },
        _ => {}
    }
    if let (Some(prints), Some(kind)) = (&entry.prints, quantity) {
        for (unit, _) in [&prints.inch, &prints.metric] {
            if !kind.spec().units.iter().any(|u| u.name == unit) {
                say(format!("prints in {unit}, which is no unit of {}", kind.noun()));
            }
        }
    }
    if entry.when_read && !entry.path.starts_with("readings.") {
        say("is judged when it is read, and is no reading".to_owned());
    }
    if entry.when_read && entry.recorded.is_some() {
        say("is recorded only, and judged when it is read: which?".to_owned());
    }
    if !entry.usual.is_empty() && entry.recorded.is_some() {
        say("is recorded only, and says what is usual: which?".to_owned());
    }
    if entry.read_by.is_some() && entry.recorded.is_some() {
        say("is read by the program and recorded only: which?".to_owned());
    }
    if kind == "choice" && sheet.choices(node).is_empty() {
        say("a choice of nothing".to_owned());
    }
    for only in entry.only.iter().chain(entry.usual.iter().filter_map(|u| u.only.as_ref())) {
        match self::only(only) {
            None => say(format!("\"{only}\": write it like \"block.sleeves = wet\"")),
            Some((path, words)) => {
                let other = fields.iter().find(|f| f.path == path);
                let known: Vec<String> = match other {
                    Some(other) if path != "intent.use" => sheet.choices(other).into_iter().map(|w| w.0).collect(),
                    Some(_) => thou_contract::USES.map(str::to_owned).to_vec(),
                    None => Vec::new(),
                };
                for word in words.iter().filter(|w| !known.contains(w)) {
                    say(format!("\"{only}\": {path} is never {word}"));
                }
            }
        }
    }
    for usual in &entry.usual {
        if !usual.sizes.is_empty() {
            let read = |text: &String| quantity.is_some_and(|kind| kind.parse(text).is_ok());
            if !usual.sizes.iter().chain([&usual.within]).all(read) {
                say(format!("made in {:?} within {:?}: write quantities", usual.sizes, usual.within));
            }
            continue;
        }
        let si = |text: &str| match usual.of {
            Some(_) => text.parse::<f64>().ok(),
            None => quantity.and_then(|kind| kind.parse(text).ok()),
        };
        match (si(&usual.from), si(&usual.until)) {
            (Some(low), Some(high)) if low < high => {}
            _ => say(format!(
                "usual from {:?} until {:?}: write two quantities, or with `of` two plain numbers, the lesser first",
                usual.from, usual.until
            )),
        }
    }
    if let "list" | "by-name" | "row" = kind {
        let of = entry.of.as_deref().unwrap_or_default();
        if !sheet.rows.iter().any(|r: &Section| r.head.name == of) {
            say(format!("there are no rows called \"{of}\""));
        }
    }
}

fn reading(sheet: &Sheet, node: &Node, fields: &[&Node], out: &mut Vec<String>) {
    let mut say = |what: String| out.push(format!("{}: {what}", node.path));
    let entry = &node.entry;
    let Some(kind) = Kind::by_id(node.kind()) else { return say("a reading is a quantity".to_owned()) };
    if entry.each.as_deref().is_some_and(|id| Axis::by_id(id).is_none()) {
        say(format!("each = {:?}: there is no such place", entry.each));
    }
    if entry.points.as_deref().is_some_and(|id| !Points::ALL.iter().any(|p| p.id() == id)) {
        say(format!("points = {:?}: there are no such points", entry.points));
    }
    let length = |id: &str| matches!(id, "length" | "clearance" | "gap");
    match entry.gauge.as_deref().map(|name| (name, sheet.gauges.gauge.iter().find(|g| g.name == name))) {
        None => say("no gauge".to_owned()),
        Some((name, None)) => say(format!("there is no gauge \"{name}\"")),
        Some((name, Some(gauge))) => {
            let shows = |k: &String| *k == kind.id() || k == "length" && length(kind.id());
            if !gauge.shows.iter().any(shows) {
                say(format!("a {name} does not show {}", kind.noun()));
            }
        }
    }
    if let Some(path) = &entry.grows_with
        && path != STEEL
        && !fields.iter().any(|f| f.path == *path)
    {
        say(format!("grows with {path}, which is no field, and not \"{STEEL}\""));
    }
    for agreement in &entry.agrees_with {
        for path in std::iter::once(&agreement.field).chain(&agreement.less) {
            match fields.iter().find(|f| f.path == *path).and_then(|f| Kind::by_id(f.kind())) {
                None => say(format!("agrees with {path}, which is no quantity of the sheet")),
                Some(stated) if stated.parse("1 thou").is_ok() == kind.parse("1 thou").is_ok() => {}
                Some(stated) => say(format!("agrees with {path}, which is {}", stated.noun())),
            }
        }
        let share = agreement.within.strip_suffix(" %").is_some_and(|n| n.parse::<f64>().is_ok());
        if !share && kind.parse(&agreement.within).is_err() {
            say(format!("agrees within \"{}\": write a quantity, or a share such as \"3 %\"", agreement.within));
        }
    }
    let work = sheet.of_rows().into_iter().flat_map(|r| r.1).find(|n| n.path == "work.did");
    let did: Vec<String> = work.map(|w| sheet.choices(w).into_iter().map(|c| c.0).collect()).unwrap_or_default();
    if entry.stale_after.is_empty() {
        say("what work makes it stale?".to_owned());
    }
    for after in &entry.stale_after {
        let known = match after.strip_prefix("new ") {
            Some(part) => {
                sheet.sections.iter().any(|s| s.head.work && s.head.name == part)
                    || part.starts_with("fasteners.") && fields.iter().any(|f| f.path == part)
            }
            None => did.contains(after),
        };
        if !known {
            say(format!("stale after \"{after}\", which is no work of a sheet"));
        }
    }
    for (after, by) in &entry.moves_by {
        if !entry.stale_after.contains(after) {
            say(format!("moves by {after}, and is not stale after it"));
        }
        if factor(by.as_str().unwrap_or_default()).is_none() {
            say(format!("moves by {by:?}: write a number, or pi"));
        }
    }
}

/// "block.sleeves = wet, dry": the field and its words.
pub fn only(text: &str) -> Option<(String, Vec<String>)> {
    let (path, words) = text.split_once('=')?;
    let words: Vec<String> = words.split(',').map(|w| w.trim().to_owned()).collect();
    (!words.iter().any(String::is_empty)).then(|| (path.trim().to_owned(), words))
}

/// A factor as an entry has it, as Rust has it.
pub fn factor(text: &str) -> Option<String> {
    match text {
        "pi" => Some("std::f64::consts::PI".to_owned()),
        number => number.parse::<f64>().ok().map(|f| format!("{f:?}")),
    }
}
