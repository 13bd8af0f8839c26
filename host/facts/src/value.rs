//! What a fact is worth at one place: a number with everything it hangs on, or what is missing for it.

use jiff::civil::Date;
use std::collections::BTreeSet;

/// How well a figure is known; the worst of those it was made from wins.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Grade {
    /// Somebody held a gauge to it.
    Measured,
    /// The sheet says so: a nominal size, a card, a plan.
    Stated,
    /// Nobody said: a usual figure was taken.
    Default,
}

/// One thing that a value hangs on: a reading, the bias of a master, a stated field, a default.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct RootId(pub(crate) u32);

/// What one root does to a value.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Share {
    /// Sensitivity times the root's standard uncertainty, in the value's own SI unit; signed.
    pub cu: f64,
    /// How well the root is known.
    pub grade: Grade,
}

/// Roots in the order of their ids, each once.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Roots(Vec<(RootId, Share)>);

impl Roots {
    /// One root.
    #[must_use]
    pub fn one(id: RootId, cu: f64, grade: Grade) -> Self {
        Self(vec![(id, Share { cu, grade })])
    }
    /// Every root with its share, by id.
    pub fn iter(&self) -> impl Iterator<Item = (RootId, Share)> + '_ {
        self.0.iter().copied()
    }
    /// Every id.
    pub fn keys(&self) -> impl Iterator<Item = RootId> + '_ {
        self.0.iter().map(|r| r.0)
    }
    /// The share of one root.
    #[must_use]
    pub fn get(&self, id: RootId) -> Option<Share> {
        self.0.binary_search_by_key(&id, |r| r.0).ok().and_then(|at| self.0.get(at)).map(|r| r.1)
    }
    /// How many there are.
    #[must_use]
    pub fn len(&self) -> usize {
        self.0.len()
    }
    /// Whether the value hangs on nothing.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
    /// Adds the roots of another value, its shares times `by`: shares of one root add with their sign, so that a bias
    /// common to both sides of a difference cancels (JCGM 100:2008, 5.2.2).
    pub(crate) fn add(&mut self, other: &Self, by: f64) {
        if self.0.is_empty() {
            self.0.extend(other.0.iter().map(|(id, s)| (*id, Share { cu: by * s.cu, ..*s })));
            return;
        }
        let mine = std::mem::take(&mut self.0);
        let mut merged = Vec::with_capacity(mine.len() + other.0.len());
        let (mut a, mut b) = (mine.into_iter().peekable(), other.0.iter().peekable());
        loop {
            match (a.peek(), b.peek()) {
                (Some(x), Some(y)) if x.0 == y.0 => {
                    merged.push((x.0, Share { cu: x.1.cu + by * y.1.cu, grade: x.1.grade.max(y.1.grade) }));
                    a.next();
                    b.next();
                }
                (Some(x), y) if y.is_none_or(|y| x.0 < y.0) => {
                    merged.push(*x);
                    a.next();
                }
                (_, Some(y)) => {
                    merged.push((y.0, Share { cu: by * y.1.cu, ..y.1 }));
                    b.next();
                }
                _ => break,
            }
        }
        self.0 = merged;
    }
}

/// Which way a true value can lie from a figure that is only a bound of it, as of a formula past what it was fitted to.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Bound {
    /// So much or more.
    OrMore,
    /// So much or less.
    OrLess,
}

impl Bound {
    /// As programs read it.
    #[must_use]
    pub fn id(self) -> &'static str {
        match self {
            Self::OrMore => "or-more",
            Self::OrLess => "or-less",
        }
    }
    /// As it is said after the figure.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::OrMore => "or more",
            Self::OrLess => "or less",
        }
    }
    /// Of a value that falls where this one grows.
    #[must_use]
    pub(crate) fn turned(self) -> Self {
        match self {
            Self::OrMore => Self::OrLess,
            Self::OrLess => Self::OrMore,
        }
    }
}

/// A value in SI with what it hangs on.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Num {
    /// SI.
    pub value: f64,
    /// What it hangs on.
    pub roots: Roots,
    /// Where the value is a bound and no figure.
    pub bound: Option<Bound>,
}

impl Num {
    /// A figure with what it hangs on.
    #[must_use]
    pub(crate) fn of(value: f64, roots: Roots) -> Self {
        Self { value, roots, bound: None }
    }
    /// Standard uncertainty (k = 1), in the value's own SI unit: the shares of independent roots add in squares
    /// (JCGM 100:2008, eq. 10).
    #[must_use]
    pub fn uncertainty(&self) -> f64 {
        // not sum(): of nothing that is -0.0
        self.roots.iter().fold(0.0, |sum, (_, s)| sum + s.cu * s.cu).sqrt()
    }
    /// The worst grade of its roots; `Stated` where it has none.
    #[must_use]
    pub fn grade(&self) -> Grade {
        self.roots.iter().map(|(_, s)| s.grade).max().unwrap_or(Grade::Stated)
    }
}

/// Why there is no value.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Missing {
    /// A reading that its set has a hole for: JSON pointer of where to write it, such as `/readings/bore/at/6`.
    NotRead(String),
    /// A field that the sheet does not have: its dotted path, such as `crank.stroke` or `readings.bore`.
    Field(String),
    /// All there, but outside what the formula holds for: what to look at.
    Outside(String),
}

/// One place of a fact: its value, or everything that would bring it.
pub type PlaceValue = Result<Num, BTreeSet<Missing>>;

/// What is known of a root.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Root {
    /// Where the sheet has it, as a JSON pointer; empty for a default and for the bias of a master not in the sheet.
    pub pointer: String,
    /// What it is: "bore, 6, top thrust", "stroke", "set on ring-4".
    pub what: String,
    /// The gauge that read it: the shop's own name, or the kind of gauge that was taken for it.
    pub gauge: Option<String>,
    /// No gauge was named: the usual one for such a reading was taken.
    pub assumed_gauge: bool,
    /// The day it was read.
    pub when: Option<Date>,
    /// The stage it was read at.
    pub stage: Option<String>,
    /// Whether the torque plate was on.
    pub plate: Option<bool>,
    /// The key of its readings, such as `bore`; none for anything that was not read.
    pub reading: Option<String>,
}
