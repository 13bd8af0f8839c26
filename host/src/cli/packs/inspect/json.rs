//! The same for programs, as `schemas/inspect.schema.json` has it.

use super::cost::CostRow;
use super::lack::lack;
use crate::packs::LoadedPack;
use serde_json::{Value, json};

pub(super) fn value(pack: &LoadedPack, costs: &[CostRow]) -> Value {
    let cost: Vec<Value> = costs
        .iter()
        .map(|c| {
            json!({ "what": c.what, "used": c.used, "limit": c.limit, "share": c.used as f64 / c.limit as f64,
                    "over": c.over })
        })
        .collect();
    let facts: Vec<Value> = pack
        .manifest
        .facts
        .iter()
        .map(|f| json!({ "id": f.id, "kind": f.kind, "axis": f.axis, "lack": lack(&pack.manifest, f) }))
        .collect();
    json!({
        "format": "thou-pack-1",
        "thou": env!("CARGO_PKG_VERSION"),
        "origin": pack.origin,
        "bytes": pack.bytes().len(),
        "sha256": pack.digest,
        "imports": [],
        "made-in": pack.languages(),
        "facts": facts,
        "cost": cost,
        "manifest": pack.manifest,
    })
}
