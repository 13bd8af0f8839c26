//! The limits of a window, and how loudly each side of it speaks.

use thou_contract::answer::Window;
use thou_contract::{Basis, Level, Rule, RuleText};

/// The limits that a reading is held to, inclusive and in one unit.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Limits {
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
}

impl Limits {
    /// Those of a window.
    #[must_use]
    pub const fn of(window: &Window) -> Self {
        let Window { never_below, low, aim, high, never_above, .. } = *window;
        Self { never_below, low, aim, high, never_above }
    }
}

/// How loudly each side of a window speaks, after its basis has capped it. Outside the never-limits is always a hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Levels {
    /// Under `low`.
    pub below: Level,
    /// Over `high`.
    pub above: Level,
    /// Whether the working limits are physics: a reading has to be proven to be inside them.
    pub physics: bool,
}

impl Levels {
    /// The levels of both sides, capped by what the working limits rest on.
    #[must_use]
    pub fn capped(below: Level, above: Level, basis: Basis) -> Self {
        Self { below: basis.cap(below), above: basis.cap(above), physics: basis == Basis::Physics }
    }

    /// Those of a window that its rule gives with this text.
    #[must_use]
    pub fn of(window: &Window, rule: &Rule, text: Option<&RuleText>) -> Self {
        Self::capped(window.below, window.above, basis(rule, text))
    }

    /// The loudest that this window can be.
    #[must_use]
    pub fn at_stake(self, limits: &Limits) -> Level {
        let sides = [
            limits.low.map(|_| self.below),
            limits.high.map(|_| self.above),
            limits.never_below.or(limits.never_above).map(|_| Level::Hold),
        ];
        sides.into_iter().flatten().max().unwrap_or(Level::Note)
    }
}

/// What the working limits of an answer rest on, or a finding: its text's basis, else its rule's.
#[must_use]
pub fn basis(rule: &Rule, text: Option<&RuleText>) -> Basis {
    text.and_then(|t| t.basis).unwrap_or(rule.basis)
}

/// What the never-limits of an answer rest on: what its text says, else what its rule says, else what the working limits
/// rest on.
#[must_use]
pub fn hold_basis(rule: &Rule, text: Option<&RuleText>) -> Basis {
    text.and_then(|t| t.hold_basis).or(rule.hold_basis).unwrap_or_else(|| basis(rule, text))
}
