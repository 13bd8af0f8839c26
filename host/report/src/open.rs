//! What nobody has measured yet, and what the sheet does not say: a row a set, with what to write and where.

use super::bench::{Bench, short_title};
use super::sets::alike;
use super::table::{self, Set};
use super::words;
use std::collections::BTreeMap;
use thou_contract::Level;
use thou_contract::OPERATIONS;
use thou_sheet::model::Axis;
use thou_verdict::{Item, State, Verdict};

/// Window, what to write.
const COLUMNS: [table::Column; 2] = [(Set::Left, 18, 2), (Set::Left, 32, 2)];

/// The mark of a row whose reading could be a no-go.
const HOLD: &str = "! ";

pub(super) fn print(bench: &Bench<'_>, verdict: &Verdict, out: &mut String) {
    let of = |operation: &str| -> Vec<Vec<String>> {
        let open = |i: &&Item| matches!(i.state, State::Open | State::CannotSay) && i.operation == operation;
        groups(words::without_bare_bounds(verdict.items.iter().filter(open)))
            .iter()
            .filter_map(|g| row(bench, g))
            .collect()
    };
    let pages: Vec<(&str, Vec<Vec<String>>)> =
        OPERATIONS.iter().map(|o| (*o, of(o))).filter(|(_, rows)| !rows.is_empty()).collect();
    let rows: Vec<Vec<String>> = pages.iter().flat_map(|(_, rows)| rows.clone()).collect();
    if rows.is_empty() {
        return;
    }
    let widths = table::widths(&rows, &COLUMNS);
    out.push_str("\nOPEN: NOT MEASURED, OR NOT IN THE SHEET\n");
    for (operation, rows) in &pages {
        out.push('\n');
        let head = [&*words::heading(operation), "wants", "what is missing"].map(str::to_owned);
        table::row(&head, &COLUMNS, &widths, out);
        for cells in rows {
            table::row(cells, &COLUMNS, &widths, out);
        }
    }
    if rows.iter().any(|r| r.first().is_some_and(|title| title.starts_with(HOLD))) {
        out.push_str("\n!: what is not read here could be a no-go.\n");
    }
}

fn groups<'a>(items: impl Iterator<Item = &'a Item>) -> Vec<Vec<&'a Item>> {
    let mut groups: Vec<Vec<&Item>> = Vec::new();
    for item in items {
        let same = |f: &&Item| {
            f.rule == item.rule
                && f.fact == item.fact
                && f.state == item.state
                && f.at_stake == item.at_stake
                && f.words == item.words
        };
        match groups.iter_mut().find(|g| g.first().is_some_and(same)) {
            Some(group) => group.push(item),
            None => groups.push(vec![item]),
        }
    }
    groups
}

fn row(bench: &Bench<'_>, group: &[&Item]) -> Option<Vec<String>> {
    let first = group.first()?;
    let fact = first.fact.as_deref();
    let places: Vec<Option<(Axis, usize)>> = group.iter().map(|i| i.place).collect();
    let places = bench.places(&places);
    let mark = if first.at_stake == Level::Hold { HOLD } else { "" };
    let mut title = format!("{mark}{}", short_title(&first.title, fact));
    if !places.is_empty() {
        title.push_str(&format!(", {places}"));
    }
    // places whose windows differ have none that could stand here
    let one_window = group.iter().all(|i| match (fact, &first.limits, &i.limits) {
        (Some(fact), Some(a), Some(b)) => alike(bench, fact, a, b),
        _ => true,
    });
    let window = match (fact, &first.limits) {
        // its limits may be made of what is doubtful
        _ if first.waits => "waits".to_owned(),
        (Some(fact), Some(limits)) if one_window => bench.window(fact, limits, true),
        (Some(_), Some(_)) => "as the spec has it".to_owned(),
        _ => String::new(),
    };
    let wants = wanted(group.iter().flat_map(|i| &i.wants).map(String::as_str));
    let mut write =
        if first.state == State::CannotSay || wants.is_empty() { bench.words(first, &first.words) } else { wants };
    for pointer in &first.crossed {
        let (line, _) = bench.sheet.source.position(bench.sheet.source.span(pointer).start);
        let field = pointer.trim_start_matches('/').replace('/', ".");
        write.push_str(&format!("; {field}, {}:{line}", bench.sheet.source.name));
    }
    Some(vec![title, window, write])
}

/// "readings.bore at 1 3 5, pistons.alloy": the places of one set together.
fn wanted<'a>(wants: impl Iterator<Item = &'a str>) -> String {
    let mut sets: BTreeMap<&str, Vec<&str>> = BTreeMap::new();
    for want in wants {
        let (set, place) = want.split_once(" at ").map_or((want, None), |(set, place)| (set, Some(place)));
        let places = sets.entry(set).or_default();
        places.extend(place.filter(|p| !places.contains(p)));
    }
    let list: Vec<String> = sets
        .into_iter()
        .map(|(set, places)| match places.len() {
            0 => set.to_owned(),
            1..=3 => format!("{set} at {}", places.join(" ")),
            n => format!("{set} at {n} places"),
        })
        .collect();
    list.join(", ")
}
