//! What to say of a text that is not the quantity that a field wants.

use super::fault::clean;
use super::published::schema;
use serde_json::Value;
use thou_contract::{Kind, QuantityError, nearest_unit};

/// What to say of a text that is not a quantity of its kind: the field, what it is, and what to write.
pub(super) fn wrong_quantity(name: &str, kind: Kind, text: &str, error: &QuantityError) -> (String, Option<String>) {
    let noun = kind.noun();
    let shown = clean(text, 40);
    match error {
        QuantityError::NotANumber { .. } => {
            (format!("{name} is {noun}, not \"{shown}\": write it like {}", example(kind)), None)
        }
        QuantityError::NoUnit { .. } => {
            (format!("{name} is {noun}: write it with its unit, like {}", example(kind)), None)
        }
        QuantityError::UnknownUnit { unit, units, .. } => {
            let help = if unit.starts_with(',') {
                "write the decimals after a point, not a comma".to_owned()
            } else if unit.starts_with(|c: char| c.is_ascii_digit() || c == '/') {
                "write fractions as decimals: 1 1/8 in is \"1.125 in\"".to_owned()
            } else if let Some(near) = nearest_unit(kind, unit) {
                format!("did you mean '{near}'?")
            } else {
                format!("write {units}")
            };
            (format!("{name} is {noun}; '{}' is not a unit of it", clean(unit, 20)), Some(help))
        }
        QuantityError::WrongKind { unit, other, units, .. } => {
            (format!("{name} is {noun}; '{}' is for {other}", clean(unit, 20)), Some(format!("write {units}")))
        }
    }
}

pub(super) fn example(kind: Kind) -> String {
    let name = if kind.is_day() { "date" } else { kind.id() };
    let example = schema().pointer(&format!("/$defs/{name}/examples/0")).unwrap_or(&Value::Null);
    example.to_string()
}
