//! What the two rules of oil clearance share.

use crate::common::by_use;
use thou_sdk::prelude::*;

/// Where the hold comes from.
pub(crate) const CLOSES: &str = "thermal expansion of steel, 12.3e-6 a kelvin (ASM Handbook, vol. 1): a journal 30 K \
                                 hotter than its housing, as on a cold start, closes the clearance by that much";

/// What the card's own window says.
pub(crate) const CARD: Text =
    Text { hold_basis: Some(Basis::Maker), ..Text::card("on diameter, up and down", "bearing card") };

/// Thou of clearance on a journal of so many inches.
pub(crate) struct Limits {
    /// The journal that the limits are quoted for, in inches.
    pub journal: f64,
    /// From and to on the street.
    pub street: (f64, f64),
    /// Of a bracket engine.
    pub bracket: (f64, f64),
    /// All out.
    pub all_out: (f64, f64),
}

/// The working limits in metres for this journal, in proportion to its diameter.
pub(crate) fn scaled(f: &Facts<'_>, journal: f64, limits: &Limits) -> (f64, f64) {
    let (low, high) = by_use(f, limits.street, limits.bracket, limits.all_out);
    let scale = journal / inches(limits.journal);
    (thou(low) * scale, thou(high) * scale)
}

/// What a steel journal 30 K hotter than its housing takes up, in metres: D alpha dT.
pub(crate) fn hold(journal: f64) -> f64 {
    const ALPHA: f64 = 12.3e-6;
    const HOTTER: f64 = 30.0;
    journal * ALPHA * HOTTER
}
