//! The words for what became of a thing that was judged.

use thou_contract::Level;

/// What became of it, worst first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    /// Outside what it must never pass, or outside a window whose side holds.
    NoGo,
    /// Inside a hold limit, but nearer to it than the gauge can tell.
    Unproven,
    /// Outside what shops work to.
    Look,
    /// Something it hangs on was changed since it was read.
    Stale,
    /// Not read yet, or the sheet lacks what the rule needs.
    Open,
    /// Outside the rule's valid range.
    CannotSay,
    /// Worth knowing.
    Note,
    /// Inside its window as measured.
    Go,
    /// This engine has no such thing.
    DoesNotApply,
}

impl State {
    /// Every state, worst first.
    pub const ALL: [Self; 9] = [
        Self::NoGo,
        Self::Unproven,
        Self::Look,
        Self::Stale,
        Self::Open,
        Self::CannotSay,
        Self::Note,
        Self::Go,
        Self::DoesNotApply,
    ];
    /// The word that the report prints.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::NoGo => "no-go",
            Self::Unproven => "unproven",
            Self::Look => "look",
            Self::Stale => "stale",
            Self::Open => "open",
            Self::CannotSay => "cannot say",
            Self::Note => "note",
            Self::Go => "go",
            Self::DoesNotApply => "does not apply",
        }
    }
    /// What it comes to to be outside a limit of this level.
    #[must_use]
    pub fn from_level(level: Level) -> Self {
        match level {
            Level::Hold => Self::NoGo,
            Level::Warn => Self::Look,
            Level::Note => Self::Note,
        }
    }
}
