//! Values by their dotted paths.

use serde_json::Value;

/// The value at a dotted path. A pointer would do, at a text or two made for every step of every path that is asked.
pub(super) fn below<'v>(root: &'v Value, path: &str) -> Option<&'v Value> {
    path.split('.').filter(|step| !step.is_empty()).try_fold(root, |value, step| match value {
        Value::Array(list) => list.get(step.parse::<usize>().ok()?),
        other => other.get(step),
    })
}
