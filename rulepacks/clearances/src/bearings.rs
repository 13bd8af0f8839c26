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
pub(crate) struct QuotedLimits {
    /// The journal that the limits are quoted for, in inches.
    pub journal: f64,
    /// Of a bracket engine.
    pub bracket: (f64, f64),
    /// All out.
    pub all_out: (f64, f64),
}

/// The working limits in metres for this journal: the bulletin's on the street, with its half thou for performance,
/// and common practice in proportion to the diameter beyond.
pub(crate) fn scaled(f: &Facts<'_>, journal: f64, limits: &QuotedLimits) -> (f64, f64) {
    let scale = journal / inches(limits.journal);
    let raced = |(low, high): (f64, f64)| (thou(low) * scale, thou(high) * scale);
    let street = (0.75e-3 * journal, 1.0e-3 * journal + thou(0.5));
    by_use(f, street, raced(limits.bracket), raced(limits.all_out))
}

/// What a steel journal 30 K hotter than its housing takes up, in metres: D alpha dT.
pub(crate) fn hold(journal: f64) -> f64 {
    const ALPHA: f64 = 12.3e-6;
    const HOTTER: f64 = 30.0;
    journal * ALPHA * HOTTER
}
