//! What a pack answered, after every number in it was checked.

use crate::Level;

/// A pack's answer. Every index in it points at something and every number in it is finite.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Answer {
    /// One for each rule asked, in the order asked.
    pub outcomes: Vec<Outcome>,
    /// Limits that a fact must lie between.
    pub windows: Vec<Window>,
    /// Combinations that do not suit the intent.
    pub findings: Vec<Finding>,
    /// What is due after so much use.
    pub services: Vec<Service>,
    /// What is done, in the manifest's order.
    pub steps: Vec<Step>,
}

/// What became of one rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Outcome {
    /// Index of the manifest's `rules`.
    pub rule: u32,
    /// What became of it.
    pub state: State,
}

/// What became of a rule that was asked; the number indexes the rule's `reasons`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum State {
    /// It gave at least one window, finding, service or step.
    Answered,
    /// It looked and has nothing to say.
    Clear,
    /// This engine has no such thing.
    NotApplicable(u32),
    /// Outside the rule's valid range.
    CannotSay(u32),
}

/// A fact must lie between these limits: SI, inclusive, in rising order, at least one of them there.
#[derive(Debug, Clone, PartialEq)]
pub struct Window {
    /// Index of the manifest's `rules`.
    pub rule: u32,
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
    /// The text's arguments, in its order, in SI.
    pub args: Vec<f64>,
}

/// This combination does not suit that intent.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// Index of the manifest's `rules`.
    pub rule: u32,
    /// How much it matters; not yet capped by the basis.
    pub level: Level,
    /// One place, or the engine.
    pub place: Option<u32>,
    /// Index of the rule's `texts`.
    pub text: u32,
    /// The text's arguments, in its order, in SI.
    pub args: Vec<f64>,
}

/// Do this after so much use. `low <= nominal <= high`, in SI of its meter: m, s, or a count.
#[derive(Debug, Clone, PartialEq)]
pub struct Service {
    /// Index of the manifest's `rules`.
    pub rule: u32,
    /// One place, or the engine.
    pub place: Option<u32>,
    /// Index of the manifest's `meters`.
    pub meter: u32,
    /// A careful shop has it apart by then.
    pub low: f64,
    /// Plan for it.
    pub nominal: f64,
    /// Not past it unmeasured.
    pub high: f64,
    /// Index of the rule's `texts`.
    pub text: u32,
    /// The text's arguments, in its order, in SI.
    pub args: Vec<f64>,
}

/// Do this.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// Index of the manifest's `rules`.
    pub rule: u32,
    /// One place, or the engine.
    pub place: Option<u32>,
    /// Index of the rule's `texts`.
    pub text: u32,
    /// The text's arguments, in its order, in SI.
    pub args: Vec<f64>,
}
