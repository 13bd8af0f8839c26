//! The published schema, as text and as a value.

use serde_json::Value;
use std::sync::OnceLock;

/// The JSON Schema (2020-12) of a build sheet, as published.
pub const SCHEMA: &str = include_str!("../../../schemas/build.schema.json");

/// The schema as a value; only wanted for words.
pub(super) fn schema() -> &'static Value {
    static PARSED: OnceLock<Value> = OnceLock::new();
    PARSED.get_or_init(|| serde_json::from_str(SCHEMA).unwrap_or(Value::Null))
}
