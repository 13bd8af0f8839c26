//! What a rule gives back.

use thou_contract::Level;
use thou_contract::answer::{
    Finding, OutcomeState, Raw, ReasonNumber, RuleOutcome, Said, Service, Step, TextNumber, Window,
};

/// What became of a rule: what its function returns.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Outcome {
    /// It gave at least one window, finding, service or step.
    Answered,
    /// It looked and has nothing to say.
    Clear,
    /// This engine has no such thing.
    NotApplicable(ReasonNumber),
    /// Outside the rule's valid range.
    CannotSay(ReasonNumber),
}

impl From<Outcome> for OutcomeState {
    fn from(outcome: Outcome) -> Self {
        match outcome {
            Outcome::Answered => Self::Answered,
            Outcome::Clear => Self::Clear,
            Outcome::NotApplicable(reason) => Self::NotApplicable(reason.0),
            Outcome::CannotSay(reason) => Self::CannotSay(reason.0),
        }
    }
}

/// The answer of a pack as it grows, rule by rule.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Answer {
    rule: u32,
    raw: Raw,
}

impl Answer {
    pub(crate) fn begin(&mut self, rule: u32) {
        self.rule = rule;
    }

    /// Notes what became of the rule that was begun last; `before` is how many windows there were before it. Where its
    /// own do not hold together they go, and it cannot say for this reason: a card with its figures crossed must not
    /// cost the other rules their answer.
    pub(crate) fn end(&mut self, outcome: Outcome, before: usize, crossed: ReasonNumber) {
        let windows = &mut self.raw.windows;
        let crosses = windows.iter().skip(before).any(|w| !w.what.holds_together());
        if crosses {
            windows.truncate(before);
        }
        let outcome = if crosses { Outcome::CannotSay(crossed) } else { outcome };
        self.raw.outcomes.push(RuleOutcome { rule: self.rule, state: outcome.into() });
    }

    /// How many windows there are.
    pub(crate) fn windows(&self) -> usize {
        self.raw.windows.len()
    }

    pub(crate) fn into_raw(self) -> Raw {
        self.raw
    }

    fn say<T>(&mut self, what: T, args: &[f64]) -> Said<T, u32> {
        let start = self.raw.numbers.len();
        self.raw.numbers.extend_from_slice(args);
        Said { rule: self.rule, what, args: u32::try_from(start).unwrap_or(u32::MAX) }
    }
    /// Gives a window.
    pub fn window(&mut self, window: Window) {
        self.window_with(window, &[]);
    }
    /// Gives a window whose text has arguments.
    pub fn window_with(&mut self, window: Window, args: &[f64]) {
        let window = self.say(window, args);
        self.raw.windows.push(window);
    }
    /// Gives a finding about the engine.
    pub fn finding(&mut self, level: Level, text: TextNumber, args: &[f64]) {
        self.finding_at(level, None, text, args);
    }
    /// Gives a finding about a place.
    pub fn finding_at(&mut self, level: Level, place: Option<u32>, text: TextNumber, args: &[f64]) {
        let finding = self.say(Finding { level, place, text: text.0 }, args);
        self.raw.findings.push(finding);
    }
    /// Gives a service.
    pub fn service(&mut self, service: Service, args: &[f64]) {
        let service = self.say(service, args);
        self.raw.services.push(service);
    }
    /// Gives a step.
    pub fn step(&mut self, place: Option<u32>, text: TextNumber, args: &[f64]) {
        let step = self.say(Step { place, text: text.0 }, args);
        self.raw.steps.push(step);
    }
}
