//! Engines that this program knows nothing of, told in one sentence wherever a sheet gives them away.

use super::fault::{Finder, clean, field};
use serde_json::Value;
use thou_fields::FieldValue;

/// What the program is for, and what to do with a sheet of another kind.
pub(super) const FOR: &str = "thou judges four-stroke piston engines with spark ignition, single, inline, v and flat: every \
                              figure would be wrong for a two-stroke, a diesel or a rotary";

/// Words that only such engines have.
const SAYS: [&str; 9] = [
    "two-stroke",
    "two stroke",
    "2-stroke",
    "2 stroke",
    "diesel",
    "wankel",
    "rotary engine",
    "compression ignition",
    "compression-ignition",
];

/// Fields that somebody writes for such an engine.
#[cfg(feature = "schema")]
const FIELDS: [&str; 16] = [
    "cycle",
    "strokes",
    "stroke-cycle",
    "premix",
    "oil-mix",
    "reeds",
    "reed-valve",
    "transfer-ports",
    "port-timing",
    "power-valve",
    "glow-plugs",
    "injection-pump",
    "rotors",
    "rotor-housing",
    "apex-seals",
    "eccentric-shaft",
];

/// Whether a word that cannot stand there, or the name of a field that there is not, is of such an engine.
#[cfg(feature = "schema")]
pub(super) fn gives_away(text: &str) -> bool {
    let text = text.to_lowercase();
    text == "rotary" || FIELDS.contains(&text.as_str()) || SAYS.iter().any(|word| text.contains(word))
}

/// Tells what the words of engine and intent say of such an engine.
pub(super) fn told(root: &Value, find: &mut Finder<'_>) {
    for section in ["engine", "intent"] {
        for (key, value) in root.get(section).and_then(Value::as_object).into_iter().flatten() {
            // what cannot stand there at all is told as such
            let of_words = |f: &thou_fields::Field| matches!(f.value, FieldValue::Text | FieldValue::Notes);
            if !thou_fields::field(&format!("{section}.{key}")).is_some_and(of_words) {
                continue;
            }
            let texts = match value {
                Value::Array(list) => list.iter().filter_map(Value::as_str).collect(),
                other => other.as_str().into_iter().collect::<Vec<_>>(),
            };
            for text in texts {
                let Some(word) = SAYS.into_iter().find(|word| text.to_lowercase().contains(word)) else { continue };
                let pointer = format!("/{section}/{}", super::fault::escape(key));
                let message = format!("{} says \"{}\"", clean(&field(&pointer), 60), word);
                let help = format!("{FOR}. If this is none of them, put it in other words");
                find.at(&pointer, message, Some(help));
            }
        }
    }
}
