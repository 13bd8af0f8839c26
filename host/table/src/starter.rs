//! The table to start from, and the fixtures that hold it.

use serde_json::{Map, Value};
use std::collections::BTreeMap;

/// Common practice as a table, to be edited: `rulepacks/tables/common-practice.json`.
pub const COMMON_PRACTICE: &str = include_str!("../../../rulepacks/tables/common-practice.json");

/// Its fixtures by rule and by file: `rulepacks/tables/common-practice.fixtures.json`, one text for a few hundred files.
const FIXTURES: &str = include_str!("../../../rulepacks/tables/common-practice.fixtures.json");

/// A table under this name with the numbers of common practice, each rule superseding the one that it copies.
#[must_use]
pub fn starter(name: &str) -> String {
    // the schema lies beside the file that is embedded, and not beside the shop's
    let lines = COMMON_PRACTICE.split_inclusive('\n').filter(|line| !line.trim_start().starts_with("\"$schema\""));
    lines.collect::<String>().replacen("\"common-practice\"", &format!("\"{name}\""), 1)
}

/// The fixtures of [`starter`], each as its path beside the table and its text, which names the schema as it lies there:
/// `schemas/fixture.schema.json`.
#[must_use]
pub fn starter_fixtures() -> Vec<(String, String)> {
    let rules: BTreeMap<String, BTreeMap<String, Map<String, Value>>> =
        serde_json::from_str(FIXTURES).unwrap_or_default();
    let mut files = Vec::new();
    for (rule, fixtures) in rules {
        for (name, fixture) in fixtures {
            let schema = ("$schema".to_owned(), Value::from("../../schemas/fixture.schema.json"));
            let whole: Map<String, Value> = std::iter::once(schema).chain(fixture).collect();
            let text = serde_json::to_string_pretty(&whole).unwrap_or_default();
            files.push((format!("fixtures/{rule}/{name}.json"), text + "\n"));
        }
    }
    files
}
