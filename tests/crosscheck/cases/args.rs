//! The arguments of a case and its answer.

use serde_json::Value;
use std::fmt::{Display, Write as _};
use thou_mechanics::kinematics::Slider;

/// Numbers, or why there are none.
pub type Answer = Result<Vec<f64>, String>;

/// One number as an answer.
pub fn one(value: f64) -> Answer {
    Ok(vec![value])
}

/// A number that can be refused.
pub fn tried<E: Display>(value: Result<f64, E>) -> Answer {
    value.map(|v| vec![v]).map_err(|e| e.to_string())
}

/// A number stands as a text, since the JSON reader's own numbers can be off in the last place.
fn number(value: &Value) -> f64 {
    let read = value.as_str().map_or_else(|| value.as_f64(), |text| text.parse().ok());
    read.unwrap_or_else(|| panic!("{value} is no number"))
}

/// The arguments, by their place.
pub struct Args<'a>(pub &'a [Value]);

impl Args<'_> {
    /// A number.
    pub fn n(&self, place: usize) -> f64 {
        number(&self.0[place])
    }

    /// A whole number.
    pub fn count(&self, place: usize) -> usize {
        usize::try_from(self.0[place].as_u64().unwrap()).unwrap()
    }

    /// A text.
    pub fn text(&self, place: usize) -> &str {
        self.0[place].as_str().unwrap_or_else(|| panic!("argument {place} is no text: {:?}", self.0))
    }

    /// Numbers.
    pub fn list(&self, place: usize) -> Vec<f64> {
        self.0[place].as_array().unwrap().iter().map(number).collect()
    }

    /// The first three: radius, rod, offset.
    pub fn slider(&self) -> Slider {
        Slider { radius: self.n(0), rod: self.n(1), offset: self.n(2) }
    }
}

/// The answer as a line of JSON, with as many digits as read back the same.
pub fn write(out: &mut String, answer: &Answer) {
    match answer {
        Ok(values) => {
            out.push('[');
            for (i, value) in values.iter().enumerate() {
                if i > 0 {
                    out.push(',');
                }
                if value.is_nan() {
                    out.push_str("NaN");
                } else if value.is_infinite() {
                    out.push_str(if *value > 0.0 { "Infinity" } else { "-Infinity" });
                } else {
                    write!(out, "{value:e}").unwrap();
                }
            }
            out.push(']');
        }
        Err(message) => out.push_str(&Value::String(message.clone()).to_string()),
    }
}
