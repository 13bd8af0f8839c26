//! Holds a manifest to its schema, in words of ours.

use super::faults::ManifestFaults;
use crate::clean::clip;
use jsonschema::error::{TypeKind, ValidationErrorKind};
use jsonschema::{ValidationError, Validator};
use serde_json::Value;
use std::sync::OnceLock;

const SCHEMA: &str = include_str!("../../../../schemas/pack.schema.json");

/// Everything in which this is not of the manifest's shape.
pub(super) fn faults(manifest: &Value) -> ManifestFaults {
    static VALIDATOR: OnceLock<Result<Validator, String>> = OnceLock::new();
    let validator = VALIDATOR.get_or_init(|| {
        let schema = serde_json::from_str(SCHEMA).map_err(|e| e.to_string())?;
        jsonschema::draft202012::new(&schema).map_err(|e| e.to_string())
    });
    let mut faults = ManifestFaults::default();
    match validator {
        Ok(validator) => validator.iter_errors(manifest).for_each(|e| faults.add(|| words_of(&e))),
        Err(broken) => faults.add(|| format!("schemas/pack.schema.json cannot be used: {broken}")),
    }
    faults
}

fn words_of(error: &ValidationError<'_>) -> String {
    let at = error.instance_path().to_string();
    let at = if at.is_empty() { "the manifest".to_owned() } else { format!("`{}`", clip(&at, 120)) };
    let value = clip(&error.instance().to_string(), 60);
    let what = match error.kind() {
        ValidationErrorKind::Required { property } => format!("has no {}", plain(property)),
        ValidationErrorKind::AdditionalProperties { unexpected } => {
            format!("has {}, which no contract of this version knows", clip(&unexpected.join(", "), 80))
        }
        ValidationErrorKind::Enum { options } => {
            format!("is {value}{} and must be one of {}", meant(error, options), list(options))
        }
        ValidationErrorKind::Constant { expected_value } => format!("is {value} and must be {expected_value}"),
        ValidationErrorKind::Type { kind: TypeKind::Single(kind) } => format!("is {value} and must be of type {kind}"),
        ValidationErrorKind::Pattern { .. } => format!("is {value}; names are kebab-case: piston-to-wall"),
        ValidationErrorKind::MinLength { .. } => "is empty".to_owned(),
        ValidationErrorKind::MinItems { .. } => "is an empty list".to_owned(),
        ValidationErrorKind::MaxLength { limit } => format!("is longer than {limit} characters"),
        ValidationErrorKind::MaxItems { limit } => format!("has more than {limit} entries"),
        ValidationErrorKind::UniqueItems => "has an entry twice".to_owned(),
        ValidationErrorKind::Minimum { limit } => format!("is {value}, under {limit}"),
        ValidationErrorKind::Maximum { limit } => format!("is {value}, over {limit}"),
        _ => clip(&error.to_string(), 160),
    };
    format!("{at} {what}")
}

fn plain(value: &Value) -> String {
    value.as_str().map_or_else(|| value.to_string(), |s| format!("`{s}`"))
}

/// The word that was perhaps meant, first: a long list is cut.
fn meant(error: &ValidationError<'_>, options: &Value) -> String {
    let words = options.as_array().into_iter().flatten().filter_map(Value::as_str);
    let near = error.instance().as_str().and_then(|written| thou_text::nearest(written, words).map(str::to_owned));
    near.map(|near| format!(" (did you mean {near}?)")).unwrap_or_default()
}

fn list(options: &Value) -> String {
    let words = options.as_array().map(|a| a.iter().map(|v| v.as_str().unwrap_or("?")).collect::<Vec<_>>());
    words.unwrap_or_default().join(", ")
}
