//! Quantities as they were written.

use serde::{Deserialize, Serialize};

/// A quantity as it was written, `"7450 rpm"`; a bare number for a count. Its SI value needs the kind that the field
/// has: see [`Amount::si`].
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Amount(pub String);

impl Amount {
    /// Its SI value as this kind of quantity.
    ///
    /// # Errors
    /// When the text is no such quantity, with what to write instead.
    pub fn si(&self, kind: &str) -> Result<f64, thou_contract::QuantityError> {
        let Some(kind) = thou_contract::Kind::by_id(kind) else { return Ok(f64::NAN) };
        kind.parse(&self.0)
    }
}
