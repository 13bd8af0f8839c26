//! The size to go to at every place, what is there now, and what is left to take.

use super::bench::{Bench, noun, wrap};
use super::fact_windows::{FactWindows, size_at};
use super::table;
use std::fmt::Write as _;
use thou_sheet::model::Axis;
use thou_verdict::{Limits, Solved};

/// Range, best, now, what is left; blanks follow.
const COLUMNS: [table::Column; 4] =
    [(table::Set::Left, 26, 2), (table::Set::Left, 10, 2), (table::Set::Left, 14, 2), (table::Set::Left, 20, 2)];

/// A place and its size; none where no size does it.
pub(super) type SizeRow = (usize, Option<Solved>);

/// The sizes of a set's places, if the fixed parts give any.
pub(super) fn rows(
    bench: &Bench<'_>,
    set: &FactWindows<'_>,
    change: &str,
    places: &[(usize, Option<Limits>)],
) -> Option<Vec<SizeRow>> {
    let rows: Vec<SizeRow> = places
        .iter()
        .filter_map(|(place, room)| Some((*place, size_at(bench, set, change, *place, (*room)?))))
        .collect();
    rows.iter().any(|(_, s)| s.is_some()).then_some(rows)
}

/// Where what is there is inside and only one end is known, that end is a bound and no size to go to: it is told with the
/// margin to it.
fn bound(bench: &Bench<'_>, solved: &Solved) -> Option<String> {
    let figure = bench.figure(&solved.fact);
    let now = solved.now?;
    let (word, end, margin) = match (solved.from, solved.to) {
        (None, Some(to)) if to >= now => ("no higher than", figure.inward(to, false, 0), to - now),
        (Some(from), None) if from <= now => ("no lower than", figure.inward(from, true, 0), now - from),
        _ => return None,
    };
    // a difference of temperatures has no offset
    let margin = figure.show((figure.in_unit(now + margin) - figure.in_unit(now)).abs(), 0);
    Some(format!(
        "{word} {} {unit}; it is {}, {margin} {unit} inside",
        figure.show(end, 0),
        figure.number(now),
        unit = figure.unit()
    ))
}

