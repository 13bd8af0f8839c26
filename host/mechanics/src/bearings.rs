//! Sizes of plain bearings.

/// Diametral clearance, m: housing less two shells less journal, all in m. Negative for an interference.
#[must_use]
pub fn clearance_from_parts(housing: f64, shell: f64, journal: f64) -> f64 {
    housing - 2.0 * shell - journal
}

/// Diametral clearance, m: assembled inside diameter less journal.
#[must_use]
pub fn clearance(inside: f64, journal: f64) -> f64 {
    inside - journal
}
