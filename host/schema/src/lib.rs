//! The schema of a build sheet as Rust code.
//!
//! Building a validator from the schema's text would take some 10 ms at each start of the program; here it is done when
//! the program is compiled. It stands in a crate of its own because that takes half a minute, and only has to be done
//! again where the schema changes.
#![forbid(unsafe_code)]

use serde_json::Value;

#[jsonschema::validator(
    path = "../../schemas/build.schema.json",
    pattern_options = { engine = regex },
    methods = { is_valid = false, validate = false, iter_errors = true }
)]
struct Build;

/// Where a value does not hold to the schema of a build sheet.
#[must_use]
pub fn build_errors(sheet: &Value) -> jsonschema::ErrorIterator<'_> {
    Build::iter_errors(sheet)
}
