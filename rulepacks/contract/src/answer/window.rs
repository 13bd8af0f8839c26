//! A window: the limits that a fact must lie between.

use super::{JudgedNumber, TextNumber};
use crate::Level;

/// A fact must lie between these limits: SI, inclusive, in rising order, at least one of them there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Window {
    /// Index of the rule's `judges`.
    pub fact: u32,
    /// One place of that fact's axis, or every place.
    pub place: Option<u32>,
    /// Below this it must not run.
    pub never_below: Option<f64>,
    /// Work to this or more.
    pub low: Option<f64>,
    /// Aim at this.
    pub aim: Option<f64>,
    /// Work to this or less.
    pub high: Option<f64>,
    /// Above this it must not run.
    pub never_above: Option<f64>,
    /// How much it matters to be under `low`; not yet capped by the basis.
    pub below: Level,
    /// How much it matters to be over `high`; not yet capped by the basis.
    pub above: Level,
    /// A wear limit, for a used part alone.
    pub reuse: bool,
    /// Index of the rule's `texts`.
    pub text: u32,
}

impl Window {
    /// A window on the rule's first judged fact, warn on both sides, with the rule's first text.
    #[must_use]
    pub const fn new() -> Self {
        Self {
            fact: 0,
            place: None,
            never_below: None,
            low: None,
            aim: None,
            high: None,
            never_above: None,
            below: Level::Warn,
            above: Level::Warn,
            reuse: false,
            text: 0,
        }
    }
    /// From low to high.
    #[must_use]
    pub const fn between(low: f64, high: f64) -> Self {
        Self { low: Some(low), high: Some(high), ..Self::new() }
    }
    /// This or more.
    #[must_use]
    pub const fn at_least(low: f64) -> Self {
        Self { low: Some(low), ..Self::new() }
    }
    /// This or less.
    #[must_use]
    pub const fn at_most(high: f64) -> Self {
        Self { high: Some(high), ..Self::new() }
    }
    /// Aim at this.
    #[must_use]
    pub const fn aim(self, aim: f64) -> Self {
        Self { aim: Some(aim), ..self }
    }
    /// Never below this.
    #[must_use]
    pub const fn never_below(self, limit: f64) -> Self {
        Self { never_below: Some(limit), ..self }
    }
    /// Never above this.
    #[must_use]
    pub const fn never_above(self, limit: f64) -> Self {
        Self { never_above: Some(limit), ..self }
    }
    /// How much each side matters.
    #[must_use]
    pub const fn levels(self, below: Level, above: Level) -> Self {
        Self { below, above, ..self }
    }
    /// At this place only.
    #[must_use]
    pub const fn at(self, place: u32) -> Self {
        Self { place: Some(place), ..self }
    }
    /// On another of the rule's judged facts.
    #[must_use]
    pub const fn judging(self, fact: JudgedNumber) -> Self {
        Self { fact: fact.0, ..self }
    }
    /// A wear limit.
    #[must_use]
    pub const fn reuse(self) -> Self {
        Self { reuse: true, ..self }
    }
    /// With another of the rule's texts.
    #[must_use]
    pub const fn text(self, text: TextNumber) -> Self {
        Self { text: text.0, ..self }
    }
    /// Its limits in rising order: never below, low, aim, high, never above.
    #[must_use]
    pub const fn limits(&self) -> [Option<f64>; 5] {
        [self.never_below, self.low, self.aim, self.high, self.never_above]
    }
    /// Whether its limits are numbers, in rising order, at least one of them there beside the aim.
    #[must_use]
    pub fn holds_together(&self) -> bool {
        let (mut count, mut last) = (0_u32, f64::NEG_INFINITY);
        for limit in self.limits().into_iter().flatten() {
            if !limit.is_finite() || limit < last {
                return false;
            }
            (count, last) = (count + 1, limit);
        }
        // an aim alone limits nothing
        count > u32::from(self.aim.is_some())
    }
}

impl Default for Window {
    fn default() -> Self {
        Self::new()
    }
}
