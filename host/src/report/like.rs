//! This engine beside a known good one of the same shop: figures of models that are worth more as a ratio than alone.

use super::bench::{Bench, wrap};
use crate::facts::{Facts, ValueKind};
use crate::sheet::Sheet;
use crate::sheet::model::Axis;
use crate::verdict::view::View;
use serde_json::{Value, json};
use std::fmt::Write as _;

/// A known good engine.
#[derive(Clone, Copy)]
pub struct Like<'a> {
    /// Its sheet.
    pub sheet: &'a Sheet,
    /// Its facts.
    pub facts: &'a Facts<'a>,
}

/// Facts that models give, by how their names start, and how far the models can be trusted.
const COMPARED: [(&str, &str); 8] = [
    ("rod-bearing.film", "films: a rigid shell and rod; the figure alone is good to ± 50 %"),
    ("main-bearing.film", "films: a rigid shell and rod; the figure alone is good to ± 50 %"),
    ("rod-bearing.load", "loads: rigid parts at a steady speed"),
    ("knock", "knock: one zone and one delay law; worth a comparison and no more"),
    ("octane.", "knock: one zone and one delay law; worth a comparison and no more"),
    ("cylinder.", "pressures: one zone, a burn of the usual shape"),
    ("valve.float", "float: rigid valve gear, masses as stated"),
    ("piston-to-wall.hot", "growth: free growth at usual temperatures, which no skirt has all over"),
];

struct Row {
    id: &'static str,
    here: f64,
    there: f64,
}

/// Every compared figure that both engines have.
fn rows(bench: &Bench<'_>, like: &Like<'_>) -> Vec<Row> {
    // the model's own factor, and its figure before a stated one beat it, say nothing of the engine
    let compared = |id: &str| COMPARED.iter().any(|(start, _)| id.starts_with(start)) && !id.contains("model");
    let known = bench.facts.catalogue().all().filter(|i| i.axis == Axis::One && i.series.is_none() && compared(i.id));
    let value = |facts: &Facts<'_>, id: &str| facts.cells(id).first()?.as_ref().ok().map(|n| n.value);
    known
        .filter(|i| matches!(i.value, ValueKind::Quantity(_)))
        .filter_map(|i| Some(Row { id: i.id, here: value(bench.facts, i.id)?, there: value(like.facts, i.id)? }))
        .collect()
}

fn name(like: &Like<'_>) -> String {
    let name = like.sheet.stated("engine.name").and_then(|(v, _)| v.as_str()).unwrap_or("?");
    crate::packs::clean::clean(name)
}

/// The part of the page.
pub(super) fn print(bench: &Bench<'_>, out: &mut String) {
    let Some(like) = &bench.like else { return };
    let rows = rows(bench, like);
    if rows.is_empty() {
        return;
    }
    let _ = writeln!(out, "\nBESIDE {}, A KNOWN GOOD ENGINE", name(like).to_uppercase());
    let mut notes: Vec<&str> = Vec::new();
    for row in &rows {
        let text = |si: f64| bench.kind(row.id).text(si, bench.system);
        let share = if row.there == 0.0 { String::new() } else { format!("x {:.2}", row.here / row.there) };
        let line = format!(
            "  {:<34} {:>12} {:>12}  {share}",
            row.id.replace(['.', '-'], " "),
            text(row.here),
            text(row.there)
        );
        let _ = writeln!(out, "{}", line.trim_end());
        for (_, note) in COMPARED.iter().filter(|(start, _)| row.id.starts_with(start)) {
            if !notes.contains(note) {
                notes.push(note);
            }
        }
    }
    out.push_str(&wrap(&format!("This engine first. {}.", notes.join("; ")), "  ", "  "));
}

/// The same for programs.
pub(super) fn json(bench: &Bench<'_>) -> Value {
    let Some(like) = &bench.like else { return Value::Null };
    let rows: Vec<Value> =
        rows(bench, like).iter().map(|r| json!({ "fact": r.id, "here": r.here, "there": r.there })).collect();
    json!({ "engine": name(like), "figures": rows })
}
