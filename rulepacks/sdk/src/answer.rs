//! What a rule gives back.

use thou_contract::Level;
use thou_contract::answer::{Finding, Outcome, Raw, Said, Service, State, Step, Window};

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
    pub(crate) fn end(&mut self, state: State, before: usize, crossed: u32) {
        let windows = &mut self.raw.windows;
        let crosses = windows.iter().skip(before).any(|w| !w.what.holds_together());
        if crosses {
            windows.truncate(before);
        }
        let state = if crosses { State::CannotSay(crossed) } else { state };
        self.raw.outcomes.push(Outcome { rule: self.rule, state });
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
    pub fn finding(&mut self, level: Level, text: u32, args: &[f64]) {
        self.finding_at(level, None, text, args);
    }
    /// Gives a finding about a place.
    pub fn finding_at(&mut self, level: Level, place: Option<u32>, text: u32, args: &[f64]) {
        let finding = self.say(Finding { level, place, text }, args);
        self.raw.findings.push(finding);
    }
    /// Gives a service.
    pub fn service(&mut self, service: Service, args: &[f64]) {
        let service = self.say(service, args);
        self.raw.services.push(service);
    }
    /// Gives a step.
    pub fn step(&mut self, place: Option<u32>, text: u32, args: &[f64]) {
        let step = self.say(Step { place, text }, args);
        self.raw.steps.push(step);
    }
}
