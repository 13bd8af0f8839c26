//! The fields of a sheet against the facts that read them.
#![allow(clippy::unwrap_used, clippy::indexing_slicing)]

use super::{Catalogue, FactInfo, ValueKind};
use serde_json::Value;
use std::sync::OnceLock;

fn schema() -> &'static Value {
    static PARSED: OnceLock<Value> = OnceLock::new();
    PARSED.get_or_init(|| serde_json::from_str(thou_sheet::SCHEMA).unwrap())
}

fn node(path: &str) -> Option<&'static Value> {
    let mut at = schema();
    for step in path.split('.') {
        at = at.get("properties")?.get(step)?;
        if let Some(target) = at.get("$ref").and_then(Value::as_str)
            && at.get("properties").is_none()
        {
            at = schema().pointer(target.trim_start_matches('#'))?;
        }
    }
    Some(at)
}

#[test]
fn every_fact_that_a_sheet_holds_has_its_field() {
    let mut seen = 0;
    let mut wrong = Vec::new();
    for fact in Catalogue::standard().all() {
        for path in [fact.path, fact.fallback].into_iter().flatten() {
            seen += 1;
            if !fits(fact, path) {
                wrong.push(format!("{}: {path}", fact.id));
            }
        }
    }
    assert_eq!(wrong, Vec::<String>::new());
    assert!(seen > 200, "{seen}");
}

/// Facts that the host works out of a field of another kind: from a day or two, or from whether the field is there.
const WORKED_OUT: [&str; 17] = [
    "balance.fitted",
    "block.test-lead",
    "block.washed-before-assembly",
    "cam.belt-age",
    "cam.lobe-tables",
    "crank.test-lead",
    "damper.age",
    "damper.certificate-left",
    "date",
    "dyno.room-air.stated",
    "engine.firing-order.stated",
    "gasket.wire",
    "main-fastener.diameter",
    "main-fastener.pitch",
    "oil.additive",
    "rod.life-stated",
    "rod.test-lead",
];

/// Whether the schema has a field at this path that can hold the fact.
fn fits(fact: &FactInfo, path: &str) -> bool {
    if let Some(key) = path.strip_prefix("readings.") {
        // the largest or the spread of a series stands once for the engine
        return thou_fields::reading(key).is_some_and(|r| r.axis == fact.axis || fact.series.is_some());
    }
    if ["engine.firing-order", "finish.profile"].contains(&path) {
        // a list and a file that the fact is worked out of
        return node(path).is_some();
    }
    let Some(field) = node(path) else { return false };
    if field.get("type") == Some(&serde_json::json!("array")) {
        // a list that the fact is worked out of
        return true;
    }
    match fact.value {
        _ if WORKED_OUT.contains(&fact.id) => true,
        ValueKind::Quantity(kind) => !field["minimum"].is_null() || *field == schema()["$defs"][kind.id()],
        ValueKind::Choice(_) if path == "intent.use" => true,
        ValueKind::Choice(words) => {
            field["enum"].as_array().is_some_and(|list| list.iter().filter_map(Value::as_str).eq(words.iter().copied()))
        }
        ValueKind::Flag => field["type"].to_string().contains("boolean"),
    }
}
