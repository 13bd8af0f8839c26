//! A window that a rule gave, with its words.

use super::item::ArgValue;
use std::collections::BTreeMap;
use thou_contract::{Basis, Remedy};
use thou_judge::{Levels, Limits};

/// One window of one rule, with its words.
#[derive(Debug, Clone, PartialEq)]
pub struct WindowItem {
    /// `pack/rule`.
    pub rule: String,
    /// As a heading; with the fact's name where the rule judges several.
    pub title: String,
    /// The page it belongs on.
    pub operation: String,
    /// The fact it judges.
    pub fact: String,
    /// One place of the fact's axis, or every place.
    pub place: Option<usize>,
    /// The limits.
    pub limits: Limits,
    pub(super) levels: Levels,
    /// A wear limit.
    pub reuse: bool,
    /// The words.
    pub text: AnswerText,
    /// What it rests on.
    pub basis: Basis,
    /// What its never-limits rest on.
    pub hold_basis: Basis,
    /// Whose the never-limits are.
    pub hold_whose: String,
    /// Why it matters.
    pub why: String,
}

/// The words of an answer.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct AnswerText {
    /// What is wanted or wrong.
    pub words: String,
    /// Whose it is.
    pub whose: String,
    /// What to do when it is too small, or at all.
    pub low: Option<Remedy>,
    /// What to do when it is too large.
    pub high: Option<Remedy>,
    /// The arguments.
    pub args: BTreeMap<String, ArgValue>,
}
