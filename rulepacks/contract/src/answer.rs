//! What a pack answers: one record for each thing that a rule can say, for the kit that makes it and the host that
//! reads it.
//!
//! [`Raw`] is an answer as it crosses the border, with the arguments of all texts one after another; [`CheckedAnswer`] has
//! each item's own beside it.

mod border;
mod window;

use crate::{Level, Manifest};
pub use window::Window;

/// One of a rule's `texts`, by its place there. The kit's `texts!` makes one with a name for each.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TextNumber(pub u32);

impl TextNumber {
    /// The text of a rule that has one.
    pub const ONLY: Self = Self(0);
}

/// One of a rule's `reasons`, by its place there. The kit's `reasons!` makes one with a name for each.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ReasonNumber(pub u32);

/// One of the facts that a rule judges, by its place in `judges`. The kit's `judges!` makes one with a name for each.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct JudgedNumber(pub u32);

/// Something that a rule said.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Said<T, A = Vec<f64>> {
    /// Index of the manifest's `rules`.
    pub rule: u32,
    /// What it said.
    pub what: T,
    /// The text's arguments, in its order, in SI; in a [`Raw`] answer the place in its `numbers` where they start.
    pub args: A,
}

impl<T: Clone, A> Said<T, A> {
    /// The same with these arguments.
    pub fn with<B>(&self, args: B) -> Said<T, B> {
        Said { rule: self.rule, what: self.what.clone(), args }
    }
}

/// A pack's answer. Every index in it points at something and every number in it is finite.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct CheckedAnswer {
    /// One for each rule asked, in the order asked.
    pub outcomes: Vec<RuleOutcome>,
    /// Limits that a fact must lie between.
    pub windows: Vec<Said<Window>>,
    /// Combinations that do not suit the intent.
    pub findings: Vec<Said<Finding>>,
    /// What is due after so much use.
    pub services: Vec<Said<Service>>,
    /// What is done, in the manifest's order.
    pub steps: Vec<Said<Step>>,
}

/// An answer as it crosses the border, of whatever version of the contract, with nothing checked.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Raw {
    /// One for each rule asked, if all is well.
    pub outcomes: Vec<RuleOutcome>,
    /// Windows.
    pub windows: Vec<Said<Window, u32>>,
    /// Findings.
    pub findings: Vec<Said<Finding, u32>>,
    /// Services.
    pub services: Vec<Said<Service, u32>>,
    /// Steps.
    pub steps: Vec<Said<Step, u32>>,
    /// The arguments of all of them.
    pub numbers: Vec<f64>,
}

/// What became of one rule.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct RuleOutcome {
    /// Index of the manifest's `rules`.
    pub rule: u32,
    /// What became of it.
    pub state: OutcomeState,
}

/// What became of a rule that was asked; the number indexes the rule's `reasons`.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OutcomeState {
    /// It gave at least one window, finding, service or step.
    Answered,
    /// It looked and has nothing to say.
    Clear,
    /// This engine has no such thing.
    NotApplicable(u32),
    /// Outside the rule's valid range.
    CannotSay(u32),
}

/// This combination does not suit that intent.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Finding {
    /// How much it matters; not yet capped by the basis.
    pub level: Level,
    /// One place, or the engine.
    pub place: Option<u32>,
    /// Index of the rule's `texts`.
    pub text: u32,
}

/// Do this after so much use. `low <= nominal <= high`, in SI of its meter: m, s, or a count.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Service {
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
}

/// Do this.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// One place, or the engine.
    pub place: Option<u32>,
    /// Index of the rule's `texts`.
    pub text: u32,
}

impl Raw {
    /// The same with each item's arguments beside it, as many as the manifest's text has; nothing else is checked.
    ///
    /// # Errors
    /// When a text's arguments are not all there.
    pub fn plain(&self, manifest: &Manifest) -> Result<CheckedAnswer, String> {
        Ok(CheckedAnswer {
            outcomes: self.outcomes.clone(),
            windows: self.each(manifest, &self.windows, |w| w.text)?,
            findings: self.each(manifest, &self.findings, |f| f.text)?,
            services: self.each(manifest, &self.services, |s| s.text)?,
            steps: self.each(manifest, &self.steps, |s| s.text)?,
        })
    }

    fn each<T: Clone>(
        &self,
        manifest: &Manifest,
        all: &[Said<T, u32>],
        text: impl Fn(&T) -> u32,
    ) -> Result<Vec<Said<T>>, String> {
        let plain = |said: &Said<T, u32>| {
            let text = text(&said.what);
            let texts = manifest.rules.get(said.rule as usize).map(|r| r.texts.as_slice()).unwrap_or_default();
            let count = texts.get(text as usize).map_or(0, |t| t.args.len());
            let from = said.args as usize;
            let args = if count == 0 { Some(&[][..]) } else { self.numbers.get(from..from + count) };
            let args = args.ok_or_else(|| format!("it gives text {text} with fewer than its {count} arguments"))?;
            Ok(said.with(args.to_vec()))
        };
        all.iter().map(plain).collect()
    }
}
