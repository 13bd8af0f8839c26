//! What the two rules of oil clearance share.

use crate::common::{contact, raced, touches};
use crate::facts::{OIL, USE};
use thou_sdk::prelude::*;

/// Where the never-limits come from.
pub(crate) const HOLDS: &str = "common practice, no source, beyond what service manuals and racers have; a card less 0.3 thou, \
                                which two gauges can be apart; contact: thermal expansion of steel, 12.3e-6 a kelvin (ASM \
                                Handbook, vol. 1), a journal 15 K hotter than its housing, as it is after every cold start";

/// What the card's own window says.
pub(crate) const CARD: Text =
    Text { hold_basis: Some(Basis::Maker), ..Text::card("on diameter, up and down", "bearing card") };

/// What the window of contact says.
pub(crate) const CONTACT: Text = contact("contact: what a journal grows more than its housing as it warms");

/// What two gauges in two hands can be apart.
const GAUGES: f64 = thou(0.3);

/// Thou an inch of journal: where it is worked, and where nobody in the trade would run it.
pub(crate) struct JournalLimits {
    /// Raced, with oils of grade 20 and thinner.
    pub thin: (f64, f64),
    /// Raced, with oils of grade 30 and 40.
    pub middle: (f64, f64),
    /// Raced, with oils of grade 50 and heavier.
    pub thick: (f64, f64),
    /// Never under, on the street and raced.
    pub never: (f64, f64),
}

/// Never over, in thou an inch of journal.
const LOOSE: f64 = 2.2;

impl JournalLimits {
    /// The working limits in metres for this journal: the bulletin's on the street, with its half thou for performance,
    /// and common practice by the oil beyond.
    pub(crate) fn work(&self, f: &Facts<'_>, journal: f64) -> (f64, f64) {
        if !raced(f) {
            return (0.75e-3 * journal, 1.0e-3 * journal + thou(0.5));
        }
        self.by_oil(f, journal)
    }
    /// Common practice by the oil; all of it where the oil is not named, and no looser than with a 40 in bracket racing.
    pub(crate) fn by_oil(&self, f: &Facts<'_>, journal: f64) -> (f64, f64) {
        let (low, high) = match f.get(OIL) {
            Some(oil) if oil < GRADE_30 => self.thin,
            Some(oil) if oil < GRADE_50 => self.middle,
            Some(_) => self.thick,
            None => (self.middle.0, self.thick.1),
        };
        // a bracket engine is run for years: what is looser is worn
        let high = if f.is(USE, &["bracket"]) { high.min(self.middle.1) } else { high };
        (low * 1e-3 * journal, high * 1e-3 * journal)
    }
    /// Where nobody would run this journal, in metres.
    pub(crate) fn never(&self, f: &Facts<'_>, journal: f64) -> (f64, f64) {
        let low = if raced(f) { self.never.1 } else { self.never.0 };
        (low * 1e-3 * journal, LOOSE * 1e-3 * journal)
    }
}

/// A card's window: its limits, and never further under than gauges can be apart, nor looser than any such journal runs.
pub(crate) fn card(limits: &JournalLimits, f: &Facts<'_>, journal: Option<f64>, low: f64, high: f64) -> Window {
    let loose = journal.map(|j| limits.never(f, j).1.max(high));
    let never_below = Some((low - GAUGES).max(0.0));
    Window { never_below, never_above: loose, ..crate::common::work(low, high) }
}

/// Metal to metal: at the least D alpha dT, what a steel journal 15 K hotter than its housing takes up.
pub(crate) fn meets(journal: Option<f64>) -> Window {
    const ALPHA: f64 = 12.3e-6;
    const HOTTER: f64 = 15.0;
    touches(journal.map_or(crate::common::TOUCH, |journal| journal * ALPHA * HOTTER))
}

/// Least viscosity of a grade at 100 °C, m²/s (SAE J300): 30 from 9.3, 50 from 16.3.
const GRADE_30: f64 = 9.3e-6 * (1.0 - 1e-9);
const GRADE_50: f64 = 16.3e-6 * (1.0 - 1e-9);
