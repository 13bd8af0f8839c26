//! This engine beside a known good one of the same shop: figures of models that are worth more as a ratio than alone.

use super::bench::{Bench, Like, wrap};
use serde_json::{Value, json};
use std::fmt::Write as _;
use thou_facts::{Bound, SheetFacts, ValueKind};
use thou_sheet::Sheet;
use thou_sheet::model::Axis;

/// Facts of one model: its heading, how far it can be trusted, and how their names start.
struct Group {
    title: &'static str,
    trust: &'static str,
    facts: &'static [&'static str],
}

const GROUPS: [Group; 6] = [
    Group {
        title: "pressures at power",
        trust: "one zone, a burn of the usual shape, set to the power stated",
        facts: &["cylinder."],
    },
    Group {
        title: "knock",
        trust: "one zone and one delay law: worth a comparison and no more",
        facts: &["knock", "octane."],
    },
    Group {
        title: "films",
        trust: "a rigid shell and rod: a figure alone is good to ± 50 %",
        facts: &["rod-bearing.film", "main-bearing.film"],
    },
    Group { title: "bearing loads", trust: "rigid parts at a steady speed", facts: &["rod-bearing.load"] },
    Group { title: "valve float", trust: "rigid valve gear, masses as stated", facts: &["valve.float"] },
    Group {
        title: "growth",
        trust: "free growth at usual temperatures, which no skirt has all over",
        facts: &["piston-to-wall.hot"],
    },
];

impl Group {
    // the model's own factor, and its figure before a stated one beat it, say nothing of the engine
    fn has(&self, id: &str) -> bool {
        self.facts.iter().any(|start| id.starts_with(start)) && !id.contains("model")
    }
}

struct Row {
    id: &'static str,
    here: Known,
    there: Known,
}

/// A figure, or a bound.
#[derive(Clone, Copy)]
struct Known {
    value: f64,
    bound: Option<Bound>,
}

/// The figures of a group that both engines have.
fn rows(bench: &Bench<'_>, like: &Like<'_>, group: &Group) -> Vec<Row> {
    let known = bench.facts.catalogue().all().filter(|i| i.axis == Axis::One && i.series.is_none() && group.has(i.id));
    let value = |facts: &SheetFacts<'_>, id: &str| {
        facts.cells(id).first()?.as_ref().ok().map(|n| Known { value: n.value, bound: n.bound })
    };
    known
        .filter(|i| matches!(i.value, ValueKind::Quantity(_)))
        .filter_map(|i| Some(Row { id: i.id, here: value(bench.facts, i.id)?, there: value(like.facts, i.id)? }))
        .collect()
}

fn name(sheet: &Sheet) -> String {
    let name = sheet.stated("engine.name").and_then(|(v, _)| v.as_str()).unwrap_or("?");
    thou_text::clean::clean(name)
}

/// The part of the page.
pub(super) fn print(bench: &Bench<'_>, out: &mut String) {
    let Some(like) = &bench.like else { return };
    let groups: Vec<(&Group, Vec<Row>)> =
        GROUPS.iter().map(|g| (g, rows(bench, like, g))).filter(|(_, rows)| !rows.is_empty()).collect();
    if groups.is_empty() {
        return;
    }
    let _ = writeln!(out, "\nBESIDE {}, A KNOWN GOOD ENGINE", name(like.sheet).to_uppercase());
    for (group, rows) in groups {
        let _ = write!(out, "\n{}", line(group.title, &short(bench.sheet), &short(like.sheet), ""));
        for row in rows {
            out.push_str(&row.text(bench));
        }
        out.push_str(&wrap(&format!("({})", group.trust), "  ", "   "));
    }
}

fn line(what: &str, here: &str, there: &str, against: &str) -> String {
    format!("{}\n", format!("{what:<40} {here:>13} {there:>13}  {against}").trim_end())
}

/// An engine's name as a column has room for it.
fn short(sheet: &Sheet) -> String {
    name(sheet).chars().take(13).collect()
}

impl Row {
    fn text(&self, bench: &Bench<'_>) -> String {
        let kind = bench.kind(self.id);
        let text = |known: Known| match known.bound {
            Some(bound) => bench.figure(self.id).bounded(self.id, known.value, bound, 0),
            None => kind.text(known.value, bench.system),
        };
        let what = self.id.replace(['.', '-'], " ").replace("at over rev", "at the over-rev");
        line(&format!("  {what}"), &text(self.here), &text(self.there), &self.against(bench))
    }

    /// This engine against the good one: as a ratio, and as a difference where the zero of the scale means nothing, or
    /// the figure is a difference itself.
    fn against(&self, bench: &Bench<'_>) -> String {
        if self.here.bound.or(self.there.bound).is_some() {
            return String::new();
        }
        let (here, there) = (self.here.value, self.there.value);
        let kind = bench.kind(self.id);
        let apart = matches!(kind.id(), "angle" | "octane" | "temperature") || self.id.ends_with("margin");
        if apart {
            // of the figures as they are printed, so that a reader can add it up
            let printed = |si: f64| {
                let text = kind.text(si, bench.system);
                let number = text.split(' ').next().unwrap_or_default().to_owned();
                let places = number.split_once('.').map_or(0, |(_, places)| places.len());
                (number.parse::<f64>().unwrap_or(f64::NAN), places)
            };
            let ((here, places), (there, _)) = (printed(here), printed(there));
            let gap = here - there;
            if gap.abs() < 1e-9 { "same".to_owned() } else { format!("{gap:+.places$}") }
        } else if there == 0.0 {
            String::new()
        } else {
            format!("x {:.2}", here / there)
        }
    }
}

/// The same for programs.
pub(super) fn json(bench: &Bench<'_>) -> Value {
    let Some(like) = &bench.like else { return Value::Null };
    let rows: Vec<Value> = GROUPS
        .iter()
        .flat_map(|group| rows(bench, like, group))
        .map(|r| {
            let mut row = json!({ "fact": r.id, "here": r.here.value, "there": r.there.value });
            for (key, bound) in [("here-bound", r.here.bound), ("there-bound", r.there.bound)] {
                if let (Some(bound), Some(row)) = (bound, row.as_object_mut()) {
                    row.insert(key.to_owned(), json!(bound.id()));
                }
            }
            row
        })
        .collect();
    json!({ "engine": name(like.sheet), "figures": rows })
}
