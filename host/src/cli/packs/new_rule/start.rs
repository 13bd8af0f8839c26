//! What a rule is started with.

use thou_contract::Kind;

/// What a rule can be started as.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub(super) enum Answers {
    /// Limits that a fact must lie between
    Window,
    /// A combination that does not suit
    Finding,
    /// Something to do, in its order
    Step,
}

/// What a rule is started with.
pub(super) struct Start<'a> {
    /// Kebab-case.
    pub(super) id: &'a str,
    /// The same as a module.
    pub(super) module: String,
    pub(super) answers: Answers,
    pub(super) operation: &'a str,
    /// The fact that a window limits, and its kind of quantity.
    pub(super) judges: Option<(&'a str, Kind)>,
}