/// A row a place, or one for all where they are alike.
pub(super) fn print(bench: &Bench<'_>, judged: &str, axis: Axis, rows: &[SizeRow], out: &mut String) {
    let Some(fact) = rows.iter().find_map(|(_, s)| s.as_ref()).map(|s| s.fact.clone()) else { return };
    let name = fact.replace(['.', '-'], " ");
    if let (Axis::One, Some((_, Some(solved)))) = (axis, rows.first()) {
        let size = bound(bench, solved).unwrap_or_else(|| bench.size(solved));
        out.push_str(&wrap(&format!("{name}: {size}"), "      ", "      "));
        return;
    }
    let figure = bench.figure(&fact);
    let unit = figure.unit();
    let mut groups: Vec<(Vec<usize>, Vec<String>)> = Vec::new();
    for (place, solved) in rows {
        let cells = match solved {
            Some(solved) => {
                let range = match bench.ends(solved) {
                    (Some(from), Some(to)) if from == to => from,
                    (Some(from), Some(to)) => format!("{from} .. {to}"),
                    (Some(from), None) => format!("{from} or more"),
                    (None, Some(to)) => format!("{to} or less"),
                    (None, None) => String::new(),
                };
                let both = solved.from.is_some() && solved.to.is_some();
                let aim = solved.aim.filter(|_| both).map(|a| figure.number(a)).unwrap_or_default();
                let now = solved.now.map(|n| figure.number(n)).unwrap_or_default();
                vec![range, aim, now, left(bench, solved)]
            }
            None => {
                // what is not read yet may still have its size
                let known = bench.facts.cells(judged).get(*place).is_some_and(Result::is_ok);
                let words = if known { "no size does it" } else { "when the rest is read" };
                vec![words.to_owned(), String::new(), String::new(), String::new()]
            }
        };
        match groups.iter_mut().find(|(_, c)| *c == cells) {
            Some((places, _)) => places.push(*place),
            None => groups.push((vec![*place], cells)),
        }
    }
    // what differs by what is there alone is one row, once it is all there
    let there = |cells: &[String]| cells.get(3).is_some_and(|l| l == THERE);
    let sizes = |cells: &[String]| cells.get(..2).map(<[String]>::to_vec);
    let one = groups.first().and_then(|g| sizes(&g.1));
    if groups.iter().all(|(_, c)| there(c) && sizes(c) == one) && groups.len() > 1 {
        let places = groups.iter().flat_map(|(p, _)| p.clone()).collect();
        let now: Vec<&String> = groups.iter().filter_map(|(_, c)| c.get(2)).collect();
        let least = now.iter().min().map_or("", |s| s.as_str());
        let most = now.iter().max().map_or("", |s| s.as_str());
        let mut cells = groups.first().map(|g| g.1.clone()).unwrap_or_default();
        if let Some(cell) = cells.get_mut(2) {
            *cell = format!("{least}..{most}");
        }
        groups = vec![(places, cells)];
    }
    let lines: Vec<Vec<String>> = groups
        .iter()
        .map(|(places, cells)| {
            let at: Vec<_> = places.iter().map(|p| Some((axis, *p))).collect();
            std::iter::once(format!("      {}", bench.places(&at))).chain(cells.iter().cloned()).collect()
        })
        .collect();
    let head = ["", &format!("to, {unit}"), "aim", "now", "to take"].map(str::to_owned);
    let blank = |at: usize| lines.iter().all(|l| l.get(at).is_none_or(String::is_empty));
    let head: Vec<String> = head
        .into_iter()
        .enumerate()
        .map(|(i, h)| {
            if i == 0 {
                format!("      {}", noun(axis))
            } else if blank(i) {
                String::new()
            } else {
                h
            }
        })
        .collect();
    let _ = writeln!(out, "      {name}");
    let all: Vec<Vec<String>> = std::iter::once(head).chain(lines).collect();
    let widths = table::widths(&all, &COLUMNS);
    for cells in &all {
        table::row(cells, &COLUMNS, &widths, out);
    }
}

/// What a place that is inside its sizes says.
const THERE: &str = "is there";

/// "1.7 .. 3.2 thou", that it is there, or that it is past it.
fn left(bench: &Bench<'_>, solved: &Solved) -> String {
    let Some(now) = solved.now else { return String::new() };
    let inside = solved.from.is_none_or(|f| now >= f - 1e-12) && solved.to.is_none_or(|t| now <= t + 1e-12);
    if inside {
        return THERE.to_owned();
    }
    let figure = thou_contract::Kind::by_id("clearance").map(|k| thou_facts::Figure::of_kind(k, bench.system));
    let Some(figure) = figure.filter(|_| matches!(bench.kind(&solved.fact).id(), "length" | "clearance" | "gap"))
    else {
        return "not there".to_owned();
    };
    let by = |end: Option<f64>| end.map(|e| (e - now).abs());
    let (mut least, mut most) = (by(solved.from), by(solved.to));
    if least.zip(most).is_some_and(|(l, m)| l > m) {
        std::mem::swap(&mut least, &mut most);
    }
    let unit = figure.unit();
    // a bore only opens and a journal only shrinks: what is past its size does not come back
    let grows = !matches!(solved.fact.as_str(), "rod-journal.diameter" | "main-journal.diameter" | "deck-height");
    let too_large = solved.to.is_some_and(|t| now > t);
    if solved.cuts_metal && too_large == grows {
        let over = least.map(|l| figure.number(l)).unwrap_or_default();
        return format!("past it by {over} {unit}");
    }
    match (least, most) {
        (Some(l), Some(m)) => format!("{} .. {} {unit}", figure.number(l), figure.number(m)),
        (Some(x), None) | (None, Some(x)) => format!("{} {unit}", figure.number(x)),
        (None, None) => String::new(),
    }
}
