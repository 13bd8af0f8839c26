//! What the catalogue says of a fact, for `explain`, for the manifest of a pack and for messages.

use thou_contract::Kind;
use thou_sheet::Axis;

/// What the values of a fact are.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ValueKind {
    /// A quantity, in SI.
    Quantity(Kind),
    /// One of these words; the value is its index here, -1 for a word of somebody else's.
    Choice(&'static [&'static str]),
    /// Yes or no: 1 or 0.
    Flag,
}

impl ValueKind {
    /// As a manifest names it: the kind of quantity, `choice` or `flag`.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::Quantity(kind) => kind.id(),
            Self::Choice(_) => "choice",
            Self::Flag => "flag",
        }
    }
    /// The kind of quantity, if it is one.
    #[must_use]
    pub fn kind(self) -> Option<Kind> {
        match self {
            Self::Quantity(kind) => Some(kind),
            Self::Choice(_) | Self::Flag => None,
        }
    }
}

/// One entry of the catalogue.
#[derive(Debug, Clone, PartialEq)]
pub struct FactInfo {
    /// Its name: kebab-case, parts joined by dots.
    pub id: &'static str,
    /// What its values are.
    pub value: ValueKind,
    /// What they run over.
    pub axis: Axis,
    /// One line.
    pub about: &'static str,
    /// Where the formula, or else the figure, comes from.
    pub source: &'static str,
    /// Facts it is derived from, every way there is; empty where it is only read.
    pub needs: Vec<&'static str>,
    /// The section of the sheet whose `state` (new, reused, reconditioned) counts for it.
    pub part: Option<&'static str>,
    /// Whether a gauge brings it: it has readings of its own.
    pub measured: bool,
    /// Where the sheet holds it, as a dotted path.
    pub path: Option<&'static str>,
    /// Where else the sheet may hold it, one figure for all places.
    pub fallback: Option<&'static str>,
    /// Every field of the sheet that it is made of directly, by any way there is.
    pub fields: Vec<&'static str>,
    /// For a reduction that came by itself: the series it was made of.
    pub series: Option<&'static str>,
}

impl FactInfo {
    /// Whether nobody is asked for this reading: it is judged where it is there. Once one place is read, the others are
    /// asked for.
    #[must_use]
    pub fn when_read(&self) -> bool {
        let key = self.path.and_then(|p| p.strip_prefix("readings."));
        key.and_then(thou_fields::reading).is_some_and(|r| r.when_read)
    }
}
