//! What is inside its window, a row a set: title, places, reading, window, whose.

use super::bench::{Bench, short_title, short_whose, wrap};
use super::sets::sets;
use super::table::{self, Set};
use super::words;
use std::fmt::Write as _;
use thou_contract::OPERATIONS;
use thou_sheet::model::Axis;
use thou_verdict::{Item, State, Verdict};

/// Places, reading, mark, window, whose.
const COLUMNS: [table::Column; 5] =
    [(Set::Left, 8, 2), (Set::Right, 20, 1), (Set::Left, 3, 1), (Set::Left, 17, 1), (Set::Left, 10, 2)];

/// What a reading's mark means.
const STATED: &str = "s";
const NEAR: &str = "~";

pub(super) fn print(bench: &Bench<'_>, verdict: &Verdict, out: &mut String) {
    let of = |operation: &str| -> Vec<Vec<&Item>> {
        let items = verdict.items.iter().filter(|i| i.state == State::Go && i.operation == operation);
        let items = words::without_bare_bounds(items);
        sets(bench, items, |a, b| a.fact == b.fact && a.whose == b.whose)
    };
    let pages: Vec<(&str, Vec<Vec<&Item>>)> =
        OPERATIONS.iter().map(|o| (*o, of(o))).filter(|(_, groups)| !groups.is_empty()).collect();
    let head = |operation: &str| -> Vec<String> {
        [&*words::heading(operation), "", "read", "", "wants", "whose"].map(str::to_owned).to_vec()
    };
    let rows: Vec<Vec<String>> =
        pages.iter().flat_map(|(_, groups)| groups).filter_map(|g| row(bench, g)).chain([head("")]).collect();
    if rows.len() < 2 {
        return;
    }
    let widths = table::widths(&rows, &COLUMNS);
    out.push_str("\nGO: INSIDE ITS WINDOW AS MEASURED\n");
    for (operation, groups) in &pages {
        out.push('\n');
        let rows: Vec<Vec<String>> = groups.iter().filter_map(|g| row(bench, g)).collect();
        if rows.is_empty() {
            let _ = writeln!(out, "{}", words::heading(operation));
        } else {
            table::row(&head(operation), &COLUMNS, &widths, out);
        }
        for cells in &rows {
            table::row(cells, &COLUMNS, &widths, out);
        }
        let bare: Vec<String> = groups
            .iter()
            .filter(|g| row(bench, g).is_none())
            .filter_map(|g| g.first())
            .map(|i| i.title.to_lowercase())
            .collect();
        if !bare.is_empty() {
            out.push_str(&wrap(&format!("also go: {}", bare.join(", ")), "", "  "));
        }
    }
    legend(&rows, out);
}

fn legend(rows: &[Vec<String>], out: &mut String) {
    let used = |mark: &str| rows.iter().filter_map(|r| r.get(3)).any(|m| m.starts_with(mark));
    let mut lines = Vec::new();
    if used(STATED) {
        lines.push("s: from what the sheet states, not measured.");
    }
    if used(NEAR) {
        lines.push("~: nearer to an edge than its gauge can tell, in so many places.");
    }
    if !lines.is_empty() {
        let _ = write!(out, "\n{}", wrap(&lines.join("  "), "", ""));
    }
}

fn row(bench: &Bench<'_>, group: &[&Item]) -> Option<Vec<String>> {
    let first = group.first()?;
    let fact = first.fact.as_deref()?;
    let limits = first.limits.as_ref()?;
    let places: Vec<Option<(Axis, usize)>> = group.iter().map(|i| i.place).collect();
    let stated = group.iter().any(|i| i.value.is_some_and(|v| !v.measured));
    let near = group.iter().filter(|i| i.near_edge && i.value.is_some_and(|v| v.measured)).count();
    let mark = match (stated, near) {
        (true, _) => STATED.to_owned(),
        (false, 0) => String::new(),
        (false, 1) if group.len() == 1 => NEAR.to_owned(),
        (false, n) => format!("{NEAR}{n}"),
    };
    let working = limits.low.is_some() || limits.high.is_some();
    Some(vec![
        short_title(&first.title, Some(fact)),
        bench.places(&places),
        range(bench, group, fact)?,
        mark,
        bench.window(fact, limits, false),
        column_whose(first, if working { &first.whose } else { &first.hold_whose }),
    ])
}

/// Whose, or the name of the pack whose title is too long for a column.
fn column_whose(item: &Item, whose: &str) -> String {
    const ROOM: usize = 12;
    let short = short_whose(whose);
    let of_ours = item.basis.is_none_or(|b| b.word() == whose) || short != whose;
    match item.rule.split_once('/') {
        Some((pack, _)) if !of_ours && short.chars().count() > ROOM => pack.to_owned(),
        _ => short,
    }
}

/// "5.3..5.7 thou".
fn range(bench: &Bench<'_>, group: &[&Item], fact: &str) -> Option<String> {
    if let [item] = group
        && item.value?.bound.is_some()
    {
        return bench.value_text(item, 0);
    }
    let figure = bench.figure(fact);
    let values: Vec<f64> = group.iter().filter_map(|i| i.value).map(|v| v.value).collect();
    let (least, most) = (values.iter().copied().reduce(f64::min)?, values.iter().copied().reduce(f64::max)?);
    let (low, high) = (figure.number(least), figure.number(most));
    let unit = figure.unit_of(&high);
    let text = if low == high { format!("{low} {unit}") } else { format!("{low}..{high} {unit}") };
    Some(text.trim_end().to_owned())
}
